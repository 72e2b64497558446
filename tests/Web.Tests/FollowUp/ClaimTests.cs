using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Messages;
using SmtpServer.Protocol;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>Facts that change after a reminder was written and before it left.</summary>
public sealed class ClaimTests : IAsyncLifetime
{
    private readonly OfficeWithServer office = new() { Settings = { ["PublicAddress"] = "http://localhost" } };

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    /// <summary>On 2 March 2026 a retest and a battery are due, and stand written in one message.</summary>
    private async Task<(int House, int System, OutboxMessage Message)> QueuedAsync(string email, bool battery = true)
    {
        var (house, system) = await office.AddHouseWithSystemAsync(email, Utc(2024, 3, 1), battery ? new DateOnly(2025, 3, 5) : null);
        await office.AddTestAsync(house, Utc(2024, 3, 10));
        await office.WithDbAsync(db => PlanReminders.RunAsync(db, Now));
        await office.WithAsync<QueueDueReminders, int>(queue => queue.RunAsync());
        return (house, system, await MessageOfAsync(house));
    }

    private DateTime Now => office.Clock.GetUtcNow().UtcDateTime;

    private Task<OutboxMessage> MessageOfAsync(int house) => office.WithDbAsync(db => db.Outbox.AsNoTracking().SingleAsync(m => m.HouseId == house));

    private Task<Reminder> ReminderAsync(int house, string rule) =>
        office.WithDbAsync(db => db.Reminders.AsNoTracking().Where(r => r.HouseId == house && r.RuleCode == rule && r.DueOn < new DateOnly(2026, 4, 1)).SingleAsync());

    private Task NewBatteryAsync(int system) => office.WithDbAsync(async db =>
    {
        (await db.Systems.Include(s => s.Components).SingleAsync(s => s.Id == system)).Components.Single(c => c.Kind == ComponentKind.Alarm).BatteryFittedOn = new DateOnly(2026, 2, 27);
        await db.SaveChangesAsync();
    });

    private Task SellAsync(int house, string? email) => office.WithDbAsync(async db =>
    {
        (await db.HouseOwners.SingleAsync(o => o.HouseId == house)).ToDay = new DateOnly(2026, 3, 1);
        if (email is not null) db.HouseOwners.Add(new HouseOwner { HouseId = house, Customer = new Customer { Name = "Teal Marlow", Email = email, Phone = "555-0155" }, FromDay = new DateOnly(2026, 3, 1) });
        await db.SaveChangesAsync();
    });

    /// <summary>A look that fails for one message.</summary>
    private sealed class FailsFor(int id) : IClaimCheck
    {
        public Task<ClaimVerdict> LookAsync(OfficeDb db, OutboxMessage message, DateTime nowUtc, CancellationToken cancel) =>
            message.Id == id ? throw new InvalidOperationException("a fact nobody foresaw") : Task.FromResult(ClaimVerdict.Go);
    }

    [Fact]
    public async Task One_that_cannot_be_looked_at_waits_and_holds_up_nobody()
    {
        var (first, _, stuck) = await QueuedAsync("stuck@alder.example");
        var (second, _, _) = await QueuedAsync("behind@alder.example");
        await using var scope = office.Services.CreateAsyncScope();
        var of = scope.ServiceProvider;
        var round = await new SendOutbox(
            of.GetRequiredService<OfficeDb>(), of.GetRequiredService<MailSettings>(), of.GetRequiredService<MailFolder>(), of.GetRequiredService<ClockWatch>(), [new FailsFor(stuck.Id)], office.Clock).RunAsync();
        Assert.Equal(1, round.Sent);
        Assert.Equal(DeliveryState.Sent, (await MessageOfAsync(second)).State);
        var put = await MessageOfAsync(first);
        Assert.Equal((DeliveryState.Waiting, 0, Now.AddHours(1)), (put.State, put.Attempts, put.NextTryUtc));
        Assert.Contains("a fact nobody foresaw", put.LastAnswer, StringComparison.Ordinal);
        office.Clock.Advance(TimeSpan.FromHours(2));
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
    }

