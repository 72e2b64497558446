using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Messages;
using MitigationOffice.Web.Tests.Work;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>Each rule that an office starts with: what it counts from, when it speaks, when it stops.</summary>
public sealed class RulesTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    private async Task<List<Reminder>> PlannedAsync(string rule)
    {
        await office.WithDbAsync(db => PlanReminders.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime));
        return await office.WithDbAsync(db => db.Reminders.AsNoTracking().Where(r => r.RuleCode == rule && r.State == ReminderState.Planned).OrderBy(r => r.DueOn).ToListAsync());
    }

    private Task ChangeAsync(int system, Action<InstalledSystem> change) => office.WithDbAsync(async db =>
    {
        change(await db.Systems.Include(s => s.Components).SingleAsync(s => s.Id == system));
        await db.SaveChangesAsync();
    });

    [Fact]
    public async Task A_house_that_was_never_tested_is_asked_to_test_two_years_after_the_start()
    {
        await office.AddHouseWithSystemAsync("never@alder.example", Utc(2024, 3, 10));
        var due = Assert.Single(await PlannedAsync(SeedReminderRules.Retest));
        Assert.Equal(new DateOnly(2026, 3, 10), due.DueOn);
        Assert.Contains("No valid test is on record", due.Because, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_battery_goes_by_the_alarms_model()
    {
        await office.AddHouseWithSystemAsync("model@alder.example", Utc(2026, 2, 1), new DateOnly(2026, 2, 1));
        await office.WithDbAsync(async db => { (await db.ReminderRules.SingleAsync(r => r.Code == SeedReminderRules.AlarmBattery)).ByModel = "chime 9 = 18\nOther = 6"; await db.SaveChangesAsync(); });
        Assert.Equal(new DateOnly(2027, 8, 1), (await PlannedAsync(SeedReminderRules.AlarmBattery))[0].DueOn);
        await office.WithDbAsync(async db => { (await db.ReminderRules.SingleAsync(r => r.Code == SeedReminderRules.AlarmBattery)).ByModel = "Chime 9 = 0"; await db.SaveChangesAsync(); });
        Assert.Empty(await PlannedAsync(SeedReminderRules.AlarmBattery));
    }

    [Fact]
    public async Task A_system_without_a_fan_is_tested_in_both_seasons_of_its_first_year()
    {
        var (house, system) = await office.AddHouseWithSystemAsync("passive@alder.example", Utc(2026, 2, 20));
        await ChangeAsync(system, s => s.SystemType = "Passive stack");
        Assert.Equal([new DateOnly(2026, 7, 15), new DateOnly(2027, 1, 15)], (await PlannedAsync(SeedReminderRules.BothSeasons)).Select(r => r.DueOn));
        await office.AddTestAsync(house, Utc(2026, 3, 1));
        Assert.Equal([new DateOnly(2026, 7, 15)], (await PlannedAsync(SeedReminderRules.BothSeasons)).Select(r => r.DueOn));
        await ChangeAsync(system, s => s.SystemType = "Sub-slab suction");
        Assert.Empty(await PlannedAsync(SeedReminderRules.BothSeasons));
    }

    [Fact]
    public async Task After_a_sale_building_work_and_a_new_fan_a_test_is_due_until_one_was_made()
    {
        var (house, system) = await office.AddHouseWithSystemAsync("sold@alder.example", Utc(2025, 2, 1));
        await office.AddTestAsync(house, Utc(2025, 2, 10));
        await office.WithDbAsync(async db =>
        {
            (await db.HouseOwners.SingleAsync(o => o.HouseId == house)).ToDay = new DateOnly(2026, 2, 20);
            db.HouseOwners.Add(new() { HouseId = house, Customer = new() { Name = "Second Alder", Email = "second@alder.example" }, FromDay = new DateOnly(2026, 2, 20) });
            db.HouseChanges.Add(new HouseChange { HouseId = house, OnDay = new DateOnly(2026, 2, 25), Words = "new furnace" });
            await db.SaveChangesAsync();
        });
        await ChangeAsync(system, s => s.Components.Add(new SystemComponent { Kind = ComponentKind.Fan, Model = "North 3", FittedOn = new DateOnly(2026, 2, 26) }));
        Assert.Equal(new DateOnly(2026, 3, 22), Assert.Single(await PlannedAsync(SeedReminderRules.NewOwner)).DueOn);
        Assert.Equal(new DateOnly(2026, 3, 11), Assert.Single(await PlannedAsync(SeedReminderRules.HouseChanged)).DueOn);
        Assert.Equal(new DateOnly(2026, 3, 5), Assert.Single(await PlannedAsync(SeedReminderRules.FanChanged)).DueOn);
        await office.AddTestAsync(house, Utc(2026, 3, 2), reason: TestReason.AfterChange);
        foreach (var rule in new[] { SeedReminderRules.NewOwner, SeedReminderRules.HouseChanged, SeedReminderRules.FanChanged })
            Assert.Empty(await PlannedAsync(rule));
    }

    [Fact]
    public async Task The_gauge_note_comes_every_autumn_and_not_when_the_season_is_over()
    {
        office.ClockTo(new DateOnly(2026, 12, 5), 10);
        var (_, system) = await office.AddHouseWithSystemAsync("gauge@alder.example", Utc(2025, 3, 1));
        await ChangeAsync(system, s => s.Components.Add(new SystemComponent { Kind = ComponentKind.Gauge, Model = "U-tube manometer", FittedOn = s.CompletedOn }));
        Assert.Equal([new DateOnly(2027, 10, 15), new DateOnly(2028, 10, 15)], (await PlannedAsync(SeedReminderRules.GaugeLook)).Select(r => r.DueOn));
    }

    [Fact]
    public async Task The_end_of_a_fans_warranty_is_told_two_months_before_and_not_after()
    {
        var (_, system) = await office.AddHouseWithSystemAsync("fan@alder.example", Utc(2021, 5, 1));
        await ChangeAsync(system, s => s.Components.Add(new SystemComponent { Kind = ComponentKind.Fan, Model = "North 3", FittedOn = s.CompletedOn, WarrantyUntil = new DateOnly(2026, 5, 1) }));
        var due = Assert.Single(await PlannedAsync(SeedReminderRules.FanWarranty));
        Assert.Equal((new DateOnly(2026, 5, 1), new DateOnly(2026, 3, 2)), (due.DueOn, due.SendOn));
        office.ClockTo(new DateOnly(2026, 5, 2), 10);
        Assert.Empty(await PlannedAsync(SeedReminderRules.FanWarranty));
    }

    [Fact]
    public async Task The_office_reminds_itself_of_a_licence_once()
    {
        await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10));
        await office.WithDbAsync(async db => { db.Licences.Add(new Licence { Holder = "Ada Quill", Number = "MN-77", IssuedBy = "The state", ExpiresOn = new DateOnly(2026, 4, 20) }); await db.SaveChangesAsync(); });
        office.ClockTo(new DateOnly(2026, 3, 4), 10);
        await office.RunFollowUpAsync();
        var mail = office.MailTo("office@lanternridge.example");
        Assert.Contains("MN-77 of Ada Quill ends on Apr 20, 2026", Assert.Single(mail).TextBody!, StringComparison.Ordinal);
        Assert.All(mail, m => Assert.DoesNotContain("my-house", m.TextBody!, StringComparison.Ordinal));
        office.ClockTo(new DateOnly(2026, 3, 5), 10);
        await office.RunFollowUpAsync();
        Assert.Single(office.MailTo("office@lanternridge.example"));
    }

    [Fact]
    public async Task The_office_reminds_itself_of_a_calibration_until_a_newer_one_is_written_down()
    {
        var monitor = new Instrument { Kind = InstrumentKind.ContinuousMonitor, Serial = "HG-1", SerialKey = "HG1", Model = "Hourglass", Calibrations = [new Calibration { DoneOn = new DateOnly(2025, 3, 20), DueOn = new DateOnly(2026, 3, 20) }] };
        var old = new Instrument { Kind = InstrumentKind.Manometer, Serial = "DM-1", SerialKey = "DM1", Retired = true, Calibrations = [new Calibration { DoneOn = new DateOnly(2025, 3, 20), DueOn = new DateOnly(2026, 3, 20) }] };
        await office.WithDbAsync(async db => { db.Instruments.AddRange(monitor, old); await db.SaveChangesAsync(); });
        // Thirty days before is over, seven days before is ahead; of the two only the later could still be said at once.
        Assert.Equal([new DateOnly(2026, 2, 18), new DateOnly(2026, 3, 13), new DateOnly(2026, 3, 21)], (await PlannedAsync(SeedReminderRules.CalibrationEnd)).Select(r => r.DueOn));
        await office.RunFollowUpAsync();
        Assert.Contains("The calibration of Hourglass, serial number HG-1, ends on Mar 20, 2026.", Assert.Single(office.MailTo("office@lanternridge.example")).TextBody!, StringComparison.Ordinal);
        await office.WithDbAsync(async db => { db.Add(new Calibration { InstrumentId = monitor.Id, DoneOn = new DateOnly(2026, 3, 1), DueOn = new DateOnly(2027, 3, 1) }); await db.SaveChangesAsync(); });
        Assert.Equal([new DateOnly(2027, 1, 30), new DateOnly(2027, 2, 22), new DateOnly(2027, 3, 2)], (await PlannedAsync(SeedReminderRules.CalibrationEnd)).Select(r => r.DueOn));
    }

    [Fact]
    public async Task A_plan_that_does_not_know_the_days_of_reports_leaves_their_reminders_alone()
    {
        var report = new Reminder { RuleCode = SeedReminderRules.StateReport, Key = "state-report:x-Freeze:-7:20260310:20260303", DueOn = new DateOnly(2026, 3, 3), SendOn = new DateOnly(2026, 3, 3), Because = "A report is due." };
        await office.WithDbAsync(async db => { db.Reminders.Add(report); await db.SaveChangesAsync(); });
        Assert.Single(await PlannedAsync(SeedReminderRules.StateReport));
        await office.WithDbAsync(db => PlanReminders.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime, [new Business.StateReports.ReportDays()]));
        Assert.Equal(ReminderState.Replaced, await office.WithDbAsync(db => db.Reminders.Where(r => r.Id == report.Id).Select(r => r.State).SingleAsync()));
    }

    [Fact]
    public async Task Nothing_is_planned_past_the_years_that_the_building_is_to_stand()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("stands@alder.example", Utc(2026, 2, 20));
        await office.WithDbAsync(async db => { (await db.Houses.SingleAsync(h => h.Id == house)).YearsInUse = 1; await db.SaveChangesAsync(); });
        Assert.Empty(await PlannedAsync(SeedReminderRules.Retest));
        Assert.Equal(2, (await PlannedAsync(SeedReminderRules.TestNotBack)).Count);
    }

    private Task DesignAsync(int house, int? system, double days) => office.WithDbAsync(async db =>
    {
        var design = new Business.Design.SuctionDesign { HouseId = house, Revision = "X", FreezeDaysAtRisk = days };
        db.Designs.Add(design);
        await db.SaveChangesAsync();
        if (system is { } built) (await db.Systems.SingleAsync(s => s.Id == built)).SuctionDesignId = design.Id;
        else await db.Acceptances.ExecuteUpdateAsync(s => s.SetProperty(a => a.SuctionDesignId, design.Id));
        await db.SaveChangesAsync();
    });

    [Theory]
    [InlineData(22.6, null, false, 2)]
    [InlineData(22.6, 20, false, 2)]
    [InlineData(22.6, 30, false, 0)]
    [InlineData(0.4, null, false, 0)]
    [InlineData(22.6, null, true, 0)]
    public async Task A_built_design_with_days_at_risk_and_no_cable_brings_the_freeze_note_once_a_season(double days, int? from, bool cable, int notes)
    {
        var (house, system) = await office.AddHouseWithSystemAsync("ice@alder.example", Utc(2025, 3, 1));
        await DesignAsync(house, system, days);
        await office.WithDbAsync(async db =>
        {
            (await db.ReminderRules.SingleAsync(r => r.Code == SeedReminderRules.FreezeSeason)).AtRiskDays = from;
            if (cable) (await db.Systems.Include(s => s.Components).SingleAsync(s => s.Id == system)).Components.Add(new() { Kind = ComponentKind.HeatCable, Model = "Ember 5", FittedOn = new DateOnly(2025, 3, 1) });
            await db.SaveChangesAsync();
        });
        var planned = await PlannedAsync(SeedReminderRules.FreezeSeason);
        Assert.Equal(new DateOnly[] { new(2026, 11, 20), new(2027, 11, 20) }.Take(notes), planned.Select(r => r.DueOn));
        Assert.All(planned, r => Assert.Contains("about 23 days of a winter", r.Because, StringComparison.Ordinal));
        office.ClockTo(new DateOnly(2026, 11, 20), 10);
        await office.RunFollowUpAsync();
        office.ClockTo(new DateOnly(2026, 12, 20), 10);
        await office.RunFollowUpAsync();
        Assert.Equal(notes > 0 ? 1 : 0, office.MailTo("ice@alder.example").Count(m => m.TextBody!.Contains("about 23 days of a winter", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task An_accepted_design_counts_where_none_is_on_record_as_built_and_a_cable_taken_with_it_is_silent()
    {
        var (house, _, system) = await office.HouseWithRunningSystemAsync();
        await office.WithDbAsync(db => db.Systems.Where(s => s.Id == system).ExecuteUpdateAsync(s => s.SetProperty(x => x.SuctionDesignId, (int?)null)));
        await DesignAsync(house, null, 9);
        Assert.All(await PlannedAsync(SeedReminderRules.FreezeSeason), r => Assert.Contains("about 9 days", r.Because, StringComparison.Ordinal));
        Assert.NotEmpty(await PlannedAsync(SeedReminderRules.FreezeSeason));
        await office.WithDbAsync(async db =>
        {
            var revision = await db.Acceptances.Select(a => a.QuoteRevisionId).SingleAsync();
            var cable = new Business.Quotes.QuoteAddOn { QuoteRevisionId = revision, Position = 9, Words = "Heat cable", OfferedFor = OfferReason.FreezeGuard };
            db.Add(cable);
            await db.SaveChangesAsync();
            var taken = $"{cable.Id}";
            await db.Acceptances.ExecuteUpdateAsync(s => s.SetProperty(a => a.AddOnIds, taken));
        });
        Assert.Empty(await PlannedAsync(SeedReminderRules.FreezeSeason));
    }

    [Fact]
    public async Task A_rule_may_say_letter_first()
    {
        await office.WithDbAsync(async db => { (await db.ReminderRules.SingleAsync(r => r.Code == SeedReminderRules.TestNotBack)).Channel = ReminderChannel.Letter; await db.SaveChangesAsync(); });
        await office.AddHouseWithSystemAsync("post@alder.example", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        Assert.Empty(office.MailTo("post@alder.example"));
        Assert.Contains("the rule says by letter", await (await office.SignInAsOfficeAsync()).TextAsync("/follow-up/letters"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("14, x", "Write the days as numbers")]
    [InlineData("1,2,3,4,5,6,7", "at most six")]
    public void Days_that_cannot_be_read_are_refused(string typed, string words) => Assert.Contains(words, ReminderDays.Problem(typed), StringComparison.Ordinal);

    [Theory]
    [InlineData("13-01")]
    [InlineData("2-30")]
    [InlineData("")]
    [InlineData("Oct 15")]
    public void A_day_of_the_year_that_is_none_is_refused(string typed) => Assert.Null(ReminderDays.Season(typed));
}
