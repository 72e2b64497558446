using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Tests.FollowUp;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>Random histories of late entries, corrections, moves, cancellations and freezings. What a state believes after reading the
/// files one after another is computed by itself from the truth, without the program's own planning, and compared row for row.</summary>
public sealed class ReportHistoryTests : IAsyncLifetime
{
    private const string Profile = """
        {"code":"st","name":"State","state":"MN","period":"month","files":["csv"],
         "fields":["row_kind","tag","street","fan_activation_date","cost","late_from_period","amends","changed"]}
        """;

    private static readonly DateOnly Start = new(2026, 1, 1);
    private readonly OfficeApp office = new();

    public async Task InitializeAsync()
    {
        await office.InitializeAsync();
        office.ClockTo(new DateOnly(2027, 2, 2), 9);
        await office.AddProfileAsync(Profile);
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
        public DateOnly On { get; set; }
        public int Dollars { get; set; } = 1840;
        public bool LeftOut { get; set; }

        /// <summary>Whether a state that hears of everything by a day must know of it.</summary>
        public bool Owed(DateOnly by, bool toldBefore) => State == "MN" && !LeftOut && (toldBefore || (On >= Start && On <= by));
        public (string, string, string) Row => (Street, On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Dollars.ToString(CultureInfo.InvariantCulture) + ".00");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task Replaying_the_files_gives_the_truth_and_nobody_is_counted_twice(int seed)
    {
        var random = new Random(seed);
        var (units, believed, everCounted) = (new List<Unit>(), new Dictionary<string, (string, string, string)>(StringComparer.Ordinal), new HashSet<string>(StringComparer.Ordinal));
        for (var month = 1; month <= 12; month++)
        {
            for (var act = random.Next(2, 9); act > 0; act--) await ActAsync(random, units, month);
            var run = await office.FreezeAsync($"2026-{month:00}", "st");
            Read(await office.RowsAsync(run), month, believed, everCounted);
            var last = Start.AddMonths(month).AddDays(-1);
            var owed = units.Where(u => u.Owed(last, everCounted.Contains(u.Tag))).ToDictionary(u => u.Tag, u => u.Row);
            Assert.Equal(owed.OrderBy(o => o.Key, StringComparer.Ordinal), believed.OrderBy(o => o.Key, StringComparer.Ordinal));
        }

        await ProvedAsync(units, believed);
    }

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
    private static void Read(List<Dictionary<string, string>> rows, int month, Dictionary<string, (string, string, string)> believed, HashSet<string> everCounted)
    {
        foreach (var row in rows)
        {
            var (tag, told) = (row["tag"], (row["street"], row["fan_activation_date"], row["cost"]));
            switch (row["row_kind"])
            {
                case "new":
                    Assert.True(everCounted.Add(tag), $"{tag} is counted twice.");
                    Assert.StartsWith($"2026-{month:00}", row["fan_activation_date"], StringComparison.Ordinal);
                    believed[tag] = told;
                    break;
                case "late":
                    Assert.True(everCounted.Add(tag), $"{tag} is counted twice.");
                    Assert.Equal(row["fan_activation_date"][..7], row["late_from_period"]);
                    Assert.True(string.CompareOrdinal(row["late_from_period"], $"2026-{month:00}") < 0);
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

    private async Task ActAsync(Random random, List<Unit> units, int month)
    {
        var pick = random.Next(10);
        if (units.Count == 0 || pick < 4)
        {
            // Registered now, switched on this month, earlier (also before the start), or in a month to come.
            var on = Start.AddMonths(month - 1).AddDays(random.Next(-70, 45));
            var street = $"{random.Next(1, 900)} Rook Lane";
            var tag = await office.TagAsync(Noon(on), street);
            units.Add(new Unit { Tag = tag, Id = await office.WithDbAsync(db => db.Systems.Where(s => s.TagNumber == tag).Select(s => s.Id).SingleAsync()), Street = street, On = on });
            return;
        }

        var unit = units[random.Next(units.Count)];
        if (pick == 4) await office.ChangeAsync(unit.Tag, (s, _) => s.ActivatedAtUtc = Noon(unit.On = Start.AddMonths(month - 1).AddDays(random.Next(-60, 20))));
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

    private static DateTime Noon(DateOnly day) => HouseTime.ToUtc(day, new TimeOnly(12, 0), HouseTime.Zone(null));
}
