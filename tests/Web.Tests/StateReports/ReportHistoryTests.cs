using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Tests.FollowUp;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>Random histories of late entries, corrections, moves, cancellations and freezings, by months, quarters and days of their own, at
/// every hour and in four time zones. What a state believes after reading the files one after another, and which rows each file counts in
/// which order, are computed by themselves from the truth, without the program's own planning, and compared row for row.</summary>
public sealed class ReportHistoryTests : IAsyncLifetime
{
    private const string Profile = """
        {"code":"st","name":"State","state":"MN","period":"~","files":["csv"],
         "fields":["row_kind","tag","street","fan_activation_date","cost","late_from_period","amends","changed"]}
        """;

    private static readonly DateOnly Start = new(2026, 1, 1), End = new(2026, 12, 31);
    private static readonly string[] Zones = ["", "America/New_York", "America/Denver", "America/Los_Angeles"];
    private readonly OfficeApp office = new();

    public async Task InitializeAsync()
    {
        await office.InitializeAsync();
        office.ClockTo(new DateOnly(2027, 2, 2), 9);
        await office.WithDbAsync(async db => { db.ReportDuties.Add(new ReportDuty { ProfileCode = "st", StartsOn = Start, State = "MN" }); await db.SaveChangesAsync(); });
    }

    public Task DisposeAsync() => office.DisposeAsync();

    /// <summary>What really is, kept beside the program.</summary>
    private sealed class Unit
    {
        public required string Tag { get; init; }
        public int Id { get; init; }
        public string State { get; set; } = "MN";
        public string Street { get; set; } = "";
        public required string Zone { get; init; }
        public DateOnly On { get; set; }
        public TimeOnly At { get; set; }
        public DateTime Utc => HouseTime.ToUtc(On, At, HouseTime.Zone(Zone));
        public int Dollars { get; set; } = 1840;
        public bool LeftOut { get; set; }

        /// <summary>Whether a state that hears of everything by a day must know of it.</summary>
        public bool Owed(DateOnly by, bool toldBefore) => State == "MN" && !LeftOut && (toldBefore || (On >= Start && On <= by));
        public (string, string, string) Row => (Street, On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Dollars.ToString(CultureInfo.InvariantCulture) + ".00");
    }

    [Theory]
    [InlineData(1, PeriodKind.Month)]
    [InlineData(2, PeriodKind.Month)]
    [InlineData(3, PeriodKind.Month)]
    [InlineData(4, PeriodKind.Quarter)]
    [InlineData(5, PeriodKind.Days)]
    [InlineData(6, PeriodKind.Days)]
    public async Task Replaying_the_files_gives_the_truth_and_nobody_is_counted_twice(int seed, PeriodKind kind)
    {
        await office.AddProfileAsync(Profile.Replace("~", kind.ToString().ToLowerInvariant(), StringComparison.Ordinal));
        var random = new Random(seed);
        var (units, believed, everCounted) = (new List<Unit>(), new Dictionary<string, (string, string, string)>(StringComparer.Ordinal), new HashSet<string>(StringComparer.Ordinal));
        foreach (var (name, first, last) in Periods(kind, random))
        {
            for (var act = random.Next(3, 9) * (kind == PeriodKind.Quarter ? 3 : 1); act > 0; act--) await ActAsync(random, units, last);
            var rows = await office.RowsAsync(await office.FreezeAsync(name, "st"));
            var counted = units.Where(u => !everCounted.Contains(u.Tag) && u.Owed(last, toldBefore: false)).OrderBy(u => u.On).ThenBy(u => u.Utc).ThenBy(u => u.Id)
                .Select(u => (u.On < first ? "late" : "new", u.Tag, u.Row, u.On < first ? NameOf(kind, u.On) : ""));
            Assert.Equal(counted, rows.TakeWhile(r => r["row_kind"] is "new" or "late").Select(r => (r["row_kind"], r["tag"], (r["street"], r["fan_activation_date"], r["cost"]), r["late_from_period"])));
            Read(rows, believed, everCounted);
            var owed = units.Where(u => u.Owed(last, everCounted.Contains(u.Tag))).ToDictionary(u => u.Tag, u => u.Row);
            Assert.Equal(owed.OrderBy(o => o.Key, StringComparer.Ordinal), believed.OrderBy(o => o.Key, StringComparer.Ordinal));
        }

        Assert.True(everCounted.Count > 10, "The history is too thin to tell.");
        await ProvedAsync(units, believed);
    }

    private static IEnumerable<(string Name, DateOnly First, DateOnly Last)> Periods(PeriodKind kind, Random random)
    {
        for (var first = Start; first <= End;)
        {
            var last = kind switch { PeriodKind.Month => first.AddMonths(1).AddDays(-1), PeriodKind.Quarter => first.AddMonths(3).AddDays(-1), _ => first.AddDays(random.Next(15, 45)) };
            yield return (NameOf(kind, last), first, last);
            first = last.AddDays(1);
        }
    }

