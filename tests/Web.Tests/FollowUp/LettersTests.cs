using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using UglyToad.PdfPig;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>Who is not reached by e-mail gets a letter or a call; nothing falls through because of the channel.</summary>
public sealed class LettersTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    private Task<List<Reminder>> RemindersAsync(int house) =>
        office.WithDbAsync(db => db.Reminders.AsNoTracking().Where(r => r.HouseId == house && r.SendOn <= new DateOnly(2026, 3, 2)).ToListAsync());

    private async Task<byte[]> FileAsync(HttpClient desk, string address)
    {
        var answer = await desk.GetAsync(address);
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        return await answer.Content.ReadAsByteArrayAsync();
    }

    [Fact]
    public async Task Thousands_that_came_due_at_once_are_taken_the_oldest_first_and_a_run_at_a_time()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10), street: "14 Larkspur Hill Road");
        var (mailed, _) = await office.AddHouseWithSystemAsync("reached@house.example", Utc(2026, 2, 10), street: "15 Larkspur Hill Road");
        await office.WithDbAsync(db => PlanReminders.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime));
        await office.WithDbAsync(async db =>
        {
            var one = await db.Reminders.AsNoTracking().FirstAsync(r => r.HouseId == house && r.State == ReminderState.Planned && r.SendOn <= new DateOnly(2026, 3, 2));
            db.Audited = false;
            foreach (var (of, older) in ((int, int)[])[(house, 0), (mailed, -400)])
                db.Reminders.AddRange(Enumerable.Range(0, 1200).Select(i => new Reminder
                {
                    HouseId = of, RuleCode = one.RuleCode, Because = one.Because, Key = $"many:{of}:{i}", DueOn = new DateOnly(2025, 1, 1).AddDays(i % 300 + older), SendOn = new DateOnly(2025, 1, 1).AddDays(i % 300 + older),
                }));
            return await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        foreach (var page in (string[])["/follow-up", "/follow-up/letters", "/follow-up/phone-list"])
        {
            Assert.Contains("2,402 reminders are due", await desk.TextAsync(page), StringComparison.Ordinal);
            await office.AssertFewStatementsAsync(desk, page);
        }

        Assert.Equal(1202, (await desk.GetStringAsync("/follow-up/letters?handler=Csv")).Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        var html = await desk.GetStringAsync("/follow-up/letters");
        Assert.Equal(500, html.Split("name=\"Print\"").Length - 1);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/follow-up/letters", [])).StatusCode);
        Assert.Equal(500, await office.WithDbAsync(db => db.Reminders.CountAsync(r => r.State == ReminderState.Printed && r.DueOn < new DateOnly(2025, 7, 1))));
        // Older ones that go by e-mail do not stand before the letters.
        Assert.Contains("Print the letter to", await desk.GetStringAsync("/follow-up/letters"), StringComparison.Ordinal);
        Assert.Contains("1,902 reminders are due", await desk.TextAsync("/follow-up/letters"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Letters_are_printed_with_the_address_in_the_window_posted_and_settle_their_reminders()
    {
        var (first, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10), street: "14 Larkspur Hill Road");
        var (second, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 11), street: "3 Zürich–Straße Łąka");
        await office.RunFollowUpAsync();
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync("/follow-up/letters", new() { ["Labels"] = "letter-30", ["FirstLabel"] = "29" });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var run = answer.Headers.Location!.OriginalString;
        using var letters = PdfDocument.Open(await FileAsync(desk, $"{run}?handler=File"));
        Assert.Equal(2, letters.NumberOfPages);
        var page = letters.GetPage(1);
        Assert.Contains("Wren Alder", page.Text, StringComparison.Ordinal);
        Assert.Contains("not back", page.Text, StringComparison.Ordinal);
        // The window: 7/8 in to 4 3/8 in from the left, 2 in to 3 1/8 in below the top.
        var street = page.GetWords().First(w => w.Text == "Larkspur").BoundingBox;
        Assert.InRange(street.Left / 72, 0.875, 4.4);
        Assert.InRange((792 - street.Bottom) / 72, 2.0, 3.1);
        using var labels = PdfDocument.Open(await FileAsync(desk, $"{run}?handler=File&labels=true"));
        Assert.Equal(1, labels.NumberOfPages);
        var label = labels.GetPage(1).GetWords().First(w => w.Text == "Larkspur").BoundingBox;
        // Label 29 is the second of the last row: 2.9375 in from the left, 9.5 in below the top.
        Assert.InRange(label.Left / 72, 2.9375, 2.9375 + 2.625);
        Assert.InRange((792 - label.Top) / 72, 9.5, 10.5);
        Assert.All(await RemindersAsync(first), r => Assert.Equal(ReminderState.Printed, r.State));
        await office.RunFollowUpAsync();
        Assert.Contains("2 printed letters wait", await desk.TextAsync("/follow-up"), StringComparison.Ordinal);
        Assert.Contains("Nobody waits for a letter", await desk.TextAsync("/follow-up/letters"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(run, [], "form[action*=Posted]")).StatusCode);
        Assert.All((await RemindersAsync(first)).Concat(await RemindersAsync(second)), r => Assert.Equal((ReminderState.DoneByHand, "Bram Oster: letter posted"), (r.State, r.Note)));
    }

    [Fact]
    public async Task A_run_that_is_taken_back_puts_everything_on_the_list_again()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        var desk = await office.SignInAsOfficeAsync();
        var run = (await desk.SubmitAsync("/follow-up/letters", [])).Headers.Location!.OriginalString;
        await desk.SubmitAsync(run, [], "form[action*=Back]");
        Assert.All(await RemindersAsync(house), r => Assert.Equal(ReminderState.Planned, r.State));
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/follow-up/letters", [])).StatusCode);
        Assert.Equal(2, await office.WithDbAsync(db => db.LetterRuns.CountAsync()));
    }

    [Fact]
    public async Task Who_asked_for_no_mail_is_not_ticked_and_an_offer_is_not_posted_to_them_at_all()
    {
        await office.WithDbAsync(async db =>
        {
            db.Suppressions.Add(new Suppression { Address = "none@alder.example", Class = MailClass.Upkeep, AtUtc = OfficeApp.Start.UtcDateTime, Why = "Asked by the link in a message." });
            db.Suppressions.Add(new Suppression { Address = "none@alder.example", Class = MailClass.Commercial, AtUtc = OfficeApp.Start.UtcDateTime, Why = "Asked by the link in a message." });
            await db.SaveChangesAsync();
        });
        await office.AddHouseWithSystemAsync("none@alder.example", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        var desk = await office.SignInAsOfficeAsync();
        var html = await desk.GetStringAsync("/follow-up/letters");
        Assert.Contains("a letter about safety is up to you", html, StringComparison.Ordinal);
        Assert.DoesNotContain("checked", html, StringComparison.Ordinal);
        Assert.Contains("Tick at least one letter", await (await desk.SubmitAsync("/follow-up/letters", [])).TextAsync(), StringComparison.Ordinal);
        await office.WithDbAsync(async db => { (await db.ReminderRules.SingleAsync(r => r.Code == SeedReminderRules.TestNotBack)).Commercial = true; await db.SaveChangesAsync(); });
        html = await desk.GetStringAsync("/follow-up/letters");
        Assert.DoesNotContain("type=\"checkbox\"", html, StringComparison.Ordinal);
        Assert.Contains("drop it", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_list_for_the_phone_has_each_person_once_and_notes_the_call()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("tel:555-0123", await desk.GetStringAsync("/follow-up/phone-list"), StringComparison.Ordinal);
        var answer = await desk.SubmitAsync("/follow-up/phone-list", new() { ["note"] = "they mail it on Friday" });
        Assert.Equal("/follow-up/phone-list", answer.Headers.Location!.OriginalString);
        Assert.Contains(await RemindersAsync(house), r => r.Note == "Bram Oster: they mail it on Friday");
    }

    [Fact]
    public async Task Two_people_who_print_at_once_print_each_letter_once()
    {
        for (var i = 0; i < 5; i++) await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10), street: $"{i} Twin Lane");
        await office.RunFollowUpAsync();
        var ids = await office.WithDbAsync(db => db.Reminders.Where(r => r.State == ReminderState.Planned && r.HouseId != null && r.SendOn <= new DateOnly(2026, 3, 2)).Select(r => r.Id).ToListAsync());
        var runs = await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => Task.Run(() => office.WithAsync<MailSettings, int>(mail => office.WithDbAsync(async db =>
            (await MakeLetters.RunAsync(db, new LetterOrder(ids, null, 1, "Ada"), mail, OfficeApp.Start.UtcDateTime)).Run?.Letters ?? 0)))));
        Assert.Equal(5, runs.Sum());
    }

    [Theory]
    [InlineData("Wren Alder", "14 Larkspur Hill Road, Birchford, MN 55999", 3)]
    [InlineData("Wren Alder", "PO Box 5\nBirchford, MN 55999", 3)]
    [InlineData("", "14 Larkspur Hill Road, Unit 2, Birchford, MN 55999", 3)]
    public void An_address_is_broken_into_lines(string name, string postal, int lines)
    {
        var broken = LetterToPost.AddressLines(name, postal);
        Assert.Equal(lines, broken.Count);
        Assert.Equal("Birchford, MN 55999", broken[^1]);
    }

    [Fact]
    public void Every_label_of_every_sheet_lies_on_its_page()
    {
        Assert.NotEmpty(LabelSheet.All);
        foreach (var sheet in LabelSheet.All)
        {
            var (x, y) = sheet.Place(sheet.Count - 1);
            Assert.True(x + sheet.LabelIn[0] <= sheet.PageIn[0] && y + sheet.LabelIn[1] <= sheet.PageIn[1] + 0.01, sheet.Words);
            Assert.True(sheet.StepIn[0] >= sheet.LabelIn[0] && sheet.StepIn[1] >= sheet.LabelIn[1], sheet.Words);
        }
    }
}
