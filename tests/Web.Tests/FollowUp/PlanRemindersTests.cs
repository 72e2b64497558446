using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Messages;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

public sealed class PlanRemindersTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    private Task<PlanRound> PlanAsync() => office.WithDbAsync(db => PlanReminders.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime));

    private Task<List<Reminder>> RemindersAsync(int houseId) => office.WithDbAsync(db => db.Reminders.AsNoTracking().Where(r => r.HouseId == houseId).OrderBy(r => r.DueOn).ToListAsync());

    private async Task<Reminder> PlannedAsync(int houseId, string rule) =>
        (await RemindersAsync(houseId)).First(r => r.RuleCode == rule && r.State == ReminderState.Planned);

    [Fact]
    public async Task A_retest_is_due_two_years_after_the_last_valid_test()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("wren@alder.example", Utc(2026, 2, 1));
        await office.AddTestAsync(house, Utc(2026, 2, 10));
        await office.AddTestAsync(house, Utc(2026, 2, 20), TestOutcome.NotValid);
        await PlanAsync();
        var retest = await PlannedAsync(house, SeedReminderRules.Retest);
        Assert.Equal(new DateOnly(2028, 2, 10), retest.DueOn);
        Assert.Equal(new DateOnly(2028, 1, 20), retest.SendOn);
        Assert.Contains("Feb 10, 2026", retest.Because, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_years_after_29_February_is_28_February_and_four_years_after_29_again()
    {
        office.ClockTo(new DateOnly(2028, 3, 1), 10);
        var (house, _) = await office.AddHouseWithSystemAsync("leap@alder.example", Utc(2028, 2, 20));
        await office.AddTestAsync(house, Utc(2028, 2, 29));
        await PlanAsync();
        Assert.Equal(new DateOnly(2030, 2, 28), (await PlannedAsync(house, SeedReminderRules.Retest)).DueOn);
        office.ClockTo(new DateOnly(2030, 2, 10), 10);
        await office.RunFollowUpAsync();
        office.ClockTo(new DateOnly(2030, 3, 1), 10);
        await PlanAsync();
        Assert.Equal(new DateOnly(2032, 2, 29), (await PlannedAsync(house, SeedReminderRules.Retest)).DueOn);
    }

    [Fact]
    public async Task The_day_of_a_test_is_the_day_where_the_house_stands()
    {
        // 04:30 UTC is still the evening before in Anchorage.
        var (house, _) = await office.AddHouseWithSystemAsync("north@alder.example", Utc(2026, 2, 1), zone: "America/Anchorage");
        await office.AddTestAsync(house, Utc(2026, 2, 10, 4, 30));
        await PlanAsync();
        Assert.Equal(new DateOnly(2028, 2, 9), (await PlannedAsync(house, SeedReminderRules.Retest)).DueOn);
    }

    [Fact]
    public async Task Planning_again_changes_nothing()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("twice@alder.example", Utc(2026, 2, 20), new DateOnly(2026, 2, 20));
        await PlanAsync();
        var first = await RemindersAsync(house);
        Assert.Equal(new PlanRound(0, 0, 0), await PlanAsync());
        Assert.Equal(first.Select(r => (r.Id, r.Version)), (await RemindersAsync(house)).Select(r => (r.Id, r.Version)));
    }

    [Fact]
    public async Task Planners_at_the_same_time_plan_each_once()
    {
        for (var i = 0; i < 5; i++) await office.AddHouseWithSystemAsync($"p{i}@alder.example", Utc(2026, 2, 20), new DateOnly(2026, 2, 20), street: $"{i} Teal Way");
        var rounds = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(PlanAsync)));
        // Per house: two for a test not back, two for the battery within 24 months of today, one for a test two years after the start.
        Assert.Equal(25, rounds.Sum(r => r.Planned));
        Assert.Equal(25, await office.WithDbAsync(db => db.Reminders.CountAsync()));
    }

    [Fact]
    public async Task A_new_test_replaces_the_retest_planned_from_the_old_one_with_the_reason()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("new@alder.example", Utc(2026, 2, 1));
        await office.AddTestAsync(house, Utc(2026, 2, 10));
        await PlanAsync();
        await office.AddTestAsync(house, Utc(2026, 3, 1), reason: TestReason.Retest);
        Assert.Equal(new PlanRound(1, 1, 0), await PlanAsync());
        var all = (await RemindersAsync(house)).Where(r => r.RuleCode == SeedReminderRules.Retest).ToList();
        Assert.Equal([ReminderState.Replaced, ReminderState.Planned], all.Select(r => r.State));
        Assert.NotEqual("", all[0].Note);
        Assert.Equal(new DateOnly(2028, 3, 1), all[1].DueOn);
    }

    [Fact]
    public async Task When_the_facts_go_back_so_does_the_plan()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("back@alder.example", Utc(2026, 2, 1));
        await office.AddTestAsync(house, Utc(2026, 2, 10));
        await PlanAsync();
        var wrong = await office.AddTestAsync(house, Utc(2026, 3, 1));
        await PlanAsync();
        await office.WithDbAsync(async db => { (await db.RadonTests.SingleAsync(t => t.Id == wrong)).Outcome = TestOutcome.NotValid; await db.SaveChangesAsync(); });
        await PlanAsync();
        Assert.Equal(new DateOnly(2028, 2, 10), (await PlannedAsync(house, SeedReminderRules.Retest)).DueOn);
    }

    [Fact]
    public async Task What_was_sent_stays_and_a_small_correction_of_the_fact_does_not_send_it_twice()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("sent@alder.example", Utc(2024, 2, 1));
        var test = await office.AddTestAsync(house, Utc(2024, 3, 10));
        await office.RunFollowUpAsync();
        Assert.Single(office.MailTo("sent@alder.example"));
        await office.WithDbAsync(async db => { (await db.RadonTests.SingleAsync(t => t.Id == test)).EndedAtUtc = Utc(2024, 3, 11); await db.SaveChangesAsync(); });
        await office.RunFollowUpAsync();
        Assert.Single(office.MailTo("sent@alder.example"));
        Assert.Equal(ReminderState.Sent, (await RemindersAsync(house))[0].State);
    }

    [Fact]
    public async Task A_test_not_back_is_asked_for_after_14_and_30_days_and_not_once_it_is()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("kit@alder.example", Utc(2026, 3, 1));
        await office.RunFollowUpAsync();
        Assert.Empty(office.MailTo("kit@alder.example"));
        office.ClockTo(new DateOnly(2026, 3, 15), 10);
        await office.RunFollowUpAsync();
        Assert.Contains("not back", Assert.Single(office.MailTo("kit@alder.example")).Subject, StringComparison.Ordinal);
        await office.AddTestAsync(house, Utc(2026, 3, 20));
        office.ClockTo(new DateOnly(2026, 4, 2), 10);
        await office.RunFollowUpAsync();
        Assert.Single(office.MailTo("kit@alder.example"));
        Assert.Equal(ReminderState.Replaced, (await RemindersAsync(house)).Single(r => r.DueOn == new DateOnly(2026, 3, 31)).State);
    }

    [Fact]
    public async Task After_a_time_off_only_the_later_of_two_is_sent()
    {
        await office.AddHouseWithSystemAsync("late@alder.example", Utc(2026, 3, 1));
        await PlanAsync();
        office.ClockTo(new DateOnly(2026, 4, 20), 10);
        await office.RunFollowUpAsync();
        Assert.Contains("30 days later", Assert.Single(office.MailTo("late@alder.example")).TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_battery_moves_the_next_one()
    {
        var (house, system) = await office.AddHouseWithSystemAsync("bat@alder.example", Utc(2026, 2, 1), new DateOnly(2026, 2, 1));
        await PlanAsync();
        Assert.Equal(new DateOnly(2027, 2, 1), (await PlannedAsync(house, SeedReminderRules.AlarmBattery)).DueOn);
        await office.WithDbAsync(async db =>
        {
            var s = await db.Systems.Include(x => x.Components).SingleAsync(x => x.Id == system);
            s.Components[0].BatteryFittedOn = new DateOnly(2026, 3, 1);
            await db.SaveChangesAsync();
        });
        await PlanAsync();
        Assert.Equal(new DateOnly(2027, 3, 1), (await PlannedAsync(house, SeedReminderRules.AlarmBattery)).DueOn);
    }

    [Fact]
    public async Task A_rule_that_is_off_plans_nothing_and_takes_back_what_it_planned()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("off@alder.example", Utc(2026, 2, 20));
        await PlanAsync();
        await office.WithDbAsync(async db => { (await db.ReminderRules.SingleAsync(r => r.Code == SeedReminderRules.TestNotBack)).Off = true; await db.SaveChangesAsync(); });
        await PlanAsync();
        var notBack = (await RemindersAsync(house)).Where(r => r.RuleCode == SeedReminderRules.TestNotBack).ToList();
        Assert.Equal(2, notBack.Count);
        Assert.All(notBack, r => Assert.Equal(ReminderState.Replaced, r.State));
    }

    [Fact]
    public async Task What_a_person_dropped_is_not_planned_again()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("drop@alder.example", Utc(2026, 2, 1));
        await office.AddTestAsync(house, Utc(2026, 2, 10));
        await PlanAsync();
        var retest = await PlannedAsync(house, SeedReminderRules.Retest);
        Assert.True(await office.WithDbAsync(db => SettleReminders.DropAsync(db, retest.Id, "Ada Quill", "the house comes down")));
        await PlanAsync();
        Assert.Equal(ReminderState.Dropped, (await RemindersAsync(house)).Single(r => r.Id == retest.Id).State);
        Assert.DoesNotContain(await RemindersAsync(house), r => r.State == ReminderState.Planned && r.RuleCode == SeedReminderRules.Retest);
    }

    [Theory]
    [InlineData(8, 59, 0)]
    [InlineData(9, 0, 1)]
    [InlineData(16, 59, 1)]
    [InlineData(17, 0, 0)]
    [InlineData(2, 30, 0)]
    public async Task Reminders_leave_between_nine_and_five_where_the_house_stands(int hour, int minute, int sent)
    {
        await office.AddHouseWithSystemAsync("zone@alder.example", Utc(2026, 2, 20), zone: "America/Denver");
        office.ClockTo(new DateOnly(2026, 3, 6), hour, minute, "America/Denver");
        await office.RunFollowUpAsync();
        Assert.Equal(sent, office.MailTo("zone@alder.example").Count);
    }

    /// <summary>8 March 2026 and 1 November 2026: the days of the change in the United States (from memory; the machine's zone data agree).</summary>
    [Theory]
    [InlineData("2026-03-08")]
    [InlineData("2026-11-01")]
    public async Task On_the_days_of_the_clock_change_a_reminder_is_sent_once_inside_the_window(string changeDay)
    {
        var day = DateOnly.Parse(changeDay, System.Globalization.CultureInfo.InvariantCulture);
        var (house, _) = await office.AddHouseWithSystemAsync("dst@alder.example", HouseTime.ToUtc(day.AddDays(-14), new TimeOnly(1, 30), HouseTime.Zone(null)));
        office.ClockTo(day.AddDays(-1), 23);
        for (var minutes = 0; minutes < 30 * 60; minutes += 20)
        {
            await office.RunFollowUpAsync();
            office.Clock.Advance(TimeSpan.FromMinutes(20));
        }

        var message = Assert.Single(office.MailTo("dst@alder.example"));
        Assert.Equal(HouseTime.ToUtc(day, new TimeOnly(9, 0), HouseTime.Zone(null)), message.Date.UtcDateTime);
        Assert.Equal(day, (await RemindersAsync(house)).Single(r => r.State == ReminderState.Sent).DueOn);
    }

    [Fact]
    public async Task Without_an_address_it_stays_listed_and_can_be_done_by_hand_with_a_note()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        var due = await PlannedAsync(house, SeedReminderRules.TestNotBack);
        Assert.True(await office.WithDbAsync(db => SettleReminders.DoneByHandAsync(db, due.Id, "Bram Oster", "called, they will mail it")));
        await office.RunFollowUpAsync();
        var done = (await RemindersAsync(house)).Single(r => r.Id == due.Id);
        Assert.Equal((ReminderState.DoneByHand, "Bram Oster: called, they will mail it"), (done.State, done.Note));
        Assert.False(await office.WithDbAsync(db => SettleReminders.DropAsync(db, due.Id, "Ada Quill", "again")));
    }

    [Fact]
    public async Task A_text_whose_field_is_empty_for_this_house_is_not_sent()
    {
        await office.WithDbAsync(async db => { (await db.Company.SingleAsync()).Phone = ""; await db.SaveChangesAsync(); });
        var (house, _) = await office.AddHouseWithSystemAsync("empty@alder.example", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        Assert.Empty(office.MailTo("empty@alder.example"));
        Assert.Equal(ReminderState.Planned, (await PlannedAsync(house, SeedReminderRules.TestNotBack)).State);
    }

    [Fact]
    public async Task The_new_owner_of_a_sold_house_is_written_to()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("old@alder.example", Utc(2026, 2, 16));
        await office.WithDbAsync(async db =>
        {
            (await db.HouseOwners.SingleAsync(o => o.HouseId == house)).ToDay = new DateOnly(2026, 3, 1);
            db.HouseOwners.Add(new() { HouseId = house, Customer = new() { Name = "Second Alder", Email = "second@alder.example" }, FromDay = new DateOnly(2026, 3, 1) });
            await db.SaveChangesAsync();
        });
        await office.RunFollowUpAsync();
        Assert.Empty(office.MailTo("old@alder.example"));
        Assert.Contains("Dear Second Alder", Assert.Single(office.MailTo("second@alder.example")).TextBody, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Your test is due by {dew}", false, "There is no field {dew}")]
    [InlineData("Due by {due", false, "brace")]
    [InlineData("Due {}", false, "There is no field {}")]
    [InlineData("Book now for $149", false, "commercial")]
    [InlineData("20% off until {due}", false, "commercial")]
    [InlineData("Book now for $149, {name}", true, null)]
    [InlineData("{name} {house} {due} {because} {tag} {company} {phone}", false, null)]
    public void A_rules_words_are_checked_when_it_is_saved(string words, bool commercial, string? problem)
    {
        var found = string.Join(' ', ReminderText.Problems(words, commercial));
        if (problem is null) Assert.Equal("", found);
        else Assert.Contains(problem, found, StringComparison.Ordinal);
    }
}
