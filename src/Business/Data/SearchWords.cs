namespace MitigationOffice.Business.Data;

/// <summary>What somebody typed into a search box, word by word; every word must match. A word that may be part of a
/// phone number is also looked for as bare digits, the way numbers are stored for searching.</summary>
public static class SearchWords
{
    public const int Most = 8;

    public static IReadOnlyList<(string Word, string Digits)> Of(string? find) =>
        [.. SearchText.Of(find?[..Math.Min(find.Length, 200)]).Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .Where(w => w.Any(char.IsLetterOrDigit)).Distinct().Take(Most).Select(w => (w, DigitsOf(w)))];

    /// <summary>"555-0142" as "5550142", "1-555-555-0142" without its leading 1; a word that is no number stays as it is.</summary>
    private static string DigitsOf(string word)
    {
        if (word.Any(c => !char.IsAsciiDigit(c) && c is not '-' and not '.')) return word;
        return PhoneDigits(word);
    }

    /// <summary>The digits of a phone number, without the country's 1.</summary>
    public static string PhoneDigits(string? phone)
    {
        var digits = new string([.. (phone ?? "").Where(char.IsAsciiDigit)]);
        return digits.Length == 11 && digits[0] == '1' ? digits[1..] : digits;
    }
}
