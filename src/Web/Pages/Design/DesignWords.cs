using System.Globalization;
using System.Text.RegularExpressions;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>How computed numbers of a design are written on a page.</summary>
public static partial class DesignWords
{
    private const double FpmPerMPerS = 196.850394;

    public static string Speed(double mPerS, UnitSystem units) => units == UnitSystem.US
        ? string.Create(CultureInfo.InvariantCulture, $"{Math.Round(mPerS * FpmPerMPerS / 10, MidpointRounding.AwayFromZero) * 10:#,##0} fpm")
        : string.Create(CultureInfo.InvariantCulture, $"{mPerS:0.0} m/s");

    public static string Suction(double pa) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(pa, 1, MidpointRounding.AwayFromZero):0.0} Pa").Replace("-", "−", StringComparison.Ordinal);

    public static string Range(double low, double high) => string.Create(CultureInfo.InvariantCulture, $"{low:0.0} to {high:0.0} Pa").Replace("-", "−", StringComparison.Ordinal);

    public static string Dollars(double dollars) => Money.FromDollars((decimal)dollars).ToString();

    public static string WholeDollars(double dollars) => string.Create(CultureInfo.InvariantCulture, $"${Math.Round(dollars, MidpointRounding.AwayFromZero):#,##0}");

    public static string Days(double days) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(days, MidpointRounding.AwayFromZero):0}");

    public static string Water(double kgPerDay, UnitSystem units) => units == UnitSystem.US
        ? string.Create(CultureInfo.InvariantCulture, $"{kgPerDay / 3.785411784:0.0} gal/day")
        : string.Create(CultureInfo.InvariantCulture, $"{kgPerDay:0.0} L/day");

    /// <summary>The first suction point has no name of its own.</summary>
    public static string PointName(string name) => name.Length == 0 ? "the first" : name;

    /// <summary>The share of the suction that reaches a hole from the point that brings most.</summary>
    public static HoleTransfer? TransferOf(DesignReport report, HolePressure hole) =>
        (hole.From is { } from and > 0 ? report.FurtherSoils[from - 1].Soil : report.Soil).Holes.FirstOrDefault(t => t.Label == hole.Label);

    public static string Ratio(double ratio) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(ratio, 2, MidpointRounding.AwayFromZero):0.00}");

    public static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(share * 100, MidpointRounding.AwayFromZero):0} %");

    /// <summary>A drawn curve's pressure at a flow, by a straight line between its points; null where it does not reach.</summary>
    public static double? PressureAt(IReadOnlyList<SystemPoint> curve, double flowM3PerS)
    {
        for (var i = 1; i < curve.Count; i++)
        {
            var (a, b) = (curve[i - 1], curve[i]);
            if (flowM3PerS < a.FlowM3PerS || flowM3PerS > b.FlowM3PerS || b.FlowM3PerS <= a.FlowM3PerS) continue;
            return a.PressurePa + (flowM3PerS - a.FlowM3PerS) / (b.FlowM3PerS - a.FlowM3PerS) * (b.PressurePa - a.PressurePa);
        }

        return null;
    }

    /// <summary>A computed sentence for people who are not told costs.</summary>
    public static string WithoutCost(string sentence) => Cost().Replace(sentence, "");

    [GeneratedRegex(@"( for| and costs) about \$[\d,.]+( more)? a (winter|year)", RegexOptions.CultureInvariant)]
    private static partial Regex Cost();
}
