using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Jobs;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Tests.FollowUp;

namespace MitigationOffice.Endurance;

/// <summary>Twenty years of many houses against the oracle of the tests: five time zones, leap days, two months off, and a clock that
/// is set back by a day or ahead by ten years for a while.</summary>
public static class YearsRun
{
    private static readonly string[] Zones = ["America/Chicago", "America/Denver", "America/New_York", "America/Phoenix", "America/Anchorage"];

    public static async Task<int> RunAsync(int houses, int seed)
    {
        var watch = Stopwatch.StartNew();
        var folder = Directory.CreateTempSubdirectory("office-years-").FullName;
        await using var mail = new ScriptedServer(seed) { Kind = true };
        var clock = new SetClock();
        var plans = Enumerable.Range(0, houses).Select(i => Draw(new Random(seed * 100_000 + i), i)).ToList();
        await using (var office = Pump.Services(new PumpOrders(folder, "", mail.Port), clock))
        {
            var said = await new Years(office, clock, plans).LiveAsync();
            var expected = plans.SelectMany(h => ReminderOracle.Of(h)).Order().ToList();
            var messages = expected.DistinctBy(e => (e.Email, e.Day)).Count();
            var (missing, surplus) = (expected.Except(said).ToList(), said.Except(expected).ToList());
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{houses} houses, {ReminderOracle.Years} years: {expected.Count} reminders by the oracle, {said.Count} by the program, {missing.Count} missing, {surplus.Count} too many, {said.Count - said.Distinct().Count()} twice; {messages} messages (what is due at one house on one day is one), {mail.Kept.Count} taken by the server, {mail.Kept.Count(k => k.Value.Count > 1)} of them twice; {watch.Elapsed.TotalSeconds:0} s"));
            foreach (var one in missing.Take(5)) Console.WriteLine($"missing: {one}");
            foreach (var one in surplus.Take(5)) Console.WriteLine($"too many: {one}");
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
            return missing.Count + surplus.Count == 0 && said.Count == expected.Count && mail.Kept.Count == messages && mail.Kept.Values.All(copies => copies.Count == 1) ? 0 : 1;
        }
    }

    private static ReminderOracle.Plan Draw(Random dice, int i)
    {
        var on = ReminderOracle.First.AddDays(dice.Next(5 * 365));
        if (dice.Next(12) == 0) on = new DateOnly(2028, 2, 29);
        DateOnly? battery = dice.Next(3) == 0 ? null : on;
        return new($"h{i}@alder.example", Zones[i % Zones.Length], on, dice.Next(4) == 0 ? 0 : 2 + dice.Next(60), dice.Next(3) == 0 ? 0 : 5 + dice.Next(400), battery, dice.Next(2) == 0 ? 0 : 3 + dice.Next(80));
    }

    /// <summary>A clock that is set by hand, and the machine's steady counter beside it, which nobody sets.</summary>
    private sealed class SetClock : TimeProvider
    {
        public DateTime Steady { get; set; } = ReminderOracle.First.ToDateTime(new TimeOnly(12, 0), DateTimeKind.Utc);
        public TimeSpan Wrong { get; set; }
        public override long TimestampFrequency => TimeSpan.TicksPerSecond;
        public override DateTimeOffset GetUtcNow() => new(Steady + Wrong, TimeSpan.Zero);
        public override long GetTimestamp() => Steady.Ticks;
    }

    private sealed class Years(ServiceProvider office, SetClock clock, List<ReminderOracle.Plan> plans)
    {
        private readonly PriorityQueue<Func<OfficeDb, Task>, DateOnly> _events = new();
        private readonly Dictionary<int, ReminderOracle.Plan> _houses = [];
        private readonly List<(string, DateOnly, string)> _said = [];
        private int _lastMessage, _looks;

        public async Task<List<(string Email, DateOnly Day, string Kind)>> LiveAsync()
        {
            await WithDbAsync(async db =>
            {
                await db.Database.MigrateAsync();
                await FirstRecords.EnsureAsync(db, CancellationToken.None);
                var company = await db.Company.SingleAsync();
                (company.Name, company.Email, company.Phone) = ("Lantern Ridge Radon", "office@lanternridge.example", "555-0100");
                foreach (var rule in await db.ReminderRules.ToListAsync()) rule.Off = rule.Channel == ReminderChannel.Office;
                await db.SaveChangesAsync();
            });
            foreach (var plan in plans) _events.Enqueue(db => BuildAsync(db, plan), plan.Activated);
            for (var day = ReminderOracle.First; day < ReminderOracle.First.AddYears(ReminderOracle.Years); day = day.AddDays(1))
            {
                clock.Steady = day.ToDateTime(new TimeOnly(19, 0), DateTimeKind.Utc);
                while (_events.TryPeek(out var act, out var at) && at <= day)
                {
                    _events.Dequeue();
                    await WithDbAsync(act);
                }

                if (!ReminderOracle.Looks(day)) continue;
                _looks++;
                if (_looks % 200 == 100) await LookAsync(TimeSpan.FromDays(3653));
                await LookAsync(TimeSpan.Zero);
                await HearAsync(day);
                if (_looks % 50 == 25) await LookAsync(TimeSpan.FromDays(-1));
            }

            return [.. _said.Order()];
        }

