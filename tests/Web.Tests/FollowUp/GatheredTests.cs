using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Tests.Messages;
using UglyToad.PdfPig;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>What is due at one house on one day is one message or one letter; each reminder keeps its own record.</summary>
public sealed class GatheredTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    /// <summary>On 2 March 2026: a retest, a battery.</summary>
    private async Task<int> HouseAsync(string email, string street = "14 Larkspur Hill Road")
    {
        var (house, _) = await office.AddHouseWithSystemAsync(email, Utc(2024, 3, 1), new DateOnly(2025, 3, 5), street: street);
        await office.AddTestAsync(house, Utc(2024, 3, 10));
        return house;
    }

    private Task<List<Reminder>> ComeAsync(int house) =>
        office.WithDbAsync(db => db.Reminders.AsNoTracking().Where(r => r.HouseId == house && r.SendOn <= new DateOnly(2026, 3, 2)).OrderBy(r => r.DueOn).ToListAsync());

    private Task MakeCommercialAsync(string rule) => office.WithDbAsync(async db => { (await db.ReminderRules.SingleAsync(r => r.Code == rule)).Commercial = true; await db.SaveChangesAsync(); });

    [Fact]
    public async Task Two_reminders_of_one_day_are_one_message_with_one_greeting()
    {
        var house = await HouseAsync("two@alder.example");
        await office.RunFollowUpAsync();
        var message = Assert.Single(office.MailTo("two@alder.example"));
        Assert.Equal("Two things about your radon system at 14 Larkspur Hill Road, Birchford", message.Subject);
        var text = message.TextBody!.ReplaceLineEndings("\n");
        Assert.Equal(2, text.Split("Dear Wren Alder").Length);
        Assert.Equal(2, text.Split("my-house/").Length);
        Assert.Contains("1. Time for a new battery in your radon system's alarm\n\nThe alarm of the radon system", text, StringComparison.Ordinal);
        Assert.Contains("2. A radon test of your house is due\n\nA house with a radon system", text, StringComparison.Ordinal);
        Assert.Equal(3, message.HtmlBody!.Split("<h2").Length);
        Assert.All(await ComeAsync(house), r => Assert.Equal(ReminderState.Sent, r.State));
        Assert.Single((await ComeAsync(house)).Select(r => r.OutboxMessageId).Distinct());
        await office.RunFollowUpAsync();
        Assert.Single(office.MailTo("two@alder.example"));
    }

    [Fact]
    public async Task Upkeep_and_an_offer_go_apart_and_an_opt_out_of_offers_leaves_the_other()
    {
        await MakeCommercialAsync(SeedReminderRules.Retest);
        var both = await HouseAsync("both@alder.example");
        await office.WithDbAsync(async db =>
        {
            db.Suppressions.Add(new Suppression { Address = "upkeep@alder.example", Class = MailClass.Commercial, AtUtc = OfficeApp.Start.UtcDateTime, Why = "test" });
            await db.SaveChangesAsync();
        });
        var upkeep = await HouseAsync("upkeep@alder.example", "3 Teal Way");
        await office.RunFollowUpAsync();
        Assert.Equal(["A radon test of your house is due", "Time for a new battery in your radon system's alarm"], office.MailTo("both@alder.example").Select(m => m.Subject).Order(StringComparer.Ordinal));
        Assert.Equal(2, (await ComeAsync(both)).Select(r => r.OutboxMessageId).Distinct().Count());
        Assert.Contains("battery", Assert.Single(office.MailTo("upkeep@alder.example")).Subject, StringComparison.Ordinal);
        Assert.Equal([ReminderState.Sent, ReminderState.Planned], (await ComeAsync(upkeep)).Select(r => r.State));
    }

    [Fact]
    public async Task One_that_may_not_be_mailed_does_not_hold_the_other_back()
    {
        await office.WithDbAsync(async db => { (await db.ReminderRules.SingleAsync(r => r.Code == SeedReminderRules.Retest)).Channel = ReminderChannel.Phone; await db.SaveChangesAsync(); });
        var house = await HouseAsync("one@alder.example");
        await office.RunFollowUpAsync();
        Assert.Contains("battery", Assert.Single(office.MailTo("one@alder.example")).Subject, StringComparison.Ordinal);
        Assert.Equal([ReminderState.Sent, ReminderState.Planned], (await ComeAsync(house)).Select(r => r.State));
    }

    [Fact]
    public async Task A_message_that_came_back_brings_all_its_reminders_to_the_list()
    {
        var house = await HouseAsync("back@alder.example");
        await office.RunFollowUpAsync();
        var id = (await ComeAsync(house))[0].OutboxMessageId!.Value;
        await office.WithDbAsync(db => ResolveMail.CameBackAsync(db, id, "Bram Oster", office.Clock.GetUtcNow().UtcDateTime));
        await office.RunFollowUpAsync();
        var page = await (await office.SignInAsOfficeAsync()).GetStringAsync("/follow-up/letters");
        foreach (var reminder in await ComeAsync(house)) Assert.Contains($"print-{reminder.Id}\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_senders_at_once_gather_each_reminder_into_one_message()
    {
        for (var i = 0; i < 6; i++) await HouseAsync($"race{i}@alder.example", $"{i} Teal Way");
        await office.WithDbAsync(db => PlanReminders.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime));
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => office.WithAsync<QueueDueReminders, int>(queue => queue.RunAsync()))));
        Assert.Equal(6, await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.HouseId != null)));
        Assert.Equal(12, await office.WithDbAsync(db => db.Reminders.CountAsync(r => r.State == ReminderState.Queued)));
    }

    [Fact]
    public async Task One_letter_says_both_and_is_filed_among_the_houses_papers_once_it_is_posted()
    {
        var house = await HouseAsync("");
        await office.RunFollowUpAsync();
        var desk = await office.SignInAsOfficeAsync();
        var first = (await desk.SubmitAsync("/follow-up/letters", [])).Headers.Location!.OriginalString;
        Assert.Contains("1 letter", await desk.TextAsync(first), StringComparison.Ordinal);
        await desk.SubmitAsync(first, [], "form[action*=Back]");
        Assert.DoesNotContain("Letter:", await desk.TextAsync($"/houses/{house}/papers"), StringComparison.Ordinal);
        var run = (await desk.SubmitAsync("/follow-up/letters", [])).Headers.Location!.OriginalString;
        using var letters = PdfDocument.Open(await desk.GetByteArrayAsync($"{run}?handler=File"));
        Assert.Equal(1, letters.NumberOfPages);
        var text = string.Join(' ', letters.GetPage(1).GetWords().Select(w => w.Text));
        Assert.Contains("1. Time for a new battery", text, StringComparison.Ordinal);
        Assert.Contains("2. A radon test of your house is due", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(run, [], "form[action*=Posted]")).StatusCode);
        Assert.Contains("Letter: Two things about your radon system", await desk.TextAsync($"/houses/{house}/papers"), StringComparison.Ordinal);
        var filed = await office.WithDbAsync(db => db.Documents.AsNoTracking().Where(d => d.HouseId == house).SingleAsync());
        using var paper = PdfDocument.Open(filed.Bytes);
        Assert.Equal(text, string.Join(' ', paper.GetPage(1).GetWords().Select(w => w.Text)));
        Assert.Equal(HttpStatusCode.OK, (await desk.GetAsync($"/houses/{house}/papers/{filed.Id}")).StatusCode);
    }

    [Fact]
    public async Task What_the_office_has_to_see_to_on_one_day_is_one_message()
    {
        await office.WithDbAsync(async db =>
        {
            db.Licences.Add(new() { Holder = "Ada Quill", Number = "MN-77", IssuedBy = "The state", ExpiresOn = new DateOnly(2026, 3, 10) });
            db.Licences.Add(new() { Holder = "Cleo Marsh", Number = "MN-78", IssuedBy = "The state", ExpiresOn = new DateOnly(2026, 3, 12) });
            await db.SaveChangesAsync();
        });
        await office.RunFollowUpAsync();
        var message = Assert.Single(office.MailTo("office@lanternridge.example"));
        Assert.Equal("Two things for the office to see to", message.Subject);
        Assert.Contains("MN-77", message.TextBody, StringComparison.Ordinal);
        Assert.Contains("MN-78", message.TextBody, StringComparison.Ordinal);
    }
}
