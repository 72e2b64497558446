using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>One number of a new system against what the design foresaw.</summary>
/// <param name="LookFor">What to look for where it is outside the band; empty inside it.</param>
public sealed record BuiltLine(string What, string Foreseen, string Band, string Measured, bool Inside, string LookFor);

/// <summary>Holds the readings at the start against the design at once, while the tools are still in the house. The band is what the
/// readings of the diagnosis leave open, and never narrower than a quarter: a house rule, not from a standard.</summary>
public static class JudgeBuilt
{
    public const double Share = 0.25;

    /// <summary>What a gauge at a test hole tells apart, Pa.</summary>
    private const double HolePa = 0.5;

    public static IReadOnlyList<BuiltLine> Of(ForeseenSuction foreseen, double? gaugePa, double? watts, IEnumerable<FinalReading> readings)
    {
        var lines = new List<BuiltLine>();
        if (foreseen.PitPa is { } pit && gaugePa is { } gauge) lines.Add(Line("Gauge on the pipe", pit, pit * (1 - Share), pit * (1 + Share), gauge, Measures.GaugePressure, GaugeLow, GaugeHigh));
        if (foreseen.Watts is { } power && watts is { } drawn) lines.Add(Line("Fan draws", power, power * (1 - Share), power * (1 + Share), drawn, Measures.Power, WattsLow, WattsHigh));
        foreach (var r in readings)
        {
            if ((r.PredictedPa ?? (foreseen.HolesPa.TryGetValue(r.HoleLabel, out var now) ? now : null)) is not { } wanted) continue;
            var (low, high) = foreseen.BandsPa.TryGetValue(r.HoleLabel, out var band) ? (band.LowPa, band.HighPa) : (wanted, wanted);
            var least = Math.Max(HolePa, Math.Abs(wanted) * Share);
            lines.Add(Line($"Hole {r.HoleLabel}", wanted, Math.Min(low, wanted - least), Math.Max(high, wanted + least), r.SuctionPa, Measures.Pressure, HoleLow(gaugePa, foreseen.PitPa), HoleHigh));
        }

        return lines;
    }

    private const string GaugeLow = "Too little suction on the pipe. Look for air coming in before the fan: sump lid, floor openings, pipe joints, a wider hole than drawn; then the fan's watts and the way its arrow points.";
    private const string GaugeHigh = "More suction than foreseen: too little air reaches the pit. Look for a small or filled pit, wet soil, a low spot with water, a reducer not drawn.";
    private const string WattsLow = "Fewer watts than foreseen: little flow, or another fan or speed than drawn. Look at the model, its setting, and whether the mouth is open.";
    private const string WattsHigh = "More watts than foreseen: more flow than drawn. Look for air from the rooms (open slab, lid, crack), or another fan or speed than drawn.";
    private const string HoleHigh = "More suction than foreseen here: good for the house. Look whether the hole was read at the right place and the fan-off reading was taken; more house air may be drawn, so look at the backdraft check again.";

    private static string HoleLow(double? gaugePa, double? pitPa) => gaugePa is { } g && pitPa is { } p && g >= p * (1 - Share)
        ? "The pipe holds its suction and this hole does not get it. Look for a footing between, a leak near the hole, a plugged hole; a second suction point may be needed."
        : "Less suction than foreseen here, as on the pipe. Find the pipe's reason first, then read this hole again.";

    private static BuiltLine Line(string what, double foreseen, double low, double high, double measured, Measure measure, string whenLow, string whenHigh)
    {
        var inside = measured >= low && measured <= high;
        return new(what, measure.Show(foreseen), string.Create(CultureInfo.InvariantCulture, $"{measure.Number(low)} to {measure.Show(high)}"), measure.Show(measured), inside, inside ? "" : measured < low ? whenLow : whenHigh);
    }
}
