using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>The sentences of a freeze report.</summary>
internal static class ReportWords
{
    private const double CfmPerM3PerS = 2118.88;

    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Electricity: heat cable and its outlet are work for a licensed electrician, on a ground-fault protected circuit where the code asks for it; no wiring inside the vent unless the cable is listed for that use.",
        "Ladders, roofs and ice: do not knock ice off an overhead pipe from below; loosened ice can fall, and ice falling back can break the fan.",
        "Local code, the licensing state and the maker's instructions for pipe, cable and insulation come first.",
    ];

    public static IReadOnlyList<string> Sources { get; } =
    [
        "Inside film: laminar 3.66; Gnielinski with the Petukhov friction factor (from memory).",
        "Outside film: Churchill and Bernstein (1977), wind; Churchill and Chu (1975), still air (from memory); Swinbank (1963), clear sky (from memory).",
        "Moist air: ASHRAE Handbook, Fundamentals (2017), ch. 1; vapour to the wall by the heat and mass analogy (Chilton and Colburn).",
        "PVC wall 0.17 W/(m·K): EN 12524 / ISO 10456 design value.",
        "Freeze-up, its gauge signs, cable sizes and thermostat setting: common practice, no source.",
    ];

    public static IReadOnlyList<string> Assumptions(FreezeInput input)
    {
        var sentences = new List<string>(input.Assumptions.Sentences);
        if (input.Record is not { Winters.Count: > 0 }) sentences.Add(PlainWinter.Caution);
        sentences.Add("Ice grows as an even sleeve; it neither breaks off nor dries away; sun is left out.");
        sentences.Add(input.System is null
            ? "No fan curve given: the flow is held until the pipe is shut."
            : "As ice closes, the flow falls as the fan curve and the suction side allow.");
        if (input.System is { CurveFromNoFlow: false }) sentences.Add("The fan was not measured down to no flow; below its first measured flow its pressure is held.");
        return sentences;
    }

    public static string Conclusion(FreezeReport report)
    {
        var feet = (int)Math.Round(report.Input.Run.LengthM * Remedies.FeetPerM, MidpointRounding.AwayFromZero);
        var start = Words.Say($"{Words.Capital(Words.Count(feet))} {(feet == 1 ? "foot" : "feet")} outdoors at {report.Input.Run.FlowM3PerS * CfmPerM3PerS:0} cfm");
        if (report.Cable is null) return $"{start} stays above freezing at the design temperature; no heat cable is needed.";
        return Words.Say($"{start} {Icing(report)}; {Remedy(report)}.");
    }

    private static string Icing(FreezeReport report)
    {
        var winter = report.AtRisk.MadeUp ? "a design winter" : "an average winter of the record";
        var days = Math.Round(report.AtRisk.Days, MidpointRounding.AwayFromZero);
        if (days >= 1) return Words.Say($"ices up on about {days:0} {(days == 1 ? "day" : "days")} of {winter}");
        return report.AtRisk.High >= 1
            ? Words.Say($"frosts but stays more than half open in {winter}, though up to {report.AtRisk.High:0} days are possible")
            : $"frosts in the coldest weather but stays more than half open in {winter}";
    }

    private static string Remedy(FreezeReport report)
    {
        var cable = report.Cable!;
        if (cable.ChosenWPerFt is { } size)
            return Words.Say($"a {size:0.#} W/ft cable holds it open for about ${cable.DollarsPerWinter:0} a winter");
        return report.Insulation is { Enough: true } insulation
            ? Words.Say($"no cable on offer gives the {cable.HoldsOpenWPerFt:0.0} W/ft it needs, but insulation of R {insulation.UsR:0.#} does")
            : Words.Say($"no cable on offer gives the {cable.HoldsOpenWPerFt:0.0} W/ft it needs: shorten or reroute the run");
    }

    public static IReadOnlyList<string> Warnings(FreezeReport report)
    {
        var warnings = new List<string>();
        var input = report.Input;
        if (input.Record is { } record) AddRecord(warnings, record);
        if (input.Run.Pieces.Any(piece => piece.Direction == RunDirection.Level))
            warnings.Add("A level piece lets water stand and freeze in it; slope it back at least 1/8 in per foot (ANSI/AARST SGM-SF 2017, 6.2.2).");
        if (report.Insulation is { Enough: true } insulation)
            warnings.Add(Words.Say($"Insulation of R {insulation.UsR:0.#} round the whole run would keep the wall above freezing at the design temperature without a cable."));
        if (report.Bypass.Needed) warnings.Add(report.Bypass.Reason);
        if (report.ColdSpell.DaysUntilShut is { } shut)
            warnings.Add(Words.Say($"In a cold spell at the design temperature ice shuts the pipe after about {shut:0.0} days."));
        else if (report.ColdSpell.DaysUntilHalfClosed is { } half)
            warnings.Add(Words.Say($"In a cold spell at the design temperature ice closes half the pipe after about {half:0.0} days."));
        if (Falling(report) is { } falling) warnings.Add(falling);
        if (report.Cable is { ChosenWPerFt: not null, KeepsWallWarm: false } cable)
            warnings.Add(Words.Say($"The cable holds the pipe open but lets some frost form; a wall free of frost at the design temperature needs {cable.WallWarmWPerFt:0.0} W/ft on this pipe."));
        if (report.AtRisk.High - report.AtRisk.Low > 10)
            warnings.Add(Words.Say($"The assumptions leave a wide range: {report.AtRisk.Low:0} to {report.AtRisk.High:0} days a winter."));
        return warnings;
    }

    // Less than a mark of 0.05 inWC cannot be read off a U-tube.
    private static string? Falling(FreezeReport report)
    {
        if (report.Input.System is not { } system || report.ColdSpell.Days.Min(day => day.GaugePa) is not { } lowest) return null;
        var (open, low) = (system.OpenGaugePa / TradeUnits.PaPerInWC, lowest / TradeUnits.PaPerInWC);
        return open - low < 0.05 ? null : Words.Say($"As ice closes in such a spell the manometer falls from {open:0.00} to {low:0.00} inWC; water or blocked soil before the fan would make it rise.");
    }

    private static void AddRecord(List<string> warnings, DailyRecord record)
    {
        if (record.Winters.Count == 0) warnings.Add("The weather record holds no whole winter; a made-up winter was used instead.");
        if (record.FilledDays > 0) warnings.Add(Words.Say($"{record.FilledDays} missing days of the record were filled from their neighbours."));
        warnings.AddRange(record.Problems.Take(5));
    }
}
