using System.Globalization;

namespace MitigationOffice.Business.Data;

/// <summary>Reads money, percentages, whole numbers and days as people type them; a sentence where it cannot.</summary>
public static class TypedNumbers
{
    public static (Money? Value, string? Problem) ReadMoney(string? typed, string name, decimal most = 1_000_000m)
    {
        var (value, problem) = ReadDecimal(typed?.Replace("$", "", StringComparison.Ordinal), name, 0m, most);
        return value is { } dollars ? (Money.FromDollars(dollars), null) : (null, problem);
    }

    public static (decimal? Value, string? Problem) ReadDecimal(string? typed, string name, decimal least, decimal most)
    {
        if (string.IsNullOrWhiteSpace(typed)) return (null, null);
        var text = MeasureText.Clean(typed).TrimEnd('%', '¢').Trim();
        if (MeasureText.NumberOf(text) is null || !decimal.TryParse(
                text.Replace(",", "", StringComparison.Ordinal), NumberStyles.Number, CultureInfo.InvariantCulture, out var value))
            return (null, $"Write the {name} as a number, for example {Plain(least + Math.Min(most - least, 10m) / 2)}.");
        return value < least || value > most
            ? (null, $"The {name} must be between {Plain(least)} and {Plain(most)}; you wrote {typed.Trim()}.")
            : (value, null);
    }

    public static (int? Value, string? Problem) ReadWhole(string? typed, string name, int least, int most)
    {
        var (value, problem) = ReadDecimal(typed, name, least, most);
        if (value is not { } number) return (null, problem);
        return number == decimal.Truncate(number) ? ((int)number, null) : (null, $"The {name} must be a whole number; you wrote {typed!.Trim()}.");
    }

    private static readonly string[] DayForms =
    [
        "yyyy-MM-dd", "M/d/yyyy", "M-d-yyyy", "M.d.yyyy", "MMM d yyyy", "MMMM d yyyy", "MMM d, yyyy", "MMMM d, yyyy", "d MMM yyyy", "d MMMM yyyy", "M/d/yy",
    ];

    /// <summary>"2026-11-25", "11/25/2026", "Nov 25, 2026".</summary>
    public static (DateOnly? Value, string? Problem) ReadDay(string? typed, string name)
    {
        if (string.IsNullOrWhiteSpace(typed)) return (null, null);
        var text = typed.Trim();
        if (!DateOnly.TryParseExact(text, DayForms, CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces, out var day))
            return (null, $"Write the {name} as month/day/year, for example 11/25/2026.");
        return day.Year is < 1900 or > 2200 ? (null, $"The {name} {text} is not a year that makes sense here.") : (day, null);
    }

    /// <summary>"14:30", "2:30 pm", "9am".</summary>
    public static (TimeOnly? Value, string? Problem) ReadTime(string? typed, string name)
    {
        if (string.IsNullOrWhiteSpace(typed)) return (null, null);
        var text = typed.Trim().ToUpperInvariant().Replace(".", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal);
        return TimeOnly.TryParseExact(text, ["H:mm", "h:mmtt", "htt", "HHmm", "H:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? (time, null)
            : (null, $"Write the {name} as hours and minutes, for example 14:30 or 2:30 pm.");
    }

    public static string Plain(decimal value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    public static string Plain(decimal? value) => value is { } v ? Plain(v) : "";

    /// <summary>A dollar amount as an input field holds it.</summary>
    public static string Plain(Money value) => value.Dollars.ToString("0.00", CultureInfo.InvariantCulture);

    public static string Plain(DateOnly? value) => value?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
}
