using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>Radon levels as people write them: pCi/L, or Bq/m³ where SI is chosen or written. 1 pCi/L is 37 Bq/m³ exactly.</summary>
public static class RadonReading
{
    private const decimal BqPerPCi = 37m;
    private const decimal Most = 20_000m;

    public static string Unit(UnitSystem units) => units == UnitSystem.US ? "pCi/L" : "Bq/m³";

    public static string Show(decimal? pCiL, UnitSystem units) => pCiL is null ? "–" : $"{Typed(pCiL, units)} {Unit(units)}";

    /// <summary>As an input field holds it: tenths of a pCi/L, whole Bq/m³.</summary>
    public static string Typed(decimal? pCiL, UnitSystem units) => pCiL is not { } level ? "" : units == UnitSystem.US
        ? Math.Round(level, 1, MidpointRounding.AwayFromZero).ToString("0.0", CultureInfo.InvariantCulture)
        : Math.Round(level * BqPerPCi, 0, MidpointRounding.AwayFromZero).ToString("0", CultureInfo.InvariantCulture);

    public static (decimal? PCiL, string? Problem) Read(string? typed, UnitSystem units)
    {
        var text = (typed ?? "").Trim();
        var becquerel = units == UnitSystem.SI;
        foreach (var (ending, isBq) in new[] { ("pCi/L", false), ("pCi/l", false), ("Bq/m³", true), ("Bq/m3", true), ("pCi", false), ("Bq", true) })
        {
            if (!text.EndsWith(ending, StringComparison.OrdinalIgnoreCase)) continue;
            (text, becquerel) = (text[..^ending.Length].Trim(), isBq);
            break;
        }

        var (value, problem) = TypedNumbers.ReadDecimal(text, "radon level", 0, becquerel ? Most * BqPerPCi : Most);
        return (becquerel && value is { } bq ? Math.Round(bq / BqPerPCi, 6, MidpointRounding.AwayFromZero) : value, problem);
    }
}