    [Fact]
    public async Task Nothing_changed_goes_as_it_was_written()
    {
        var (house, _, written) = await QueuedAsync("same@alder.example");
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
        Assert.Equal(written.Mime, (await MessageOfAsync(house)).Mime);
        Assert.Equal(written.MessageId, Assert.Single(office.Sink.Taken).MessageId);
    }

    [Fact]
    public async Task A_message_of_which_one_reminder_fell_away_is_written_anew_with_the_same_id()
    {
        var (house, _, written) = await QueuedAsync("some@alder.example");
        await office.AddTestAsync(house, Utc(2026, 2, 27), reason: TestReason.Retest);
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
        var taken = Assert.Single(office.Sink.Taken);
        Assert.Equal("Time for a new battery in your radon system's alarm", taken.Subject);
        Assert.DoesNotContain("test of your house", taken.TextBody, StringComparison.Ordinal);
        Assert.DoesNotContain("test of your house", taken.HtmlBody, StringComparison.Ordinal);
        Assert.Equal(written.MessageId, taken.MessageId);
        var retest = await ReminderAsync(house, SeedReminderRules.Retest);
        Assert.Equal((ReminderState.Replaced, (int?)null), (retest.State, retest.OutboxMessageId));
        Assert.Contains("The last valid test ended on Feb 27, 2026. It is due on Feb 27, 2028 now.", retest.Note, StringComparison.Ordinal);
        Assert.Contains("Taken back before it was sent", await (await office.SignInAsOfficeAsync()).TextAsync($"/houses/{house}/follow-up"), StringComparison.Ordinal);
        await office.RunFollowUpAsync();
        Assert.Equal(ReminderState.Sent, (await ReminderAsync(house, SeedReminderRules.AlarmBattery)).State);
        Assert.Single(office.Sink.Taken);
    }

    [Fact]
    public async Task A_message_of_which_all_fell_away_is_not_sent_and_written_again_when_the_facts_go_back()
    {
        var (house, system, _) = await QueuedAsync("all@alder.example");
        var test = await office.AddTestAsync(house, Utc(2026, 2, 27), reason: TestReason.Retest);
        await NewBatteryAsync(system);
        await office.RunFollowUpAsync();
        Assert.Empty(office.Sink.Taken);
        var message = await MessageOfAsync(house);
        Assert.Equal((DeliveryState.Suppressed, 0), (message.State, message.Attempts));
        Assert.StartsWith("Not sent:", message.LastAnswer, StringComparison.Ordinal);
        // Neither is it somebody's work: nothing of it is on the list for letters.
        var letters = await (await office.SignInAsOfficeAsync()).TextAsync("/follow-up/letters");
        Assert.Contains("Letters and calls", letters, StringComparison.Ordinal);
        Assert.DoesNotContain("14 Larkspur", letters, StringComparison.Ordinal);
        await office.WithDbAsync(db => db.RadonTests.Where(t => t.Id == test).ExecuteUpdateAsync(s => s.SetProperty(t => t.Outcome, TestOutcome.NotValid)));
        await office.RunFollowUpAsync();
        Assert.Equal("A radon test of your house is due", Assert.Single(office.Sink.Taken).Subject);
    }

    [Fact]
    public async Task A_new_address_of_the_owner_gets_it_and_the_old_one_does_not()
    {
        var (house, _, written) = await QueuedAsync("old@alder.example");
        await office.WithDbAsync(db => db.Customers.Where(c => c.Email == "old@alder.example").ExecuteUpdateAsync(s => s.SetProperty(c => c.Email, "New@Alder.example")));
        await office.SendOutboxAsync();
        var taken = Assert.Single(office.Sink.Taken);
        Assert.Equal("new@alder.example", Assert.Single(taken.To.Mailboxes).Address, ignoreCase: true);
        Assert.Equal(written.MessageId, taken.MessageId);
        Assert.Equal("new@alder.example", (await MessageOfAsync(house)).ToAddress);
    }

