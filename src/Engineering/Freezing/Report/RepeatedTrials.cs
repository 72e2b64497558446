using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// Repeats the season with assumptions drawn at random from their ranges, evenly between the ends, and each time another
/// winter: the next of the record, or another made-up one.
/// </summary>
internal static class RepeatedTrials
{
    // Twice the length of an ordinary cell: the spread of the assumptions is far wider than what the finer cells would add.
    private const double LongestCellM = 2 * RunMarch.LongestCellM;

    /// <summary>At-risk days of every trial, rising.</summary>
    public static int[] AtRiskDays(FreezeInput input, IReadOnlyList<IReadOnlyList<WeatherDay>> winters)
    {
        var numbers = new SeededNumbers(input.Seed * 2654435761UL + 17);
        var madeUp = input.Record is not { Winters.Count: > 0 };
        var counts = new int[input.Trials];
        for (var trial = 0; trial < counts.Length; trial++)
        {
            var (run, air) = Draw(input, numbers);
            var mouth = new ClosingMouth(SystemAt(input, run), run.FlowM3PerS, run.BoreM);
            var winter = madeUp
                ? PlainWinter.Days(input.DesignC, input.JanuaryMeanC, input.WinterDays, input.Seed + (ulong)trial)
                : winters[trial % winters.Count];
            counts[trial] = SeasonRunner.AtRiskDays(new RunMarch(run, air, LongestCellM), mouth, winter);
        }
        Array.Sort(counts);
        return counts;
    }

    private static (OutdoorRun Run, StreamAssumptions Air) Draw(FreezeInput input, SeededNumbers numbers)
    {
        var air = input.Assumptions;
        var drawn = air with
        {
            GroundC = Around(numbers, air.GroundC, air.GroundSpreadK, -5, 30),
            HouseAirShare = Around(numbers, air.HouseAirShare, air.HouseAirShareSpread, 0, 1),
            HouseHumidityPercent = Around(numbers, air.HouseHumidityPercent, air.HouseHumiditySpreadPercent, 0, 100),
            WindMPerS = Around(numbers, air.WindMPerS, air.WindSpreadMPerS, 0, 30),
            IceKgPerM3 = Around(numbers, air.IceKgPerM3, air.IceSpreadKgPerM3, 200, IceSleeve.ClearIceKgPerM3),
            FogCaughtShare = numbers.Between(0, 1),
        };
        var flow = input.Run.FlowM3PerS;
        return (input.Run with { FlowM3PerS = Around(numbers, flow, flow * air.FlowSpreadShare, 0.0005, FlowEnd(input)) }, drawn);
    }

    // A range that would leave what is physically possible ends there.
    private static double Around(SeededNumbers numbers, double middle, double spread, double low, double high) =>
        numbers.Between(Math.Max(low, middle - spread), Math.Min(high, middle + spread));

    private static double FlowEnd(FreezeInput input) => Math.Min(0.5, input.System?.Curve[^1].FlowM3PerS ?? 0.5);

    // Another open flow on the same fan: the gauge then reads what the suction side loses at that flow, at most the fan's own.
    private static SuctionSystem? SystemAt(FreezeInput input, OutdoorRun run)
    {
        if (input.System is not { } system) return null;
        var gauge = system.OpenGaugePa * Math.Pow(run.FlowM3PerS / input.Run.FlowM3PerS, system.SuctionExponent);
        return system with { OpenGaugePa = Math.Min(gauge, system.FanPa(run.FlowM3PerS)) };
    }
}
