using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Houses;

/// <summary>What of a plan cannot be: which field of which kind, and why.</summary>
public sealed record PlanFault(PlanPart Part, int Number, string Words);

public enum PlanPart
{
    Area,
    Footing,
    Sump,
    Hole,
}

/// <summary>A hole that should lie on a floor.</summary>
public sealed record PlacedHole(string Name, PlanPoint At);

/// <summary>Holds a floor plan against geometry: rings that cross themselves, floors that overlap, holes outside.</summary>
public static class CheckPlan
{
    private const double LeastFloorM2 = 0.5;
    private const double LeastOverlapM2 = 0.05;
    private const double SamePlaceM = 0.02;
    private const double WallM = 0.15;

    public static IReadOnlyList<PlanFault> Of(FloorPlan plan, IReadOnlyList<PlacedHole> holes, UnitSystem units)
    {
        var rings = plan.Areas.Select((a, i) => Ring(a, units) is { } words ? new PlanFault(PlanPart.Area, i, words) : null).OfType<PlanFault>().ToList();
        if (rings.Count > 0) return rings;
        var shapes = plan.Areas.Select(a => new PlanShape(a.Corners)).ToList();
        return
        [
            .. Overlaps(plan.Areas, shapes, units),
            .. plan.Footings.SelectMany((f, i) => Footing(f, i, shapes, units).Take(1)),
            .. plan.Sump is { } sump && !On(shapes, sump, WallM) ? [new PlanFault(PlanPart.Sump, 0, Outside("The sump", sump, units))] : Array.Empty<PlanFault>(),
            .. holes.Select((h, i) => (h, i)).Where(x => !On(shapes, x.h.At, 0)).Select(x => new PlanFault(PlanPart.Hole, x.i, Outside(x.h.Name, x.h.At, units))),
        ];
    }

    private static string? Ring(PlanArea area, UnitSystem units)
    {
        var corners = area.Corners;
        if (corners.Count < 3) return $"{area.Name} has {(corners.Count == 1 ? "one corner" : "two corners")}; a floor needs at least three.";
        for (var i = 0; i < corners.Count; i++)
            if (corners[i].DistanceM(corners[(i + 1) % corners.Count]) < SamePlaceM)
                return $"Corners {i + 1} and {(i + 1) % corners.Count + 1} of {area.Name} are at the same place; leave one out.";
        var shape = new PlanShape(corners);
        if (shape.Fault is { } fault)
            return shape.CrossingWalls() is var (one, other)
                ? $"The wall of {area.Name} from corner {one} to {Next(one, corners)} crosses or touches the wall from corner {other} to {Next(other, corners)}. Put the corners in order around the floor."
                : $"The walls of {area.Name} run over each other at {PlanText.Say(fault, units)}. Put the corners in order around the floor.";
        return shape.AreaM2 < LeastFloorM2 ? $"{area.Name} covers only {Measures.Area.Show(shape.AreaM2, units)}; that is no floor. Are the units right?" : null;
    }

    private static int Next(int corner, IReadOnlyList<PlanPoint> corners) => corner % corners.Count + 1;

    private static IEnumerable<PlanFault> Overlaps(IReadOnlyList<PlanArea> areas, List<PlanShape> shapes, UnitSystem units)
    {
        for (var later = 1; later < areas.Count; later++)
            for (var earlier = 0; earlier < later; earlier++)
                if (shapes[later].OverlapM2(shapes[earlier]) is var overlap && overlap > LeastOverlapM2)
                    yield return new(PlanPart.Area, later, $"{areas[later].Name} and {areas[earlier].Name} overlap by {Measures.Area.Show(overlap, units)}{Intruder(areas[later], shapes[earlier], areas[earlier], shapes[later])}. Move a corner so that they only touch.");
    }

    private static string Intruder(PlanArea one, PlanShape shapeOfOther, PlanArea other, PlanShape shapeOfOne)
    {
        if (Deep(one.Corners, shapeOfOther) is { } mine) return $": corner {mine} of {one.Name} lies inside {other.Name}";
        return Deep(other.Corners, shapeOfOne) is { } theirs ? $": corner {theirs} of {other.Name} lies inside {one.Name}" : "";
    }

    private static int? Deep(IReadOnlyList<PlanPoint> corners, PlanShape shape)
    {
        for (var i = 0; i < corners.Count; i++)
            if (shape.Holds(corners[i]) && shape.WallDistanceM(corners[i]) > SamePlaceM) return i + 1;
        return null;
    }

    private static IEnumerable<PlanFault> Footing(IReadOnlyList<PlanPoint> footing, int number, List<PlanShape> shapes, UnitSystem units)
    {
        if (footing.Count < 2) yield return new(PlanPart.Footing, number, $"Footing {number + 1} needs its two ends.");
        for (var i = 0; i < footing.Count; i++)
        {
            if (i > 0 && footing[i].DistanceM(footing[i - 1]) < SamePlaceM) yield return new(PlanPart.Footing, number, $"Points {i} and {i + 1} of footing {number + 1} are at the same place; leave one out.");
            if (!On(shapes, footing[i], WallM)) yield return new(PlanPart.Footing, number, Outside($"Point {i + 1} of footing {number + 1}", footing[i], units));
        }
    }

    private static bool On(List<PlanShape> shapes, PlanPoint place, double marginM) =>
        shapes.Exists(s => marginM > 0 ? s.DistanceM(place) <= marginM : s.Holds(place));

    private static string Outside(string what, PlanPoint at, UnitSystem units) =>
        $"{what}, {PlanText.Say(at, units)}, lies outside every floor of the plan. Across is to the right, up is up the sheet, both from the plan's 0,0.";
}
