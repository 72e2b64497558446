using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>How computed numbers of a design are written on a page.</summary>
public static class DesignWords
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
}
