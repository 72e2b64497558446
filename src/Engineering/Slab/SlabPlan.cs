using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Slab;

/// <summary>One slab, as a polygon on the plan. Slabs that share an edge have a footing between them.</summary>
public sealed record SlabArea
{
    /// <summary>Name, as shown beside results.</summary>
    public required string Name { get; init; }

    /// <summary>Corners in order, either way round, three or more; the last joins the first.</summary>
    public required IReadOnlyList<PlanPoint> Corners { get; init; }
}

/// <summary>A straight footing or thickened strip under the slab, which hinders the air beneath.</summary>
public sealed record FootingLine
{
    /// <summary>One end.</summary>
    public required PlanPoint From { get; init; }

    /// <summary>The other end.</summary>
    public required PlanPoint To { get; init; }
}

/// <summary>The floor plan as the coverage map needs it.</summary>
public sealed record SlabPlan
{
    /// <summary>The slabs.</summary>
    public required IReadOnlyList<SlabArea> Areas { get; init; }

    /// <summary>Footings within slabs.</summary>
    public IReadOnlyList<FootingLine> Footings { get; init; } = [];

    /// <summary>Size of a cell of the grid, m (0.05 to 0.25).</summary>
    public double GridM { get; init; } = 0.25;

    internal void Check()
    {
        InRange(GridM, 0.05, 0.25, "m", "Grid");
        InRange(Areas.Count, 1, 50, "(number)", "Number of slabs");
        foreach (var area in Areas) Check(area);
        foreach (var footing in Footings)
        {
            CheckPlace(footing.From, "Footing");
            CheckPlace(footing.To, "Footing");
        }
        var (width, height) = (Span(point => point.XM), Span(point => point.YM));
        var cells = width / GridM * (height / GridM);
        InRange(cells, 1, 40_000, "(number)", "Number of grid cells over the plan");
    }

    private double Span(Func<PlanPoint, double> coordinate)
    {
        var all = Areas.SelectMany(area => area.Corners).Select(coordinate).ToList();
        return all.Max() - all.Min();
    }

    private static void Check(SlabArea area)
    {
        InRange(area.Corners.Count, 3, 500, "(number)", $"Corners of slab '{area.Name}'");
        foreach (var corner in area.Corners) CheckPlace(corner, $"Corner of slab '{area.Name}'");
        InRange(Math.Abs(Polygon.SignedArea(area.Corners)), 0.5, 10_000, "m²", $"Area of slab '{area.Name}'");
    }

    internal static void CheckPlace(PlanPoint place, string name)
    {
        InRange(place.XM, -1000, 1000, "m", name + " across");
        InRange(place.YM, -1000, 1000, "m", name + " up");
    }
}
