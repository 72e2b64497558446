using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// Foretells ice in an outdoor vent pipe before the first winter, and what keeps it open. It answers in right order of
/// size, not to the day: most of what it rests on is assumed, and the report says so.
/// </summary>
public static class FreezeForecast
{
    /// <summary>
    /// Computes the whole report. Example: 16 ft of bare 4 in pipe at 22 cfm, design −20 °C, January −6 °C, gives the days
    /// at risk, a heat cable and its cost a winter.
    /// </summary>
    /// <param name="input">Run, assumptions, weather, prices.</param>
    /// <returns>The report; the same input always gives the same report.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range stated at its member.</exception>
    /// <remarks>
    /// Range: as stated at the members of <see cref="FreezeInput"/>, <see cref="OutdoorRun"/> and <see cref="StreamAssumptions"/>.
    /// Source: <see cref="SteadyRun"/> for the march, <see cref="IceSleeve"/> for the ice; the count of days is a
    /// computation of this program, not a published method.
    /// </remarks>
    public static FreezeReport Compute(FreezeInput input)
    {
        InputCheck.Check(input);
        var winters = Winters(input);
        var mouth = new ClosingMouth(input.System, input.Run.FlowM3PerS, input.Run.BoreM);
        var march = new RunMarch(input.Run, input.Assumptions);
        var counts = winters.Select(winter => SeasonRunner.AtRiskDays(march, mouth, winter)).ToList();
        var design = SteadyRun.At(input.Run, input.Assumptions, input.DesignC);
        var january = SteadyRun.At(input.Run, input.Assumptions, input.JanuaryMeanC);
        var report = new FreezeReport
        {
            Conclusion = "",
            Assumptions = ReportWords.Assumptions(input),
            Warnings = [],
            Cautions = ReportWords.Cautions,
            Sources = ReportWords.Sources,
            Input = input,
            AtDesign = design,
            AtJanuaryMean = january,
            ColdSpell = SeasonRunner.Run(march, mouth, Spell(input), input.Run.BoreM),
            Winter = SeasonRunner.Run(march, mouth, MiddleWinter(winters, counts), input.Run.BoreM),
            AtRisk = Risk(input, winters, counts),
            Cable = Remedies.Cable(input, winters),
            Insulation = Remedies.Insulation(input),
            Bypass = Remedies.Bypass(input, january),
        };
        return report with { Conclusion = ReportWords.Conclusion(report), Warnings = ReportWords.Warnings(report) };
    }

    private static IReadOnlyList<IReadOnlyList<WeatherDay>> Winters(FreezeInput input) =>
        input.Record is { Winters.Count: > 0 } record
            ? record.Winters
            : [PlainWinter.Days(input.DesignC, input.JanuaryMeanC, input.WinterDays, input.Seed)];

    internal static IReadOnlyList<WeatherDay> Spell(FreezeInput input) =>
        ColdSpell.Days(new DateOnly(2025, 1, 14), input.ColdSpellDays, input.DesignC, input.DesignC + input.ColdSpellSwingK);

    private static IReadOnlyList<WeatherDay> MiddleWinter(IReadOnlyList<IReadOnlyList<WeatherDay>> winters, List<int> counts)
    {
        var order = Enumerable.Range(0, counts.Count).OrderBy(winter => counts[winter]).ToList();
        return winters[order[order.Count / 2]];
    }

    private static RiskDays Risk(FreezeInput input, IReadOnlyList<IReadOnlyList<WeatherDay>> winters, List<int> counts)
    {
        var trials = RepeatedTrials.AtRiskDays(input, winters);
        if (trials.Length == 0) trials = [.. counts.Order()];
        return new RiskDays
        {
            Days = counts.Average(),
            Low = Math.Min(counts.Average(), trials[trials.Length / 10]),
            High = Math.Max(counts.Average(), trials[(trials.Length * 9 - 1) / 10]),
            Winters = winters.Count,
            MadeUp = input.Record is not { Winters.Count: > 0 },
        };
    }
}