        private async Task LookAsync(TimeSpan wrong)
        {
            clock.Wrong = wrong;
            await WithDbAsync(db => PlanReminders.RunAsync(db, clock.GetUtcNow().UtcDateTime));
            await using (var scope = office.CreateAsyncScope()) await scope.ServiceProvider.GetRequiredService<PumpMailJob>().RunAsync(CancellationToken.None);
            clock.Wrong = TimeSpan.Zero;
        }

        /// <summary>Writes down what went out, and lets the owners act on it.</summary>
        private Task HearAsync(DateOnly day) => WithDbAsync(async db =>
        {
            var told = await db.Outbox.AsNoTracking().Where(m => m.Id > _lastMessage)
                .Join(db.Reminders, m => m.Id, r => r.OutboxMessageId, (m, r) => new { m.Id, Reminder = r.Id, r.RuleCode, m.HouseId, m.CreatedAtUtc }).OrderBy(m => m.Id).ThenBy(m => m.Reminder).ToListAsync();
            foreach (var m in told)
            {
                var (plan, house) = (_houses[m.HouseId!.Value], m.HouseId.Value);
                var kind = m.RuleCode switch { SeedReminderRules.AlarmBattery => "battery", SeedReminderRules.TestNotBack => "not back", _ => "retest" };
                _said.Add((plan.Email, DateOnly.FromDateTime(m.CreatedAtUtc), kind));
                if (kind == "retest" && plan.Obeys > 0) _events.Enqueue(d => TestAsync(d, house, day.AddDays(plan.Obeys), plan.Zone), day.AddDays(plan.Obeys));
                if (kind == "battery" && plan.ChangesBattery > 0) _events.Enqueue(d => BatteryAsync(d, house, day.AddDays(plan.ChangesBattery)), day.AddDays(plan.ChangesBattery));
                _lastMessage = m.Id;
            }
        });

        private async Task BuildAsync(OfficeDb db, ReminderOracle.Plan plan)
        {
            var house = new House { Street = plan.Email, City = "Birchford", State = "MN", Zip = "55999", TimeZone = plan.Zone, AskedAtUtc = clock.Steady };
            house.MakeSearchable();
            db.HouseOwners.Add(new HouseOwner { House = house, Customer = new Customer { Name = "Wren Alder", Email = plan.Email }, FromDay = plan.Activated });
            await db.SaveChangesAsync();
            var system = new InstalledSystem { HouseId = house.Id, TagNumber = $"T-{house.Id:00000}", ActivatedAtUtc = Noon(plan.Activated, plan.Zone), CompletedOn = plan.Activated };
            if (plan.Battery is { } on) system.Components.Add(new SystemComponent { Kind = ComponentKind.Alarm, Model = "Chime 9", FittedOn = on, BatteryFittedOn = on });
            db.Systems.Add(system);
            await db.SaveChangesAsync();
            _houses[house.Id] = plan;
            if (plan.FirstTestAfterDays > 0) _events.Enqueue(d => TestAsync(d, house.Id, plan.Activated.AddDays(plan.FirstTestAfterDays), plan.Zone), plan.Activated.AddDays(plan.FirstTestAfterDays));
        }

        private static async Task TestAsync(OfficeDb db, int house, DateOnly day, string zone)
        {
            var ended = Noon(day, zone);
            db.RadonTests.Add(new RadonTest { HouseId = house, StartedAtUtc = ended.AddDays(-3), EndedAtUtc = ended, Outcome = TestOutcome.BelowTarget, DecidingPCiL = 1.1m });
            await db.SaveChangesAsync();
        }

        private static async Task BatteryAsync(OfficeDb db, int house, DateOnly day)
        {
            var system = await db.Systems.Include(s => s.Components).SingleAsync(s => s.HouseId == house);
            system.Components.Single(c => c.Kind == ComponentKind.Alarm).BatteryFittedOn = day;
            await db.SaveChangesAsync();
        }

        private static DateTime Noon(DateOnly day, string zone) => HouseTime.ToUtc(day, new TimeOnly(12, 0), TimeZoneInfo.FindSystemTimeZoneById(zone));

        private async Task WithDbAsync(Func<OfficeDb, Task> act)
        {
            await using var scope = office.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
            db.Audited = false;
            await act(db);
        }
    }
}
