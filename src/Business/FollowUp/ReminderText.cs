using System.Text.RegularExpressions;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The words of a rule with its fields filled in. The list of fields is closed: nothing else of the records can leak into a message.</summary>
public static partial class ReminderText
{
    public static readonly IReadOnlyDictionary<string, string> Fields = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["name"] = "whom we write to",
        ["house"] = "street and city of the house",
        ["due"] = "the day it is due",
        ["because"] = "the fact it hangs on",
        ["tag"] = "number on the system's tag",
        ["company"] = "our name",
        ["phone"] = "our phone",
    };

    public sealed record Values(string Name, string House, string Due, string Because, string Tag, string Company, string Phone)
    {
        public string Of(string field) => field switch
        {
            "name" => Name,
            "house" => House,
            "due" => Due,
            "because" => Because,
            "tag" => Tag,
            "company" => Company,
            "phone" => Phone,
            _ => "",
        };
    }

    /// <summary>What keeps these words from being used at all.</summary>
    public static IEnumerable<string> Problems(string text, bool commercial)
    {
        foreach (var field in Named(text).Where(f => !Fields.ContainsKey(f)))
            yield return $"There is no field {{{field}}}. The fields are {string.Join(", ", Fields.Keys.Select(k => $"{{{k}}}"))}.";
        if (Named(Whole().Replace(text, "")).Any() || Whole().Replace(text, "").IndexOfAny(['{', '}']) >= 0)
            yield return "A brace is left open. A field is written like {due}.";
        if (!commercial && Offer().IsMatch(text))
            yield return "A price or an offer makes this a commercial message: tick that it is one, or take the offer out.";
    }

    /// <summary>The fields these words use that are empty for this house.</summary>
    public static IReadOnlyList<string> Missing(string text, Values values) => [.. Named(text).Where(f => values.Of(f).Length == 0)];

    public static string Fill(string text, Values values) => Whole().Replace(text, m => values.Of(m.Groups[1].Value));

    private static IEnumerable<string> Named(string text) => Whole().Matches(text).Select(m => m.Groups[1].Value).Distinct(StringComparer.Ordinal);

    [GeneratedRegex(@"\{([^{}\r\n]{0,40})\}", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex Whole();

    [GeneratedRegex(@"\$ ?\d|\d ?(%|percent) off|\bdiscount|\bspecial offer|\bcoupon|\bsale price", RegexOptions.NonBacktracking | RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Offer();
}
