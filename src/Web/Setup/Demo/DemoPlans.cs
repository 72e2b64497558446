using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>Draws the floor plans of the demo: read as typed, and held against geometry as the page does it.</summary>
internal static class DemoPlans
{
    public static List<FoundationArea> Areas(DemoHouse demo) => demo.Plan is not { } plan
        ? [new FoundationArea { Name = "Basement", Kind = FoundationKind.Basement, FloorM2 = 96, Under = Under(demo) }]
        : [.. plan.Floors.Select(f => Floor(f, demo))];

    public static void Draw(DemoHouse demo, House house)
    {
        if (demo.Plan is not { } plan) return;
        house.FootingsM = string.Join('\n', plan.Footings.Select(f => PlanText.Store(Sound(ReadPlaces.Line(f, "footing", UnitSystem.US)))));
        var sump = At(plan.Sump);
        (house.SumpXM, house.SumpYM) = (sump?.XM, sump?.YM);
        var holes = plan.Holes.Append(plan.Pit).Append(plan.SecondPit ?? plan.Pit).Select(h => new PlacedHole(h.Place, At(h.At)!.Value)).ToList();
        if (CheckPlan.Of(FloorPlan.Of(house), holes, UnitSystem.US) is [var fault, ..]) throw new InvalidOperationException($"{demo.Street}: {fault.Words}");
    }

    /// <summary>Puts the day's holes on the plan, with their distances from the pit.</summary>
    public static void Place(DemoHouse demo, PressureFieldTest test, bool second = false)
    {
        if (demo.Plan is not { } plan) return;
        var drawnAt = second ? plan.SecondPit! : plan.Pit;
        var pit = At(drawnAt.At)!.Value;
        foreach (var suction in test.SuctionHoles) (suction.Place, suction.XM, suction.YM) = (drawnAt.Place, pit.XM, pit.YM);
        foreach (var (hole, drawn) in test.TestHoles.Zip(plan.Holes))
        {
            var at = At(drawn.At)!.Value;
            (hole.Place, hole.XM, hole.YM, hole.DistanceM) = (drawn.Place, at.XM, at.YM, Math.Round(at.DistanceM(pit), 2, MidpointRounding.AwayFromZero));
        }
    }

    private static FoundationArea Floor(DemoFloor floor, DemoHouse demo)
    {
        var corners = Sound(ReadPlaces.Around(floor.Corners, floor.Name, UnitSystem.US));
        return new()
        {
            Name = floor.Name, Kind = floor.Kind, CornersM = PlanText.Store(corners), FloorM2 = Math.Round(new PlanShape(corners).AreaM2, 2, MidpointRounding.AwayFromZero),
            Under = floor.Kind == FoundationKind.CrawlSpace ? UnderSlab.NotKnown : Under(demo),
        };
    }

    private static IReadOnlyList<PlanPoint> Sound(TypedPlaces read) => read.Problem is { } problem ? throw new InvalidOperationException(problem) : read.Places;

    private static PlanPoint? At(string typed) => ReadPlaces.One(typed, "a hole", UnitSystem.US) is var (place, problem) && problem is null ? place : throw new InvalidOperationException(problem);

    private static UnderSlab Under(DemoHouse demo) => demo.Ground switch
    {
        "gravel" => UnderSlab.Gravel,
        "sand" or "divided" => UnderSlab.Sand,
        "tight" => UnderSlab.TightSoil,
        _ => UnderSlab.NotKnown,
    };
}