    private static string NameOf(PeriodKind kind, DateOnly day) => kind switch
    {
        PeriodKind.Month => day.ToString("yyyy-MM", CultureInfo.InvariantCulture),
        PeriodKind.Quarter => $"{day.Year}-Q{(day.Month + 2) / 3}",
        _ => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
    };

    private async Task ProvedAsync(List<Unit> units, Dictionary<string, (string, string, string)> believed)
    {
        var proof = await office.WithDbAsync(async db => await ProveReports.RunAsync(db, (await ReportHead.ReadAsync(db, "st"))!, office.Now()));
        Assert.True(proof.AddsUp);
        Assert.Equal(units.Count, proof.Plan.Places.Count);
        Assert.Equal(believed.Count, proof.Plan.Places.Count(p => p.Kind == PlaceKind.Reported));
        Assert.All(proof.Plan.Places.Where(p => p.Kind is PlaceKind.LeftOut or PlaceKind.Withdrawn), p => Assert.NotEqual("", p.Words));
        Assert.Empty((await office.WithDbAsync(db => VerifyReports.RunAsync(db))).Problems);
    }

    /// <summary>The state's side: takes a file row by row.</summary>
    private static void Read(List<Dictionary<string, string>> rows, Dictionary<string, (string, string, string)> believed, HashSet<string> everCounted)
    {
        foreach (var row in rows)
        {
            var (tag, told) = (row["tag"], (row["street"], row["fan_activation_date"], row["cost"]));
            switch (row["row_kind"])
            {
                case "new" or "late":
                    Assert.True(everCounted.Add(tag), $"{tag} is counted twice.");
                    believed[tag] = told;
                    break;
                case "correction":
                    Assert.Contains(tag, everCounted);
                    Assert.NotEqual("", row["amends"]);
                    Assert.False(believed.TryGetValue(tag, out var before) && before == told, $"{tag} is corrected without a change.");
                    believed[tag] = told;
                    break;
                default:
                    Assert.Equal("withdrawal", row["row_kind"]);
                    Assert.True(believed.Remove(tag));
                    break;
            }
        }
    }

    private async Task ActAsync(Random random, List<Unit> units, DateOnly last)
    {
        var pick = random.Next(10);
        if (units.Count == 0 || pick < 4)
        {
            // Registered now, switched on in this period, earlier (also before the start), or in one to come.
            var street = $"{random.Next(1, 900)} Rook Lane";
            var fresh = new Unit { Tag = "", Zone = Zones[random.Next(Zones.Length)], On = last.AddDays(random.Next(-100, 15)), At = AnHour(random), Street = street };
            var tag = await office.TagAsync(fresh.Utc, street, fresh.Zone);
            var id = await office.WithDbAsync(db => db.Systems.Where(s => s.TagNumber == tag).Select(s => s.Id).SingleAsync());
            units.Add(new Unit { Tag = tag, Id = id, Zone = fresh.Zone, On = fresh.On, At = fresh.At, Street = street });
            return;
        }

        var unit = units[random.Next(units.Count)];
        if (pick == 4)
        {
            (unit.On, unit.At) = (last.AddDays(random.Next(-90, 10)), AnHour(random));
            await office.ChangeAsync(unit.Tag, (s, _) => s.ActivatedAtUtc = unit.Utc);
        }
        else if (pick == 5) await office.ChangeAsync(unit.Tag, (_, h) => h.Street = unit.Street = $"{random.Next(1, 900)} Wren Way");
        else if (pick == 6) await office.ChangeAsync(unit.Tag, (s, _) => s.Price = Money.FromDollars(unit.Dollars = random.Next(900, 3000)));
        else if (pick == 7) await office.ChangeAsync(unit.Tag, (_, h) => h.State = unit.State = random.Next(2) == 0 ? "MN" : "WI");
        else await LeaveOutOrTakeBackAsync(unit);
    }

    private Task LeaveOutOrTakeBackAsync(Unit unit) => office.WithDbAsync(async db =>
    {
        if (unit.LeftOut) await LeaveOut.TakeBackAsync(db, "st", unit.Id, "Bram Oster", office.Now());
        else Assert.Null(await LeaveOut.RunAsync(db, "st", unit.Id, "cancelled", "Bram Oster", office.Now()));
        unit.LeftOut = !unit.LeftOut;
    });

    /// <summary>Mostly near midnight, where days are mistaken; never between two and three, which one night a year does not have.</summary>
    private static TimeOnly AnHour(Random random) => random.Next(3) switch { 0 => new TimeOnly(0, random.Next(60)), 1 => new TimeOnly(23, random.Next(60)), _ => new TimeOnly(random.Next(4, 22), 0) };
}
