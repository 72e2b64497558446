using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Design;

/// <summary>A house's floor plan and a test's places on it, as a design file holds them.</summary>
public static class GatherPlan
{
    /// <summary>Cells of the map that the engine takes over the whole sheet, at its usual grid.</summary>
    private const double MostM2 = 20_000 * 0.25 * 0.25;

    /// <summary>The plan, or why the coverage of the slab cannot be told.</summary>
    public static (FileFloorPlan? Plan, string? WhyNone) Of(House house, PressureFieldTest test)
    {
        var plan = FloorPlan.Of(house);
        var slabs = plan.Areas.Where(a => a.HasSlab).ToList();
        var pits = test.SuctionHoles.OrderBy(s => s.Id).ToList();
        var setting = test.Settings.OrderBy(s => s.Position).MaxBy(s => s.PitVacuumPa);
        if (WhyNone(slabs, pits) is { } why) return (null, why);
        if (setting is null) return (null, "The PFE test tried no fan or vacuum yet.");
        return (new FileFloorPlan
        {
            Areas = [.. slabs.Select(a => new FileArea { Name = a.Name, Corners = [.. a.Corners.Select(At)] })],
            Footings = [.. plan.Footings.SelectMany(f => f.Zip(f.Skip(1), (from, to) => new FileFooting { From = At(from), To = At(to) }))],
            SuctionPoints = [.. pits.Select(p => new FilePit { Name = p.Label, At = At(p.At!.Value), PitVacuumPa = setting.PitVacuumPa, FlowM3PerS = setting.FlowM3PerS / pits.Count })],
            Holes = [.. Holes(test, setting, slabs)],
        }, null);
    }

    /// <summary>Where the pit of a test with suction at one hole alone is on the plan; null where it is not on a slab.</summary>
    public static FilePlace? PitOf(House house, PressureFieldTest test) =>
        test.SuctionHoles is [{ At: { } at }] && OnSlab([.. FloorPlan.Of(house).Areas.Where(a => a.HasSlab)], at) ? At(at) : null;

    private static string? WhyNone(List<PlanArea> slabs, List<SuctionHole> pits)
    {
        if (slabs.Count == 0) return "The floor plan has no slab yet: draw it first.";
        if (pits.Count == 0) return "The PFE test names no suction hole.";
        if (pits.Find(p => p.At is null) is { } lost) return $"Suction hole {lost.Label} has no place on the plan yet.";
        if (pits.Find(p => !OnSlab(slabs, p.At!.Value)) is { } off) return $"Suction hole {off.Label} lies on no slab of the plan.";
        var corners = slabs.SelectMany(a => a.Corners).ToList();
        var sheet = (corners.Max(c => c.XM) - corners.Min(c => c.XM)) * (corners.Max(c => c.YM) - corners.Min(c => c.YM));
        return sheet > MostM2 ? $"The plan covers {sheet:0} m² from edge to edge; the map takes {MostM2:0} m²." : null;
    }

    private static IEnumerable<FilePlacedHole> Holes(PressureFieldTest test, FanSetting setting, List<PlanArea> slabs) =>
        from hole in test.TestHoles.OrderBy(h => h.Position)
        let read = hole.Readings.Find(r => r.FanSettingId == setting.Id)
        where hole.At is { } at && read is not null && OnSlab(slabs, at)
        select new FilePlacedHole { Label = hole.Label, At = At(hole.At!.Value), VacuumPa = (hole.FanOffPa ?? 0) - read.FanOnPa };

    private static bool OnSlab(List<PlanArea> slabs, PlanPoint place) => slabs.Exists(a => new PlanShape(a.Corners).Holds(place));

    private static FilePlace At(PlanPoint place) => new() { XM = place.XM, YM = place.YM };
}
