using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Messages;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;
using static MitigationOffice.Web.Tests.FollowUp.ReminderOracle;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>Twenty years of a few houses, one look in two weeks and two months off, against an oracle written another way. Three hundred houses,
/// with a clock that jumps, are run by tests/Endurance.</summary>
public sealed class TwentyYearsTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    private const int EveryDays = 14;

    private static readonly ReminderOracle.Plan[] Houses =
    [
        new("obeys@alder.example", "America/Chicago", new(2026, 3, 1), 10, 20, null, 0),
        new("never@alder.example", "America/Denver", new(2026, 3, 1), 0, 0, null, 0),
        new("leap@alder.example", "America/New_York", new(2028, 1, 30), 30, 0, new(2028, 2, 29), 0),
        new("battery@alder.example", "America/Phoenix", new(2026, 3, 2), 20, 0, new(2026, 3, 2), 5),
        new("late@alder.example", "America/Anchorage", new(2027, 12, 31), 25, 300, new(2027, 12, 31), 40),
    ];

    [Fact]
    public async Task Every_reminder_is_sent_once_on_the_day_the_oracle_says()
    {
        var expected = Houses.SelectMany(h => ReminderOracle.Of(h, EveryDays)).Order().ToList();
        var ids = new Dictionary<string, (int House, int System)>();
        var events = new PriorityQueue<Func<Task>, DateOnly>();
        var seen = new Dictionary<string, int>();
        for (var day = First; day < First.AddYears(Years); day = day.AddDays(1))
        {
            foreach (var h in Houses.Where(h => h.Activated == day || (day == First && h.Activated < day)))
            {
                office.ClockTo(day, 12, zone: h.Zone);
                ids[h.Email] = await office.AddHouseWithSystemAsync(h.Email, Noon(h.Activated, h.Zone), h.Battery, h.Zone, $"{ids.Count} Teal Way");
                if (h.FirstTestAfterDays > 0) events.Enqueue(() => office.AddTestAsync(ids[h.Email].House, Noon(h.Activated.AddDays(h.FirstTestAfterDays), h.Zone)), h.Activated.AddDays(h.FirstTestAfterDays));
            }

            while (events.TryPeek(out var act, out var at) && at <= day)
            {
                events.Dequeue();
                await act();
            }

            if (!Looks(day, EveryDays)) continue;
            office.Clock.SetUtcNow(new DateTimeOffset(day.Year, day.Month, day.Day, 19, 0, 0, TimeSpan.Zero));
            await office.RunFollowUpAsync();
            foreach (var h in Houses) React(h, day);
        }

        var sent = Houses.SelectMany(h => office.MailTo(h.Email).SelectMany(m => Kinds(m).Select(kind => (h.Email, DateOnly.FromDateTime(m.Date.UtcDateTime), kind)))).Order().ToList();
        Assert.Equal(expected, sent);
        // What is due at one house on one day is one message.
        Assert.Equal(expected.DistinctBy(e => (e.Email, e.Day)).Count(), await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.HouseId != null)));
        Assert.Equal(expected.Count, await office.WithDbAsync(db => db.Reminders.CountAsync(r => r.HouseId != null && r.State == ReminderState.Sent)));

        void React(ReminderOracle.Plan h, DateOnly day)
        {
            var mail = office.MailTo(h.Email);
            foreach (var m in mail.Skip(seen.GetValueOrDefault(h.Email)))
            {
                if (Kinds(m).Contains("retest") && h.Obeys > 0) events.Enqueue(() => office.AddTestAsync(ids[h.Email].House, Noon(day.AddDays(h.Obeys), h.Zone), reason: TestReason.Retest), day.AddDays(h.Obeys));
                if (Kinds(m).Contains("battery") && h.ChangesBattery > 0) events.Enqueue(() => NewBatteryAsync(ids[h.Email].System, day.AddDays(h.ChangesBattery)), day.AddDays(h.ChangesBattery));
            }

            seen[h.Email] = mail.Count;
        }
    }

    private Task NewBatteryAsync(int system, DateOnly day) => office.WithDbAsync(async db =>
    {
        var s = await db.Systems.Include(x => x.Components).SingleAsync(x => x.Id == system);
        s.Components.Single(c => c.Kind == ComponentKind.Alarm).BatteryFittedOn = day;
        await db.SaveChangesAsync();
    });

    private static DateTime Noon(DateOnly day, string zone) => Business.Data.HouseTime.ToUtc(day, new TimeOnly(12, 0), TimeZoneInfo.FindSystemTimeZoneById(zone));

    /// <summary>By the subjects of the rules: of one reminder the message's own, of several the heads in its text.</summary>
    private static List<string> Kinds(MimeKit.MimeMessage message)
    {
        var said = message.Subject + "\n" + message.TextBody;
        return [.. new[] { ("new battery", "battery"), ("is not back yet", "not back"), ("test of your house is due", "retest") }.Where(k => said.Contains(k.Item1, StringComparison.Ordinal)).Select(k => k.Item2)];
    }
}
