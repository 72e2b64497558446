using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Tests.Messages;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

public sealed class FollowUpPagesTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    [Fact]
    public async Task The_sheet_of_a_house_shows_what_is_ahead_what_was_sent_and_its_exact_words()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("wren@alder.example", Utc(2026, 2, 10), new DateOnly(2026, 2, 10));
        await office.RunFollowUpAsync();
        var desk = await office.SignInAsOfficeAsync();
        var text = await desk.TextAsync($"/houses/{house}/follow-up");
        Assert.Contains("Feb 10, 2027 · Alarm battery", text, StringComparison.Ordinal);
        Assert.Contains("The system began to run on Feb 10, 2026; 14 days later we had no test result.", text, StringComparison.Ordinal);
        var id = await office.WithDbAsync(db => db.Outbox.Select(m => m.Id).SingleAsync());
        var message = await desk.TextAsync($"/follow-up/messages/{id}");
        foreach (var line in office.MailTo("wren@alder.example")[0].TextBody!.ReplaceLineEndings("\n").Split('\n')) Assert.Contains(line.Trim(), message, StringComparison.Ordinal);
        var file = await (await desk.GetAsync($"/follow-up/messages/{id}?handler=File")).Content.ReadAsByteArrayAsync();
        Assert.Equal((await office.MessageAsync(id)).Mime, file);
    }

    [Fact]
    public async Task A_reminder_is_dropped_and_another_told_by_hand_on_the_sheet()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 20), new DateOnly(2026, 2, 20));
        var desk = await office.SignInAsOfficeAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync($"/houses/{house}/follow-up", [], "form.acts")).StatusCode);
        await desk.SubmitAsync($"/houses/{house}/follow-up", new() { ["note"] = "called" }, "form.settle");
        await desk.SubmitAsync($"/houses/{house}/follow-up", new() { ["note"] = "not needed" }, "form.settle", "button.quiet");
        var settled = await office.WithDbAsync(db => db.Reminders.AsNoTracking().Where(r => r.HouseId == house && r.Note != "").OrderBy(r => r.DueOn).ToListAsync());
        Assert.Equal([(ReminderState.DoneByHand, "Bram Oster: called"), (ReminderState.Dropped, "Bram Oster: not needed")], settled.Select(r => (r.State, r.Note)));
    }

    [Fact]
    public async Task Who_has_no_address_is_listed_by_letter_or_phone_and_in_the_file()
    {
        await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10), street: "=7 Heron Street");
        await office.RunFollowUpAsync();
        var desk = await office.SignInAsOfficeAsync();
        var text = await desk.TextAsync("/follow-up");
        Assert.Contains("Not by e-mail: no e-mail address", text, StringComparison.Ordinal);
        var csv = await (await desk.GetAsync("/follow-up/letters?handler=Csv")).Content.ReadAsStringAsync();
        Assert.Contains("\"'=7 Heron Street, Birchford, MN 55999\"", csv, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_refused_message_and_an_uncertain_one_are_listed_and_settled()
    {
        var id = await office.QueueLetterAsync(MailVerbs.ALetter("unsure"));
        await office.WithDbAsync(async db => { (await db.Outbox.SingleAsync()).State = DeliveryState.Uncertain; await db.SaveChangesAsync(); });
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("may have arrived", await desk.TextAsync("/follow-up"), StringComparison.Ordinal);
        await desk.SubmitAsync("/follow-up", [], "form[action*='handler=Mail']", "button[value=back]");
        Assert.Equal(DeliveryState.Refused, (await office.MessageAsync(id)).State);
        Assert.Equal("reader@wren.example", await office.WithDbAsync(db => db.Suppressions.Select(s => s.Address).SingleAsync()));
    }

    [Fact]
    public async Task A_rule_with_an_unknown_field_is_refused_and_keeps_its_typing()
    {
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync("/follow-up/rules/retest", new() { ["Input.Body"] = "Dear {nmae}, it is due." });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains("There is no field {nmae}.", html, StringComparison.Ordinal);
        Assert.Contains("Dear {nmae}, it is due.", html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/follow-up/rules/retest", new() { ["Input.LeadDays"] = "30" })).StatusCode);
        Assert.Equal(30, await office.WithDbAsync(db => db.ReminderRules.Where(r => r.Code == "retest").Select(r => r.LeadDays).SingleAsync()));
    }

    [Fact]
    public async Task The_words_are_shown_for_a_real_house_and_a_test_goes_to_who_asks()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("wren@alder.example", Utc(2026, 2, 10));
        var desk = await office.SignInAsOfficeAsync();
        var shown = await desk.SubmitAsync("/follow-up/rules/retest", new() { ["HouseId"] = $"{house}", ["Input.Subject"] = "For {name} only" }, button: "button[formaction*=Show]");
        Assert.Contains("For Wren Alder only", await shown.TextAsync(), StringComparison.Ordinal);
        Assert.DoesNotContain("only", await office.WithDbAsync(db => db.ReminderRules.Where(r => r.Code == "retest").Select(r => r.Subject).SingleAsync()), StringComparison.Ordinal);
        await desk.SubmitAsync("/follow-up/rules/retest", new() { ["HouseId"] = $"{house}" }, button: "button[formaction*=Test]");
        await office.SendOutboxAsync();
        Assert.StartsWith("Test: ", Assert.Single(office.MailTo("desk@lanternridge.example")).Subject, StringComparison.Ordinal);
        Assert.Empty(office.MailTo("wren@alder.example"));
    }

    [Fact]
    public async Task An_address_is_written_to_again_only_with_a_reason_that_stays_in_the_audit_trail()
    {
        await office.WithDbAsync(async db => { db.Suppressions.Add(new Suppression { Address = "back@alder.example", AtUtc = OfficeApp.Start.UtcDateTime, Why = "A message came back." }); await db.SaveChangesAsync(); });
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Write why", await (await desk.SubmitAsync("/follow-up/stopped", [])).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(1, await office.WithDbAsync(db => db.Suppressions.CountAsync()));
        await desk.SubmitAsync("/follow-up/stopped", new() { ["note"] = "mailbox was full, is fixed" });
        Assert.Equal(0, await office.WithDbAsync(db => db.Suppressions.CountAsync()));
        Assert.Contains(await office.WithDbAsync(db => db.Audit.Select(a => a.Changes).ToListAsync()), c => c.Contains("is fixed", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/follow-up")]
    [InlineData("/follow-up/messages")]
    [InlineData("/follow-up/rules")]
    [InlineData("/follow-up/letters")]
    [InlineData("/follow-up/phone-list")]
    [InlineData("/follow-up/returned")]
    [InlineData("/follow-up/sender")]
    [InlineData("/follow-up/ahead")]
    [InlineData("/state-reports")]
    [InlineData("/state-reports/general-month/2026-02")]
    [InlineData("/houses/1/follow-up")]
    public async Task Follow_up_and_reports_are_not_for_installers(string page)
    {
        var crew = await office.SignInAsInstallerAsync();
        Assert.StartsWith("/not-allowed", (await crew.GetAsync(page)).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/houses/9999/follow-up")]
    [InlineData("/follow-up/messages/9999")]
    [InlineData("/follow-up/rules/nothing")]
    [InlineData("/state-reports/general-month/2026-13")]
    public async Task What_is_not_there_is_not_found(string page) => Assert.Equal(HttpStatusCode.NotFound, (await (await office.SignInAsOfficeAsync()).GetAsync(page)).StatusCode);

    [Fact]
    public async Task Empty_pages_say_what_they_are_for()
    {
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Nobody waits for a letter", await desk.TextAsync("/follow-up"), StringComparison.Ordinal);
        Assert.Contains("No message here", await desk.TextAsync("/follow-up/messages?find=zzz&state=Sent"), StringComparison.Ordinal);
    }
}
