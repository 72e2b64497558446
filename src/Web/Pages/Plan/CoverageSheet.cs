using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using MitigationOffice.Web.Setup.Drawings;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>The fitted map, the map with one more suction point, and both in words.</summary>
public sealed record CoverageSheet(FloorPlan Plan, PressureFieldTest Test, SlabCoverage Slab, SuctionPlace? Further, CoverageMap? With, PlanPicture? Picture, UnitSystem Units)
{
    /// <summary>A stretch of vacuum and how much of the floor it covers, now and with the further point.</summary>
    public sealed record Band(string Words, double Share, double? ShareWith);

    public CoverageMap Map => Slab.Map;

    public PlanView View(CoverageMap map, string id, string title) => new()
    {
        Id = id, Title = title, Units = Units, Map = map, Picture = Picture, Footings = Plan.Footings,
        Areas = [.. Plan.Areas.Select(a => new DrawnArea(a))],
        Marks =
        [
            .. Test.SuctionHoles.Where(s => s.At is not null).Select(s => new PlanMark(MarkKind.Suction, s.Label, s.At!.Value)),
            .. map != Map && Further is { } further ? [new PlanMark(MarkKind.Proposed, "further point", further.At) { Brief = "new" }] : Array.Empty<PlanMark>(),
            .. Slab.Holes.Select(h => new PlanMark(MarkKind.TestHole, $"{h.Reading.Name} {Pa(h.Reading.VacuumPa)}", h.Reading.At) { Brief = h.Reading.Name }),
            new PlanMark(MarkKind.Weakest, $"weakest {Pa(map.WeakestSpot.VacuumPa)}", map.WeakestSpot.Centre) { Brief = Pa(map.WeakestSpot.VacuumPa) },
        ],
    };

    public string Sentence(CoverageMap map) =>
        $"{Percent(map.ShareBeyondTarget)} of the floor has at least {Pa(map.TargetPa)}. The weakest spot, {PlanText.Say(map.WeakestSpot.Centre, Units)}, has {Pa(map.WeakestSpot.VacuumPa)}.";

    /// <summary>The map as a table: how much of the floor lies between its lines.</summary>
    public IReadOnlyList<Band> Bands()
    {
        var most = Math.Max(Map.Cells.Max(c => c.VacuumPa), With?.Cells.Max(c => c.VacuumPa) ?? 0);
        IReadOnlyList<double> edges = [0, .. ContourBands.Levels(Map.TargetPa, most), double.PositiveInfinity];
        return [.. edges.Zip(edges.Skip(1), (from, to) => new Band(Between(from, to), Share(Map, from, to), With is null ? null : Share(With, from, to)))];
    }

    public static string Pa(double pa) => Measures.Pressure.Number(pa) is "0" && pa > 0 ? "under 0.1 Pa" : Measures.Pressure.Show(pa);

    public static string Percent(double share) => (share * 100).ToString("0", CultureInfo.InvariantCulture) + " %";

    private static string Between(double from, double to) => double.IsInfinity(to) ? $"{Pa(from)} and more" : from == 0 ? $"under {Pa(to)}" : $"{Pa(from)} to {Pa(to)}";

    private static double Share(CoverageMap map, double from, double to) =>
        map.Cells.Where(c => c.VacuumPa >= from && c.VacuumPa < to).Sum(c => c.AreaM2) / map.Cells.Sum(c => c.AreaM2);
}
