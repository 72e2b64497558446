using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Freezing;

namespace MitigationOffice.Business.Design.Report;

/// <summary>For every number of the winter page: the formula, what went in, and the source.</summary>
public static class WinterOrigins
{
    private const string Page = "The method and how far to trust it: docs/calculations/freezing.md.";

    public static IReadOnlyList<NumberOrigin> Of(FreezeReport report, UnitSystem units)
    {
        var origins = new List<NumberOrigin> { Temperatures(report, units), Days(report, units), Ice(report, units) };
        if (report.Cable is { } cable) origins.AddRange(Cable(report, cable, units));
        if (report.Insulation is { } insulation) origins.Add(Insulation(report, insulation, units));
        origins.Add(Water(report, units));
        if (report.Input.System is { } system) origins.Add(Gauge(report, system, units));
        return origins;
    }

    private static NumberOrigin Temperatures(FreezeReport report, UnitSystem units) => new("Coldest inner wall",
        Say($"{Measures.Temperature.Show(report.AtDesign.ColdestWallC, units)} in design cold, {Measures.Temperature.Show(report.AtJanuaryMean.ColdestWallC, units)} at the January mean"),
        "heat from the air + heat of what condenses or freezes = heat through wall and insulation to wind and sky, cell by cell along the pipe",
        [.. Run(report, units), Say($"outdoors {Measures.Temperature.Show(report.Input.DesignC, units)} and {Measures.Temperature.Show(report.Input.JanuaryMeanC, units)}"), .. report.Input.Assumptions.Sentences],
        "Inside film: Gnielinski; outside film: Churchill and Bernstein (1977), from memory; PVC 0.17 W/(m·K): EN 12524. " + Page);

    private static NumberOrigin Days(FreezeReport report, UnitSystem units) => new("Days at risk a winter",
        Say($"{report.AtRisk.Days:0} ({report.AtRisk.Low:0} to {report.AtRisk.High:0})"),
        "days on which ice leaves less than half of the pipe’s area open, a mean over the winters; the range leaves out one trial in ten at either end",
        [
            report.AtRisk.MadeUp
                ? Say($"one winter of {report.Input.WinterDays} days made up from {Measures.Temperature.Show(report.Input.DesignC, units)} and a January mean of {Measures.Temperature.Show(report.Input.JanuaryMeanC, units)}; it is no weather record")
                : Say($"{report.AtRisk.Winters} winters of the house’s weather record"),
            Say($"{report.Input.Trials} trials with soil gas, house air, wind, ice and flow drawn from their ranges"),
        ],
        "A computation of this program, not a published method; “less than half open” is a house rule, not from a standard. " + Page);

    private static NumberOrigin Ice(FreezeReport report, UnitSystem units) => new("Thickest ice",
        Say($"{WinterCharts.Ice.Show(report.Winter.ThickestIceM, units)} in the winter shown"),
        "frost laid down less melt, four steps a day, as an even sleeve; the sleeve insulates and narrows the pipe",
        [.. Run(report, units), Say($"ice of {report.Input.Assumptions.IceKgPerM3:0} kg/m³ (assumed)"), Say($"a cold spell of {report.Input.ColdSpellDays} days with nights of {Measures.Temperature.Show(report.Input.DesignC, units)}: {Spell(report.ColdSpell)}")],
        "Vapour to the wall by the analogy of heat and mass transfer (Chilton and Colburn). " + Page);

