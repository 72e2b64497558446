using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Diagnosis;

/// <summary>What in a day's readings contradicts itself or falls short: things to look at again, not refusals.</summary>
public static class CheckReadings
{
    /// <summary>A gauge drifts by some tenths of a pascal; more than this against the fan is worth a second look.</summary>
    private const double MuchPa = 1.0;

    /// <summary>The finest mark of a common digital micromanometer, Pa (common practice, no source).</summary>
    private const double GaugeShowsPa = 0.1;
    private const double FtPerM2 = 10.763910416709722;

    public static IReadOnlyList<string> Of(PressureFieldTest test, UnitSystem units) =>
        [.. OtherUnit(test, units), .. test.TestHoles.OrderBy(h => h.Position).SelectMany(h => Hole(h, test, units))];

    /// <summary>Whether the holes are enough, with the rule's source; empty when they are.</summary>
    public static IReadOnlyList<string> HolesOwed(PressureFieldTest test, IReadOnlyList<FoundationArea> areas)
    {
        var slabs = areas.Where(a => a.Kind != FoundationKind.CrawlSpace).Select(a => new SlabFloor(a.Name, (decimal)(a.FloorM2 * FtPerM2))).ToList();
        if (slabs.Count == 0) slabs.Add(new SlabFloor("the slab", 0));
        var counts = slabs.ToDictionary(s => s.Name, s => slabs.Count == 1 ? test.TestHoles.Count : test.TestHoles.Count(h => Names(h, s.Name)), StringComparer.OrdinalIgnoreCase);
        var missing = TestHoles.Missing(slabs, counts);
        // Holes whose place names no area still count for the house.
        return test.TestHoles.Count >= TestHoles.Owed(slabs).InHouse ? [.. missing.Where(m => !m.StartsWith("The house has", StringComparison.Ordinal))] : missing;
    }

    /// <summary>Readings that no gauge for this work can tell from nothing, one and all: inches of water written down as pascals, most likely.</summary>
    private static IEnumerable<string> OtherUnit(PressureFieldTest test, UnitSystem units)
    {
        var largest = test.TestHoles.SelectMany(h => h.Readings.Select(r => r.FanOnPa).Append(h.FanOffPa ?? 0)).Select(Math.Abs).DefaultIfEmpty(0).Max();
        if (largest is > 0 and < GaugeShowsPa)
            yield return $"Every hole reads less than {Measures.Pressure.Show(GaugeShowsPa, units)}, which such gauges hardly show. If yours showed inches of water, write the unit with the number: 0.014 inWC is {Measures.Pressure.Show(0.014 * TradeUnits.PaPerInWC, units)}.";
    }

    private static string Signed(double pa) => (pa > 0 ? "+" : "") + Measures.Pressure.Show(pa);

    private static bool Names(TestHole hole, string area) => hole.Place.Contains(area, StringComparison.OrdinalIgnoreCase);

    private static IEnumerable<string> Hole(TestHole hole, PressureFieldTest test, UnitSystem units)
    {
        foreach (var reading in hole.Readings)
        {
            if (test.Settings.Find(s => s.Id == reading.FanSettingId) is not { } setting) continue;
            var (off, on) = (hole.FanOffPa, reading.FanOnPa);
            if (off is { } before && on > before + MuchPa)
                yield return $"{hole.Label}: the gauge shows {Signed(on)} with {setting.Label}, less suction than with the fan off ({Signed(before)}). Was a sign mistaken, or did the wind blow?";
            else if (-on > setting.PitVacuumPa)
                yield return $"{hole.Label}: {Measures.Pressure.Show(-on, units)} of suction is more than the {Measures.GaugePressure.Show(setting.PitVacuumPa, units)} at the pit with {setting.Label}. One of the two is misread.";
            else if (on > 0)
                yield return $"{hole.Label}: the gauge shows {Signed(on)} with {setting.Label}: the slab still pushes into the house there.";
        }
    }
}
