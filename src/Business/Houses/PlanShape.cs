using MitigationOffice.Engineering.Slab;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Valid;

namespace MitigationOffice.Business.Houses;

/// <summary>A closed ring of corners as a shape that can be measured.</summary>
public sealed class PlanShape
{
    private static readonly GeometryFactory Geometries = new();
    private readonly Polygon _polygon;

    public PlanShape(IReadOnlyList<PlanPoint> corners)
    {
        Corners = corners;
        _polygon = Geometries.CreatePolygon([.. corners.Select(At), At(corners[0])]);
    }

    public IReadOnlyList<PlanPoint> Corners { get; }

    public double AreaM2 => _polygon.Area;

    /// <summary>Where two walls cross or touch; empty where the ring is sound.</summary>
    public PlanPoint? Fault => new IsValidOp(_polygon).ValidationError is { } error ? new(error.Coordinate.X, error.Coordinate.Y) : null;

    public bool Holds(PlanPoint place) => _polygon.Covers(Geometries.CreatePoint(At(place)));

    public double DistanceM(PlanPoint place) => _polygon.Distance(Geometries.CreatePoint(At(place)));

    public double WallDistanceM(PlanPoint place) => _polygon.ExteriorRing.Distance(Geometries.CreatePoint(At(place)));

    public double OverlapM2(PlanShape other) => _polygon.Intersection(other._polygon).Area;

    public PlanPoint Inside => _polygon.InteriorPoint.Coordinate is { } c ? new(c.X, c.Y) : Corners[0];

    /// <summary>The first two walls that cross, by the number of the corner each starts at (from 1).</summary>
    public (int One, int Other)? CrossingWalls()
    {
        for (var one = 0; one < Corners.Count; one++)
            for (var other = one + 2; other < Corners.Count; other++)
                if ((one > 0 || other < Corners.Count - 1) && Wall(one).Intersection(Wall(other)) is not null) return (one + 1, other + 1);
        return null;
    }

    private LineSegment Wall(int from) => new(At(Corners[from]), At(Corners[(from + 1) % Corners.Count]));

    private static Coordinate At(PlanPoint place) => new(place.XM, place.YM);
}
