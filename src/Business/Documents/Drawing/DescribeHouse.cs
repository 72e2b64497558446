using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>The section in words, for those who cannot see it.</summary>
public static class DescribeHouse
{
    public static string Of(HouseFacts facts) => string.Join(' ', Sentences(facts));

    private static IEnumerable<string> Sentences(HouseFacts f)
    {
        yield return $"{(f.Basement ? "A basement" : "A slab on the ground")} under {Storeys(f.Storeys)}{(f.FootingDivides ? ", with a footing that divides the slab" : "")}.";
        if (f.Route.Count > 0) yield return $"From a pit under the slab {Pipe(f.Route, f)}.";
        foreach (var branch in f.Branches) yield return $"A further pit, {branch.Name}: {Pipe(branch.Pipe, f)}, which joins {(branch.Joins.Length == 0 ? "the route" : "the pipe of " + branch.Joins)}{(branch.PitVacuumPa is { } pa ? $"; {Measures.GaugePressure.Show(pa, f.Units)} at the pit" : "")}.";
        if (f.FanWords.Length > 0) yield return $"Fan: {f.FanWords}{(f.FanPlace is { } place ? ", " + In(place) : "")}.";
        if (f.DischargeAboveGradeM is { } height) yield return $"It discharges {Measures.Height.Show(height, f.Units)} above the ground.";
        if (f.PitVacuumPa is { } pit) yield return $"Suction at the pit: {Measures.GaugePressure.Show(pit, f.Units)}.";
        if (f.StartUpPa is { } start) yield return $"Gauge at start-up: {Measures.GaugePressure.Show(start, f.Units)}.";
        if (f.Holes.Count > 0) yield return $"Suction under the slab at the test holes: {string.Join(", ", f.Holes.Select(h => Hole(h, f)))}.";
        if (f.Weakest is { } weakest && f.Holes.Count > 1) yield return $"The weakest is {weakest.Label}.";
        if (f.Warning.Length > 0) yield return $"Outdoor run: {f.Warning}.";
        yield return "Not to scale.";
    }

    private static string Pipe(IEnumerable<RouteStretch> pipe, HouseFacts f) => string.Join(", then ", pipe.Where(r => r.LengthM > 0)
        .Select(r => $"{Measures.Length.Show(r.LengthM, f.Units)} of {r.Size} pipe {In(r.Place)}").DefaultIfEmpty("a pipe leads out"));

    private static string Hole(HoleMark hole, HouseFacts f) => $"{hole.Label} {(hole.SuctionPa is { } pa ? Measures.Pressure.Show(pa, f.Units) : "not read")}";

    private static string Storeys(double storeys) =>
        storeys == 1 ? "one storey" : string.Create(CultureInfo.InvariantCulture, $"{storeys:0.#} storeys");

    private static string In(RoutePlace place) => place switch
    {
        RoutePlace.Garage => "in the garage",
        RoutePlace.Attic => "in the attic",
        RoutePlace.Outdoors => "outdoors",
        _ => "indoors",
    };
}