    private static IEnumerable<NumberOrigin> Cable(FreezeReport report, HeatCable cable, UnitSystem units)
    {
        yield return new("Heat cable", Say($"{cable.PowerW:0} W"), "least heat with which three quarters of the pipe’s area stay open, rounded up to a size on offer, × length",
            [
                Say($"{cable.HoldsOpenWPerFt:0.0} W/ft hold it open; {cable.WallWarmWPerFt:0.0} W/ft would keep the wall free of frost"),
                cable.ChosenWPerFt is { } size ? Say($"size on offer {size:0.#} W/ft") : "no size on offer is enough",
                Say($"length {Measures.Length.Show(cable.LengthM, units)}"), Say($"{cable.HoursOn:0} h a winter under {Measures.Temperature.Show(report.Input.CableOnBelowC, units)}, {cable.KWhPerWinter:0} kWh"),
            ],
            "Sizes and thermostat: common practice, no source; three quarters open: house rule. " + Page);
        yield return new("Heat cable’s electricity", Say($"${cable.DollarsPerWinter:0.00} a winter"), "watts × hours under the thermostat’s setting × price",
            [Say($"{cable.PowerW:0} W × {cable.HoursOn:0} h ÷ 1000 = {cable.KWhPerWinter:0} kWh"), Say($"${report.Input.DollarsPerKWh:0.0000} a kWh, the company’s")], "Arithmetic. " + Page);
    }

    private static NumberOrigin Insulation(FreezeReport report, InsulationInstead insulation, UnitSystem units) => new("Insulation instead",
        insulation.Enough ? Say($"R {insulation.UsR:0.#}, {WinterCharts.Ice.Show(insulation.ThicknessM, units)} thick") : "none up to 6 in is enough",
        "thickness at which the coldest inner wall stands at freezing in design cold; R = thickness ÷ conductivity",
        [Say($"conductivity {report.Input.Run.Pieces[0].InsulationWPerMK:0.000} W/(m·K) (assumed)"), Say($"outdoors {Measures.Temperature.Show(report.Input.DesignC, units)}")],
        "Resistance of a sleeve, ln(outer/inner)/(2πk). " + Page);

    private static NumberOrigin Water(FreezeReport report, UnitSystem units) => new("Water back to the fan",
        Kilograms(report.Bypass.ToFanKgPerDay, units) + " a day", "what condenses at the January mean in the pieces that lead up or slope back; a bypass is advised from half a kilogram a day",
        [Say($"condenses in all {Kilograms(report.AtJanuaryMean.CondensateKgPerDay, units)} a day"), Say($"comes in with the air {Kilograms(report.AtJanuaryMean.WaterInKgPerDay, units)} a day")],
        "Balance of water along the pipe; the half kilogram is a house rule. " + Page);

    private static NumberOrigin Gauge(FreezeReport report, SuctionSystem system, UnitSystem units) => new("Gauge as ice closes",
        Say($"{Measures.GaugePressure.Show(system.OpenGaugePa, units)} with the pipe open, {Measures.GaugePressure.Show(WinterCharts.GaugePa(report, system, 0.25), units)} a quarter open, nothing when shut"),
        "fan = ground + pipe + ½ρv²(1/s² − 1)/c² at the mouth, solved for the flow; gauge = open gauge × (flow ÷ open flow)ⁿ",
        [Say($"n {system.SuctionExponent:0.00}, from the ground’s resistance"), Say($"c {system.MouthContraction:0.0} (assumed)"), "the fan’s measured curve at the air of the site"],
        "Continuity and Bernoulli; that a closing mouth lowers the gauge is common practice, no source. " + Page);

    private static IEnumerable<string> Run(FreezeReport report, UnitSystem units)
    {
        var run = report.Input.Run;
        yield return Say($"{Measures.Length.Show(run.LengthM, units)} outdoors, bore {WinterCharts.Ice.Show(run.BoreM, units)}, flow {Measures.Flow.Show(run.FlowM3PerS, units)}");
        yield return run.FanBeforeRunW > 0 ? Say($"the fan’s {run.FanBeforeRunW:0} W warm the air before it") : "the fan stands after the run and warms nothing before it";
    }

    private static string Spell(IceSeason spell) =>
        spell.DaysUntilShut is { } shut ? Say($"shut after {shut:0.0} days") : spell.DaysUntilHalfClosed is { } half ? Say($"half closed after {half:0.0} days") : "stays more than half open";

    private static string Kilograms(double kg, UnitSystem units) => units == UnitSystem.US ? Say($"{kg / 3.785411784:0.0} gal") : Say($"{kg:0.0} L");

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
