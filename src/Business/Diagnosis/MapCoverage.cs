using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Diagnosis;

/// <summary>The layer under a house's slabs as one setting of a PFE test shows it, or why it cannot be told.</summary>
public sealed record GroundMap(SlabCoverage? Slab, string? WhyNone);

/// <summary>Has the engine fit the layer under the slab to a test's readings, over the house's floor plan.</summary>
public static class MapCoverage
{
    /// <summary>A pit closer to a wall than this meets its footing: common practice, no source.</summary>
    public const double PitFromWallM = 0.45;

    public static GroundMap Of(FloorPlan plan, PressureFieldTest test, FanSetting setting, double targetPa)
    {
        var pits = test.SuctionHoles.Where(s => s.At is not null).OrderBy(s => s.Id).ToList();
        if (WhyNone(plan, test, pits) is { } why) return new(null, why);
        try
        {
            return new(SlabCoverage.Compute(new CoverageInput
            {
                Plan = plan.Slabs(), TargetPa = targetPa,
                SuctionPoints = [.. pits.Select(s => new SuctionPlace { Name = s.Label, At = s.At!.Value, PitVacuumPa = setting.PitVacuumPa, FlowM3PerS = setting.FlowM3PerS / pits.Count })],
                Readings = [.. Readings(test, setting)],
            }), null);
        }
        catch (ArgumentException refused)
        {
            return new(null, Sentence(refused));
        }
    }

    /// <summary>What the engine says against an input, without the name of its parameter.</summary>
    public static string Sentence(ArgumentException refused) => refused.Message.Split(" (Parameter", 2)[0];

    /// <summary>Whether a further pit may be proposed there: on a slab, clear of the walls' footings.</summary>
    public static Func<PlanPoint, bool> MayDrill(FloorPlan plan)
    {
        var slabs = plan.Areas.Where(a => a.HasSlab).Select(a => new PlanShape(a.Corners)).ToList();
        return place => slabs.Exists(s => s.Holds(place) && s.WallDistanceM(place) >= PitFromWallM);
    }

    private static string? WhyNone(FloorPlan plan, PressureFieldTest test, List<SuctionHole> pits)
    {
        if (!plan.Areas.Any(a => a.HasSlab)) return "The floor plan has no slab yet: draw it first.";
        if (test.SuctionHoles.Find(s => s.At is null) is { } lost) return $"Suction hole {lost.Label} has no place on the plan yet.";
        return pits.Count == 0 ? "The PFE test names no suction hole." : null;
    }

    private static IEnumerable<Engineering.Slab.HoleReading> Readings(PressureFieldTest test, FanSetting setting) =>
        from hole in test.TestHoles.OrderBy(h => h.Position)
        let read = hole.Readings.Find(r => r.FanSettingId == setting.Id)
        where hole.At is not null && read is not null
        select new Engineering.Slab.HoleReading { Name = hole.Label, At = hole.At!.Value, VacuumPa = (hole.FanOffPa ?? 0) - read.FanOnPa };
}
