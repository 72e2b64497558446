using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Radon;
using DeviceKind = MitigationOffice.Business.Tests.DeviceKind;

namespace MitigationOffice.Business.Quality;

/// <summary>Tests with one kind of device in one month: what was measured, and what was checked.</summary>
public sealed record MonthOfKind(DateOnly Month, DeviceKind Kind, MonthOfTests Tests, int Pairs, int Blanks, int Spikes, int Comparisons);

/// <summary>Everything the quality page shows, read once.</summary>
public sealed record QualityRecord(
    IReadOnlyList<PairPoint> Pairs, IReadOnlyList<SpikePoint> Spikes, IReadOnlyList<BlankPoint> Blanks, IReadOnlyList<QualityCheck> Waiting,
    IReadOnlyDictionary<string, QualityAction> Actions, IReadOnlyList<MonthOfKind> Months)
{
    private const double WithinM = 8 * 0.0254 + 0.0005;

    public static async Task<QualityRecord> ReadAsync(OfficeDb db, DateOnly from, TimeZoneInfo zone)
    {
        var fromUtc = HouseTime.ToUtc(from, default, zone);
        var devices = await (from t in db.RadonTests.AsNoTracking()
                             from d in t.Devices
                             where t.StartedAtUtc >= fromUtc
                             join h in db.Houses on t.HouseId equals h.Id
                             select new Placed(t.Id, t.HouseId, h.Street, t.StartedAtUtc, d.Id, d.Kind, d.Serial, d.Room, d.Pair, d.ApartM, d.PCiL)).ToListAsync();
        var checks = await db.QualityChecks.AsNoTracking().Where(c => c.Day >= from).OrderBy(c => c.Day).ThenBy(c => c.Id).ToListAsync();
        var actions = await db.QualityActions.AsNoTracking().ToDictionaryAsync(a => a.Point);
        var groups = devices.GroupBy(d => (d.TestId, Place: d.Pair.Length == 0 ? $"\0{d.DeviceId}" : d.Pair)).Select(g => g.OrderBy(d => d.DeviceId).ToList()).ToList();
        var pairs = groups.Where(AreCollocated).Select(g => PairOf(g, zone)).OfType<PairPoint>().Concat(checks.Where(c => c.Kind == CheckKind.Pair).Select(PairOf).OfType<PairPoint>()).OrderBy(p => p.Day).ThenBy(p => p.Key, StringComparer.Ordinal).ToList();
        return new(
            pairs, [.. checks.Where(c => c is { Kind: CheckKind.Spike, PCiL: not null, AgainstPCiL: > 0 }).Select(SpikeOf)], [.. checks.Where(c => c is { Kind: CheckKind.Blank, PCiL: not null, AgainstPCiL: not null }).Select(BlankOf)],
            [.. checks.Where(c => c.PCiL is null || c.AgainstPCiL is null)], actions, Count(groups, pairs, checks, zone));
    }

    /// <summary>The months of one kind between two months, those without tests as empty ones.</summary>
    public IReadOnlyList<MonthOfKind> Of(DeviceKind kind, DateOnly first, int months) => [.. Enumerable.Range(0, months).Select(first.AddMonths)
        .Select(m => Months.FirstOrDefault(x => x.Kind == kind && x.Month == m) ?? new(m, kind, new(0, 0, 0), 0, 0, 0, 0))];

    private sealed record Placed(int TestId, int HouseId, string Street, DateTime StartedAtUtc, int DeviceId, DeviceKind Kind, string Serial, string Room, string Pair, double? ApartM, decimal? PCiL);

    private static bool AreCollocated(List<Placed> group) => group.Count > 1 && group.Count(d => d.ApartM is not null) >= group.Count - 1 && group.TrueForAll(d => d.ApartM is null or <= WithinM);

    private static PairPoint? PairOf(List<Placed> group, TimeZoneInfo zone)
    {
        var read = group.Where(d => d.PCiL is not null).OrderBy(d => d.PCiL).ToList();
        if (read.Count < 2) return null;
        var (low, high) = (read[0], read[^1]);
        return new($"test:{low.TestId}:{low.Pair}", HouseTime.DayOf(low.StartedAtUtc, zone), low.HouseId, $"{low.Street}, {low.Room}", string.Join(" and ", group.Select(d => d.Serial.Length == 0 ? "no number" : d.Serial)),
            group[0].Kind, group.Exists(d => d.Kind == DeviceKind.ContinuousMonitor), low.PCiL!.Value, high.PCiL!.Value, Judge(low.PCiL!.Value, high.PCiL!.Value));
    }

    private static PairPoint? PairOf(QualityCheck c) => c is { PCiL: { } first, AgainstPCiL: { } second }
        ? new($"check:{c.Id}", c.Day, null, c.Notes.Length == 0 ? "compared apart" : c.Notes, $"{c.Serial} and {c.SecondSerial}", c.DeviceKind, c.DeviceKind == DeviceKind.ContinuousMonitor, first, second, Judge(first, second))
        : null;

    private static DuplicateFinding Judge(decimal first, decimal second) => RadonStatistics.JudgeDuplicates(RadonConcentration.FromPciPerL(first), RadonConcentration.FromPciPerL(second));

    private static SpikePoint SpikeOf(QualityCheck c) => new(
        $"check:{c.Id}", c.Id, c.Day, c.Serial, c.DeviceKind, c.PCiL!.Value, c.AgainstPCiL!.Value, RadonStatistics.JudgeSpike(RadonConcentration.FromPciPerL(c.PCiL.Value), RadonConcentration.FromPciPerL(c.AgainstPCiL.Value)));

    private static BlankPoint BlankOf(QualityCheck c) => new(
        $"check:{c.Id}", c.Id, c.Day, c.Serial, c.DeviceKind, c.PCiL!.Value, c.AgainstPCiL!.Value, RadonStatistics.BlankNeedsAttention(RadonConcentration.FromPciPerL(c.PCiL.Value), RadonConcentration.FromPciPerL(c.AgainstPCiL.Value)));

    private static List<MonthOfKind> Count(List<List<Placed>> groups, List<PairPoint> pairs, List<QualityCheck> checks, TimeZoneInfo zone)
    {
        var tested = groups.SelectMany(g => AreCollocated(g) ? [g] : g.Select(d => new List<Placed> { d })).ToLookup(g => (Month(HouseTime.DayOf(g[0].StartedAtUtc, zone)), g[0].Kind));
        var keys = tested.Select(g => g.Key).Concat(checks.Select(c => (Month(c.Day), c.DeviceKind))).Concat(pairs.Select(p => (Month(p.Day), p.Kind))).Distinct().Order();
        return [.. keys.Select(k =>
        {
            var (month, kind) = k;
            var monitor = kind == DeviceKind.ContinuousMonitor;
            var places = tested[k].ToList();
            var tests = monitor ? new MonthOfTests(0, 0, places.Select(p => p[0].TestId).Distinct().Count()) : new MonthOfTests(places.Count, places.Sum(p => p.Count), 0);
            var here = pairs.Where(p => Month(p.Day) == month && p.Kind == kind).ToList();
            int Done(CheckKind of) => checks.Count(c => c.Kind == of && c.DeviceKind == kind && Month(c.Day) == month);
            return new MonthOfKind(month, kind, tests, here.Count(p => !p.Compares), Done(CheckKind.Blank), Done(CheckKind.Spike), monitor ? here.Count(p => p.Compares) : 0);
        })];
    }

    private static DateOnly Month(DateOnly day) => new(day.Year, day.Month, 1);
}
