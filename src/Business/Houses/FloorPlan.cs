using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Houses;

/// <summary>One floor on the plan.</summary>
public sealed record PlanArea(string Name, FoundationKind Kind, IReadOnlyList<PlanPoint> Corners)
{
    /// <summary>A crawl space has no slab that suction could reach under.</summary>
    public bool HasSlab => Kind != FoundationKind.CrawlSpace;
}

/// <summary>What is drawn of a house: its floors that touch the ground, the footings under them, the sump.</summary>
public sealed record FloorPlan(IReadOnlyList<PlanArea> Areas, IReadOnlyList<IReadOnlyList<PlanPoint>> Footings, PlanPoint? Sump)
{
    public bool IsEmpty => Areas.Count == 0;

    public bool Holds(PlanPoint place) => Areas.Any(a => new PlanShape(a.Corners).Holds(place));

    public static FloorPlan Of(House house) => new(
        [.. house.Areas.Where(a => a.CornersM.Length > 0).OrderBy(a => a.Id).Select(a => new PlanArea(a.Name, a.Kind, PlanText.Load(a.CornersM)))],
        PlanText.LoadLines(house.FootingsM),
        house.SumpXM is { } x && house.SumpYM is { } y ? new(x, y) : null);

    /// <summary>The slabs as the coverage map needs them.</summary>
    public SlabPlan Slabs() => new()
    {
        Areas = [.. Areas.Where(a => a.HasSlab).Select(a => new SlabArea { Name = a.Name, Corners = a.Corners })],
        Footings = [.. Footings.SelectMany(f => f.Zip(f.Skip(1), (from, to) => new FootingLine { From = from, To = to }))],
    };
}
