using System.Globalization;
using System.Text;

namespace MitigationOffice.Business.Data;

/// <summary>What is searched: lower case, no accents, single spaces. The same on both databases.</summary>
public static class SearchText
{
    public static string Of(params string?[] parts)
    {
        var text = new StringBuilder();
        foreach (var c in string.Join(' ', parts.Where(p => !string.IsNullOrWhiteSpace(p))).Normalize(NormalizationForm.FormD))
        {
            if (CharUnicodeInfo.GetUnicodeCategory(c) == UnicodeCategory.NonSpacingMark) continue;
            var kept = char.IsLetterOrDigit(c) || c is '@' or '.' or '-' ? char.ToLowerInvariant(c) : ' ';
            if (kept != ' ' || (text.Length > 0 && text[^1] != ' ')) text.Append(kept);
        }

        return text.ToString().Trim();
    }

    /// <summary>An address boiled down so that "14 Larkspur Hill Rd." and "14 LARKSPUR HILL ROAD" are equal.</summary>
    public static string AddressKey(string? street, string? zip)
    {
        var words = Of(street).Replace(".", "", StringComparison.Ordinal)
            .Split([' ', '-'], StringSplitOptions.RemoveEmptyEntries)
            .Select(w => Short.GetValueOrDefault(w, w));
        return $"{string.Join(' ', words)}|{new string([.. (zip ?? "").Where(char.IsAsciiDigit).Take(5)])}";
    }

    private static readonly Dictionary<string, string> Short = new(StringComparer.Ordinal)
    {
        ["street"] = "st",
        ["road"] = "rd",
        ["avenue"] = "ave",
        ["lane"] = "ln",
        ["drive"] = "dr",
        ["court"] = "ct",
        ["place"] = "pl",
        ["boulevard"] = "blvd",
        ["highway"] = "hwy",
        ["north"] = "n",
        ["south"] = "s",
        ["east"] = "e",
        ["west"] = "w",
        ["apartment"] = "apt",
        ["suite"] = "ste",
        ["circle"] = "cir",
        ["terrace"] = "ter",
        ["trail"] = "trl",
        ["parkway"] = "pkwy",
    };
}
