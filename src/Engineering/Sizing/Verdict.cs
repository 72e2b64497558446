using System.Globalization;
using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>The sentences that say why.</summary>
internal static class Verdict
{
    public static string Because(OperatingPoint point, HoleSuction weakest, double targetPa)
    {
        if (point.Velocity == VelocityFlag.TooFast) return "The air would run so fast in this pipe that condensate no longer runs back; take a larger pipe or a smaller fan.";
        return weakest.WinterPa >= targetPa
            ? Say($"Hole {weakest.Label} keeps {weakest.WinterPa:0.0} Pa in design winter, {targetPa:0.0} Pa are wanted.{(weakest.WinterLowPa < targetPa ? " The low end of its range lies below that." : "")}")
            : weakest.WinterPa > 0
                ? Say($"Hole {weakest.Label} would keep only {weakest.WinterPa:0.0} Pa in design winter, {targetPa:0.0} Pa are wanted.")
                : Say($"Hole {weakest.Label} would lose its suction in design winter.");
    }

    public static string Why(IReadOnlyList<FanResult> ranked, double targetPa)
    {
        if (ranked.FirstOrDefault(r => r.Holds) is not { } best)
            return Say($"No fan of the catalogue keeps {targetPa:0.0} Pa at every hole in design winter on this route.");
        var words = Say($"The {best.Name} ({best.Point!.Watts:0} W) holds {best.WeakestNowPa:0.0} Pa at the weakest hole, {best.WeakestWinterPa:0.0} Pa in design winter where {targetPa:0.0} Pa are wanted");
        var stronger = ranked.Where(r => r.Holds && r.FanId != best.FanId && r.WeakestWinterPa > best.WeakestWinterPa && r.Point!.Watts > best.Point.Watts).MinBy(r => r.Point!.Watts);
        if (stronger is null) return words + ".";
        var saved = stronger.ElectricityDollarsPerYear + stronger.HouseAirDollarsPerYear - best.ElectricityDollarsPerYear - best.HouseAirDollarsPerYear;
        return words + Say($"; the {stronger.Name} ({stronger.Point!.Watts:0} W) pulls more than is needed and costs about ${saved:0} more a year.");
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
