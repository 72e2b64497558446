using System.Globalization;
using System.Text.RegularExpressions;

namespace MitigationOffice.Business.Data;

/// <summary>US customary units are shown and assumed first; SI by a switch.</summary>
public enum UnitSystem
{
    US,
    SI,
}

/// <summary>A number somebody typed: its value in SI, or a sentence that says what to do.</summary>
public readonly record struct Measured(double? Value, string? Problem)
{
    public bool IsEmpty => Value is null && Problem is null;
}

/// <summary>A kind of measured value: its units, the range that makes sense, and how it is shown.</summary>
public sealed record Measure(
    string Name, string UsUnit, string SiUnit, int UsDecimals, int SiDecimals, double Least, double Most,
    IReadOnlyDictionary<string, (double Factor, double Offset)> Units)
{
    public string UnitIn(UnitSystem system) => system == UnitSystem.US ? UsUnit : SiUnit;

    public double In(double si, UnitSystem system) => In(si, UnitIn(system));

    public double In(double si, string unit) => (si - Units[unit].Offset) / Units[unit].Factor;

    public double ToSi(double value, string unit) => value * Units[unit].Factor + Units[unit].Offset;

    /// <summary>"16.0 ft": rounded for reading, unit included.</summary>
    public string Show(double? si, UnitSystem system = UnitSystem.US) =>
        si is { } v ? $"{Number(v, system)} {UnitIn(system)}" : "–";

    /// <summary>The number alone, as an input field holds it: no more digits than it deserves.</summary>
    public string Number(double? si, UnitSystem system = UnitSystem.US)
    {
        if (si is not { } v) return "";
        var shown = Math.Round(In(v, system), system == UnitSystem.US ? UsDecimals : SiDecimals, MidpointRounding.AwayFromZero);
        return (shown == 0 ? 0 : shown).ToString("0.######", CultureInfo.InvariantCulture).Replace("-", "−", StringComparison.Ordinal);
    }

    /// <summary>Reads "4 in", "3'8\"", "1,200", "−5 °F" or a bare number in the given system's unit.</summary>
    public Measured Read(string? typed, UnitSystem system = UnitSystem.US)
    {
        if (string.IsNullOrWhiteSpace(typed)) return new(null, null);
        var text = MeasureText.Clean(typed);
        if (SiUnit == "m" && MeasureText.FeetAndInches(text) is { } metres) return Ranged(metres, typed, system);
        var match = MeasureText.NumberAndUnit.Match(text);
        if (!match.Success || MeasureText.NumberOf(match.Groups["number"].Value) is not { } number)
            return new(null, $"Write the {Name} as a number, for example {Example(system)}.");
        var unit = match.Groups["unit"].Value.Trim();
        var known = unit == "" ? UnitIn(system) : Units.Keys.FirstOrDefault(k => MeasureText.SameUnit(k, unit));
        return known is null
            ? new(null, $"The unit “{unit}” is not one for {Name}. Use {string.Join(", ", Units.Keys.Take(4))}.")
            : Ranged(ToSi(number, known), typed, system);
    }

    private Measured Ranged(double si, string typed, UnitSystem system) =>
        double.IsFinite(si) && si >= Least && si <= Most
            ? new(si, null)
            : new(null, $"{typed.Trim()} is out of range: the {Name} must be between {Show(Least, system)} and {Show(Most, system)}.");

    private string Example(UnitSystem system) => Show(Least + (Most - Least) * 0.02, system);
}

/// <summary>The measured values of the trade. Stored in SI.</summary>
public static class Measures
{
    public static readonly Measure Length = Make("length", "ft", "m", 1, 2, 0, 1000, ("ft", 0.3048), ("m", 1), ("in", 0.0254), ("cm", 0.01), ("mm", 0.001), ("feet", 0.3048), ("foot", 0.3048), ("inches", 0.0254), ("inch", 0.0254), ("\"", 0.0254), ("'", 0.3048));
    public static readonly Measure Height = Length with { Name = "height", Least = -1000 };
    public static readonly Measure Elevation = Length with { Name = "elevation", Least = -430, Most = 5000, UsDecimals = 0, SiDecimals = 0 };
    public static readonly Measure Area = Make("floor area", "ft²", "m²", 0, 1, 0, 100_000, ("ft²", 0.09290304), ("m²", 1), ("sq ft", 0.09290304), ("sqft", 0.09290304), ("ft2", 0.09290304), ("sf", 0.09290304), ("m2", 1), ("sq m", 1));
    public static readonly Measure Flow = Make("flow", "cfm", "L/s", 1, 1, 0, 1.0, ("cfm", 4.719474432e-4), ("L/s", 0.001), ("m3/h", 1 / 3600.0), ("m³/h", 1 / 3600.0), ("m3/s", 1));
    public static readonly Measure GaugePressure = Make("gauge reading", "inWC", "Pa", 2, 0, 0, 5000, ("inWC", 249.08891), ("Pa", 1), ("in wc", 249.08891), ("in w.c.", 249.08891), ("inH2O", 249.08891), ("in", 249.08891), ("\"", 249.08891), ("wc", 249.08891), ("kPa", 1000));
    public static readonly Measure Pressure = Make("pressure", "Pa", "Pa", 1, 1, -5000, 5000, ("Pa", 1), ("inWC", 249.08891), ("in wc", 249.08891), ("in", 249.08891), ("\"", 249.08891), ("kPa", 1000));
    public static readonly Measure Temperature = Make("temperature", "°F", "°C", 0, 1, -60, 60, ("°F", 5 / 9.0, -160 / 9.0), ("°C", 1, 0), ("F", 5 / 9.0, -160 / 9.0), ("C", 1, 0), ("deg F", 5 / 9.0, -160 / 9.0), ("deg C", 1, 0));
    public static readonly Measure Power = Make("power", "W", "W", 1, 1, 0, 5000, ("W", 1), ("watts", 1), ("watt", 1), ("kW", 1000));
    public static readonly Measure DegreeDays = Make("heating degree days", "°F·days", "°C·days", 0, 0, 0, 12_000, ("°F·days", 5 / 9.0), ("°C·days", 1), ("HDD", 5 / 9.0), ("F", 5 / 9.0), ("C", 1));

