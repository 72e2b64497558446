using System.Globalization;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>Reads times and readings as monitors write them.</summary>
public static class ReadStamp
{
    private static readonly string[] Clocks = ["H:mm", "H:mm:ss", "H:mm:ss.FFF", "h:mm tt", "h:mm:ss tt", "h:mmtt", "h:mm:sstt", "H.mm", "HHmm"];
    private static readonly string[] YearFirst = ["yyyy-M-d", "yyyy/M/d", "yyyy.M.d", "yyyyMMdd"];
    private static readonly string[] Named = ["d MMM yyyy", "d-MMM-yyyy", "MMM d yyyy", "MMM d, yyyy", "MMMM d, yyyy", "d MMMM yyyy"];
    private static readonly string[] MonthFirst = ["M/d/yyyy", "M-d-yyyy", "M.d.yyyy", "M/d/yy", "M-d-yy"];
    private static readonly string[] DayFirst = ["d/M/yyyy", "d-M-yyyy", "d.M.yyyy", "d/M/yy", "d.M.yy"];

    /// <summary>A day and a clock time; with the distance from UTC where the stamp itself says it.</summary>
    public static (DateTime Local, TimeSpan? Offset)? Read(string day, string clock, DayOrder order)
    {
        var text = Tidy(clock.Length == 0 ? day : $"{day} {clock}");
        var offset = Offset(ref text);
        var space = text.IndexOf(' ', StringComparison.Ordinal);
        foreach (var forms in (string[][])[YearFirst, order == DayOrder.DayFirst ? DayFirst : MonthFirst, Named])
        {
            foreach (var at in Cuts(text, space))
            {
                if (!DateOnly.TryParseExact(text[..at].TrimEnd(','), forms, CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)) continue;
                var rest = text[at..].Trim();
                if (rest.Length > 0 && TimeOnly.TryParseExact(rest, Clocks, CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) && date.Year is > 1990 and < 2200)
                    return (date.ToDateTime(time), offset);
            }
        }

        return null;
    }

    public static bool LooksLikeTime(string cell) => Tidy(cell) is var text && (Read(text, "", DayOrder.MonthFirst) ?? Read(text, "", DayOrder.DayFirst) ?? Read(text, "0:00", DayOrder.MonthFirst) ?? Read(text, "0:00", DayOrder.DayFirst)) is not null;

    public static bool LooksLikeClock(string cell) => cell.Contains(':', StringComparison.Ordinal) && TimeOnly.TryParseExact(Tidy(cell), Clocks, CultureInfo.InvariantCulture, DateTimeStyles.None, out _);

    /// <summary>A reading; a comma is taken for the decimal point where there is no point and no second comma.</summary>
    public static decimal? NumberOf(string cell)
    {
        var text = cell.Trim().Replace('\u2212', '-').Replace("\u00A0", "", StringComparison.Ordinal);
        if (text.Count(c => c == ',') == 1 && !text.Contains('.', StringComparison.Ordinal)) text = text.Replace(',', '.');
        return decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var value) ? value : null;
    }

    private static string Tidy(string text)
    {
        var letters = text.ToCharArray();
        for (var i = 1; i < letters.Length - 1; i++)
            if (letters[i] == 'T' && char.IsAsciiDigit(letters[i - 1]) && char.IsAsciiDigit(letters[i + 1])) letters[i] = ' ';
        return string.Join(' ', new string(letters).Replace('\u202F', ' ').Replace('\u00A0', ' ').Split(' ', StringSplitOptions.RemoveEmptyEntries))
            .Replace("a.m.", "AM", StringComparison.OrdinalIgnoreCase).Replace("p.m.", "PM", StringComparison.OrdinalIgnoreCase);
    }

    private static IEnumerable<int> Cuts(string text, int space)
    {
        for (var at = space; at > 0; at = text.IndexOf(' ', at + 1)) yield return at;
    }

    private static TimeSpan? Offset(ref string text)
    {
        if (text.EndsWith('Z') || text.EndsWith("UTC", StringComparison.OrdinalIgnoreCase))
        {
            text = text.TrimEnd('Z').Trim();
            if (text.EndsWith("UTC", StringComparison.OrdinalIgnoreCase)) text = text[..^3].Trim();
            return TimeSpan.Zero;
        }

        var sign = Math.Max(text.LastIndexOf('+'), text.LastIndexOf('-'));
        if (sign < 0 || !text[..sign].Contains(':', StringComparison.Ordinal)) return null;
        var digits = text[(sign + 1)..].Replace(":", "", StringComparison.Ordinal);
        if (digits.Length != 4 || !digits.All(char.IsAsciiDigit)) return null;
        var offset = new TimeSpan(int.Parse(digits[..2], CultureInfo.InvariantCulture), int.Parse(digits[2..], CultureInfo.InvariantCulture), 0);
        var away = text[sign] == '-' ? -offset : offset;
        text = text[..sign].Trim();
        return away;
    }
}
