using System.Text.RegularExpressions;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The words of a nudge with its fields filled in. The list of fields is closed.</summary>
public static partial class NudgeText
{
    public static readonly IReadOnlyDictionary<string, string> Fields = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["name"] = "whom we write to",
        ["house"] = "street of the house",
        ["quote"] = "the quote's number",
        ["until"] = "its last day",
        ["link"] = "the private link to it",
        ["company"] = "our name",
        ["phone"] = "our phone",
    };

    /// <summary>What keeps these words from being used.</summary>
    public static IEnumerable<string> Problems(string text)
    {
        foreach (var field in Whole().Matches(text).Select(m => m.Groups[1].Value).Where(f => !Fields.ContainsKey(f)).Distinct(StringComparer.Ordinal))
            yield return $"There is no field {{{field}}}. The fields are {string.Join(", ", Fields.Keys.Select(k => $"{{{k}}}"))}.";
        if (Whole().Replace(text, "").IndexOfAny(['{', '}']) >= 0) yield return "A brace is left open. A field is written like {until}.";
    }

    public static string Fill(string text, IReadOnlyDictionary<string, string> values) => Whole().Replace(text, m => values.GetValueOrDefault(m.Groups[1].Value, ""));

    [GeneratedRegex(@"\{([^{}\r\n]{0,40})\}", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex Whole();
}