    private static Measure Make(string name, string us, string si, int usDecimals, int siDecimals, double least, double most, params (string Unit, double Factor)[] units) =>
        new(name, us, si, usDecimals, siDecimals, least, most, units.ToDictionary(u => u.Unit, u => (u.Factor, 0.0), StringComparer.Ordinal));

    private static Measure Make(string name, string us, string si, int usDecimals, int siDecimals, double least, double most, params (string Unit, double Factor, double Offset)[] units) =>
        new(name, us, si, usDecimals, siDecimals, least, most, units.ToDictionary(u => u.Unit, u => (u.Factor, u.Offset), StringComparer.Ordinal));
}

/// <summary>The small grammar of typed numbers.</summary>
public static partial class MeasureText
{
    [GeneratedRegex(@"^(?<number>[-+]?[\d.,]*\d[\d.,]*(?:\s+\d+/\d+)?|[-+]?\d+/\d+)\s*(?<unit>.*)$", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex NumberAndUnitRegex();

    [GeneratedRegex(@"^(?<feet>\d+(?:\.\d+)?)\s*(?:'|ft|feet|foot)\s*-?\s*(?<inches>\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\d+/\d+)\s*(?:""|in|inches|inch)?$", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex FeetAndInchesRegex();

    public static Regex NumberAndUnit => NumberAndUnitRegex();

    /// <summary>Takes away what hands and clipboards add: odd spaces, curly quotes, typographic minus and fractions.</summary>
    public static string Clean(string typed)
    {
        var text = typed.Trim()
            .Replace('\u2212', '-').Replace('\u2013', '-').Replace('\u2032', '\'').Replace('\u2033', '"')
            .Replace('\u2019', '\'').Replace('\u201d', '"').Replace('\u00a0', ' ').Replace('\u202f', ' ')
            .Replace("\u200b", "", StringComparison.Ordinal).Replace("''", "\"", StringComparison.Ordinal)
            .Replace("½", " 1/2", StringComparison.Ordinal).Replace("¼", " 1/4", StringComparison.Ordinal)
            .Replace("¾", " 3/4", StringComparison.Ordinal).Trim();
        return text.StartsWith("- ", StringComparison.Ordinal) ? "-" + text[2..].TrimStart() : text;
    }

    public static bool SameUnit(string known, string typed) =>
        string.Equals(Bare(known), Bare(typed), StringComparison.OrdinalIgnoreCase);

    public static double? FeetAndInches(string text)
    {
        var match = FeetAndInchesRegex().Match(text);
        if (!match.Success) return null;
        return NumberOf(match.Groups["feet"].Value) * 0.3048 + NumberOf(match.Groups["inches"].Value) * 0.0254;
    }

    /// <summary>"1,200", "3 1/2", "1/2", "-0.5"; null where the commas make no sense.</summary>
    public static double? NumberOf(string text)
    {
        var parts = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 2 && Whole(parts[0]) is { } whole && Fraction(parts[1]) is { } part) return whole < 0 ? whole - part : whole + part;
        if (parts.Length != 1) return null;
        return parts[0].Contains('/', StringComparison.Ordinal) ? Fraction(parts[0]) : Whole(parts[0]);
    }

    private static double? Fraction(string text)
    {
        var parts = text.Split('/');
        return parts.Length == 2 && Whole(parts[0]) is { } top && Whole(parts[1]) is { } bottom && bottom != 0 ? top / bottom : null;
    }

    private static double? Whole(string text)
    {
        var groups = text.TrimStart('-', '+').Split('.')[0].Split(',');
        if (groups.Length > 1 && (groups[0].Length is 0 or > 3 || groups.Skip(1).Any(g => g.Length != 3))) return null;
        return double.TryParse(text.Replace(",", "", StringComparison.Ordinal), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;
    }

    private static string Bare(string unit) =>
        new([.. unit.Where(c => !char.IsWhiteSpace(c) && c is not '.' and not '°' and not '·')]);
}