    [Fact]
    public async Task A_new_address_that_asked_for_no_more_gets_nothing_and_the_reminder_goes_to_the_list()
    {
        var (house, _, _) = await QueuedAsync("was@alder.example");
        await office.WithDbAsync(async db =>
        {
            db.Suppressions.Add(new Suppression { Address = "none@alder.example", Class = MailClass.Upkeep, AtUtc = Now, Why = "Asked by the link in a message." });
            await db.SaveChangesAsync();
            await db.Customers.Where(c => c.Email == "was@alder.example").ExecuteUpdateAsync(s => s.SetProperty(c => c.Email, "none@alder.example"));
        });
        await office.RunFollowUpAsync();
        Assert.Empty(office.Sink.Taken);
        Assert.Equal(ReminderState.Planned, (await ReminderAsync(house, SeedReminderRules.Retest)).State);
        Assert.Contains("Asked by the link", await (await office.SignInAsOfficeAsync()).TextAsync("/follow-up/letters"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sold_house_is_written_to_its_new_owner_with_a_link_of_their_own()
    {
        var (house, _, written) = await QueuedAsync("seller@alder.example");
        await SellAsync(house, "buyer@marlow.example");
        await office.SendOutboxAsync();
        var taken = Assert.Single(office.Sink.Taken);
        Assert.Equal("buyer@marlow.example", Assert.Single(taken.To.Mailboxes).Address);
        Assert.Contains("Dear Teal Marlow", taken.TextBody, StringComparison.Ordinal);
        Assert.DoesNotContain("Wren", taken.ToString(), StringComparison.Ordinal);
        Assert.Equal(written.MessageId, taken.MessageId);
        var path = taken.TextBody!.Split("my-house/")[1].Split('\n')[0].Trim();
        Assert.Contains("Larkspur", await office.Visitor().TextAsync($"/my-house/{path}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sold_house_whose_owner_is_not_known_by_mail_is_not_written_to()
    {
        var (house, _, _) = await QueuedAsync("gone@alder.example");
        await SellAsync(house, null);
        await office.RunFollowUpAsync();
        Assert.Empty(office.Sink.Taken);
        Assert.Equal(ReminderState.Planned, (await ReminderAsync(house, SeedReminderRules.Retest)).State);
        Assert.Equal(DeliveryState.Suppressed, (await MessageOfAsync(house)).State);
    }

    [Fact]
    public async Task A_rule_that_was_switched_off_says_so()
    {
        var (house, _, _) = await QueuedAsync("off@alder.example", battery: false);
        await office.WithDbAsync(db => db.ReminderRules.Where(r => r.Code == SeedReminderRules.Retest).ExecuteUpdateAsync(s => s.SetProperty(r => r.Off, true)));
        await office.SendOutboxAsync();
        Assert.Empty(office.Sink.Taken);
        Assert.Contains("its rule is switched off", (await ReminderAsync(house, SeedReminderRules.Retest)).Note, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_that_a_server_refused_for_now_goes_anew_under_another_id()
    {
        var (house, _, written) = await QueuedAsync("later@alder.example");
        office.Sink.ToText = _ => new SmtpResponse(SmtpReplyCode.Aborted, "try later");
        Assert.Equal(1, (await office.SendOutboxAsync()).Later);
        await office.AddTestAsync(house, Utc(2026, 2, 27), reason: TestReason.Retest);
        office.Sink.Taken.Clear();
        office.Sink.ToText = _ => SmtpResponse.Ok;
        office.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
        var taken = Assert.Single(office.Sink.Taken);
        Assert.Equal("Time for a new battery in your radon system's alarm", taken.Subject);
        Assert.NotEqual(written.MessageId, taken.MessageId);
        Assert.Equal(taken.MessageId, (await MessageOfAsync(house)).MessageId);
    }

    [Fact]
    public async Task An_uncertain_one_is_neither_written_anew_nor_sent_once_more_once_its_facts_changed()
    {
        var (house, _, written) = await QueuedAsync("maybe@alder.example");
        office.Sink.CutAfterTaking = true;
        Assert.Equal(1, (await office.SendOutboxAsync()).Uncertain);
        office.Sink.CutAfterTaking = false;
        await office.AddTestAsync(house, Utc(2026, 2, 27), reason: TestReason.Retest);
        office.Clock.Advance(TimeSpan.FromHours(25));
        await office.SendOutboxAsync();
        var message = await MessageOfAsync(house);
        Assert.Equal((DeliveryState.Uncertain, (DateTime?)null), (message.State, message.ResentAtUtc));
        Assert.Equal(written.Mime, message.Mime);
        Assert.Contains("not sent once more", message.LastAnswer, StringComparison.Ordinal);
        Assert.Equal(ReminderState.Queued, (await ReminderAsync(house, SeedReminderRules.Retest)).State);
        Assert.Single(office.Sink.Taken);
        Assert.True(await office.WithDbAsync(db => ResolveMail.SendAgainAsync(db, message.Id, "Bram Oster", Now)));
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Uncertain, (await MessageOfAsync(house)).State);
        Assert.Single(office.Sink.Taken);
    }

    [Fact]
    public async Task An_uncertain_one_that_still_holds_goes_once_more_word_for_word()
    {
        var (house, _, written) = await QueuedAsync("again@alder.example");
        office.Sink.CutAfterTaking = true;
        await office.SendOutboxAsync();
        office.Sink.CutAfterTaking = false;
        await office.WithDbAsync(db => db.ReminderRules.Where(r => r.Code == SeedReminderRules.Retest).ExecuteUpdateAsync(s => s.SetProperty(r => r.Subject, "Other words")));
        office.Clock.Advance(TimeSpan.FromHours(25));
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
        Assert.Equal(written.Mime, (await MessageOfAsync(house)).Mime);
        Assert.All(office.Sink.Taken, m => Assert.Equal(written.MessageId, m.MessageId));
    }

    [Fact]
    public async Task A_calibration_done_meanwhile_is_not_asked_for_at_the_office()
    {
        var monitor = new Business.Shop.Instrument { Kind = Business.Shop.InstrumentKind.ContinuousMonitor, Model = "Hourglass", Serial = "HG-1", SerialKey = "HG1", Calibrations = [new() { DoneOn = new DateOnly(2025, 3, 1), DueOn = new DateOnly(2026, 3, 3) }] };
        await office.WithDbAsync(async db => { db.Instruments.Add(monitor); await db.SaveChangesAsync(); });
        await office.WithDbAsync(db => PlanReminders.RunAsync(db, Now));
        Assert.Equal(1, await office.WithAsync<QueueDueReminders, int>(queue => queue.RunAsync()));
        await office.WithDbAsync(async db => { db.Add(new Business.Shop.Calibration { InstrumentId = monitor.Id, DoneOn = new DateOnly(2026, 3, 1), DueOn = new DateOnly(2027, 3, 1) }); await db.SaveChangesAsync(); });
        await office.SendOutboxAsync();
        Assert.Empty(office.Sink.Taken);
    }

    /// <summary>Senders and a change of facts at once: what went out was either true when it was claimed or did not go, and nothing goes twice.</summary>
    [Fact]
    public async Task Facts_that_change_while_several_senders_run_never_send_twice()
    {
        var houses = new List<(int House, int System, OutboxMessage Message)>();
        for (var i = 0; i < 8; i++) houses.Add(await QueuedAsync($"race{i}@alder.example"));
        var senders = Enumerable.Range(0, 3).Select(_ => Task.Run(() => office.SendOutboxAsync()));
        var changes = Task.Run(async () => { foreach (var h in houses) await office.AddTestAsync(h.House, Utc(2026, 2, 27), reason: TestReason.Retest); });
        await Task.WhenAll([.. senders, changes]);
        await office.SendOutboxAsync();
        Assert.Equal(8, office.Sink.Taken.Count);
        Assert.Equal(8, office.Sink.Taken.Select(m => m.MessageId).Distinct().Count());
        foreach (var (house, _, _) in houses)
        {
            var retest = await ReminderAsync(house, SeedReminderRules.Retest);
            var said = office.Sink.Taken.Single(m => m.To.Mailboxes.Single().Address == $"race{houses.FindIndex(h => h.House == house)}@alder.example").TextBody!.Contains("A radon test of your house is due", StringComparison.Ordinal);
            // In the message exactly if it was not taken back.
            Assert.Equal(retest.State == ReminderState.Replaced, !said);
        }
    }
}
