using System.Globalization;
using System.Text.RegularExpressions;

namespace MitigationOffice.Business.Shop.Offers;

/// <summary>Reads a rule as the price book holds it, a line after the other:
/// <c>included, recommended when days_at_risk_high >= limit or 1: On up to {days_at_risk_high:0} days …</c></summary>
public static partial class ReadOfferRule
{
    public const int MostLines = 20, LongestText = 5000;
    public const string Example = "offered, recommended when under_trees is yes and days_at_risk < 1: Trees stand over this roof.";
    private const decimal MostNumber = 1_000_000;

    private static readonly Dictionary<string, AddOnStand> Stands = new(StringComparer.OrdinalIgnoreCase) { ["included"] = AddOnStand.Included, ["offered"] = AddOnStand.Offered, ["not offered"] = AddOnStand.NotOffered };

    private static readonly Dictionary<string, OfferComparison> Comparisons = new(StringComparer.Ordinal)
    {
        [">="] = OfferComparison.AtLeast, ["≥"] = OfferComparison.AtLeast, ["<="] = OfferComparison.AtMost, ["≤"] = OfferComparison.AtMost, [">"] = OfferComparison.Above, ["<"] = OfferComparison.Below,
        ["="] = OfferComparison.Equal, ["is yes"] = OfferComparison.Yes, ["is no"] = OfferComparison.No, ["is there"] = OfferComparison.There, ["is missing"] = OfferComparison.Missing,
    };

    /// <summary>The rule, or what is wrong with its text, by line.</summary>
    public static (OfferRule? Rule, IReadOnlyList<string> Problems) Of(string text)
    {
        var written = text.Split('\n', StringSplitOptions.TrimEntries).Where(l => l.Length > 0).ToList();
        if (written.Count == 0) return (null, ["The rule has no line."]);
        if (written.Count > MostLines) return (null, [$"The rule has {written.Count} lines; {MostLines} are taken."]);
        var (lines, problems) = (new List<OfferLine>(), new List<string>());
        for (var i = 0; i < written.Count; i++)
        {
            var (line, problem) = Line(written[i]);
            if (line is not null) lines.Add(line);
            else problems.Add($"Line {i + 1} of the rule: {problem}");
        }

        return problems.Count == 0 ? (new(lines), []) : (null, problems);
    }

    private static (OfferLine? Line, string? Problem) Line(string written)
    {
        var colon = written.IndexOf(':', StringComparison.Ordinal);
        var (head, sentence) = colon < 0 ? (written, "") : (written[..colon], written[(colon + 1)..].Trim());
        if (Head().Match(head.Trim()) is not { Success: true } match)
            return (null, $"“{Short(head)}” does not begin with “included”, “offered” or “not offered”, then “when” and what has to hold. An example: {Example}");
        var (stand, recommended) = (Stands[Spaces().Replace(match.Groups[1].Value, " ")], match.Groups[2].Success);
        if (stand == AddOnStand.NotOffered && recommended) return (null, "What is not offered cannot be recommended.");
        var when = new List<OfferCondition>();
        foreach (var part in match.Groups[3].Success ? And().Split(match.Groups[3].Value) : [])
        {
            var (condition, problem) = Condition(part.Trim());
            if (condition is null) return (null, problem);
            when.Add(condition);
        }

        var why = new OfferSentence(sentence);
        return why.Problem() is { } wrong ? (null, wrong) : (new(stand, recommended, when, why), null);
    }

    private static (OfferCondition? Condition, string? Problem) Condition(string written)
    {
        if (Compared().Match(written) is not { Success: true } match)
            return (null, $"“{Short(written)}” is no condition. Write a fact, then >=, <=, >, < or = and a number; or a fact, then “is yes”, “is no”, “is there” or “is missing”.");
        if (OfferFacts.Find(match.Groups[1].Value) is not { } fact) return (null, Unknown(match.Groups[1].Value));
        var comparison = Comparisons[Spaces().Replace(match.Groups[2].Value, " ").ToLowerInvariant()];
        var rest = match.Groups[3].Value.Trim();
        if (comparison is OfferComparison.There or OfferComparison.Missing or OfferComparison.Yes or OfferComparison.No)
        {
            if (rest.Length > 0) return (null, $"“{Short(rest)}” behind “{match.Groups[2].Value}” says nothing; leave it out.");
            if (comparison is OfferComparison.Yes or OfferComparison.No && fact.Kind != OfferFactKind.YesNo) return (null, $"“{fact.Name}” is no matter of yes and no.");
            return (new(fact.Name, comparison, new([])), null);
        }

        if (fact.Kind != OfferFactKind.Number) return (null, $"“{fact.Name}” is no number and cannot be compared with one.");
        var (than, problem) = Number(rest, anyKind: false);
        return problem is null ? (new(fact.Name, comparison, than!), null) : (null, problem);
    }

    /// <param name="anyKind">Whether a single fact may be one that is no number.</param>
    internal static (OfferNumber? Number, string? Problem) Number(string written, bool anyKind)
    {
        var choices = new List<(string, decimal)>();
        var parts = Or().Split(written.Trim());
        foreach (var part in parts)
        {
            if (decimal.TryParse(part, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
            {
                if (Math.Abs(number) > MostNumber) return (null, $"{part} is beyond {MostNumber:0}.");
                choices.Add(("", number));
            }
            else if (part.Length == 0 || char.IsAsciiDigit(part[0]) || part[0] is '-' or '+' or '.') return (null, $"“{Short(part)}” is no number; write it as 33 or 0.5.");
            else if (OfferFacts.Find(part) is not { } fact) return (null, Unknown(part));
            else if (fact.Kind != OfferFactKind.Number && !(anyKind && parts.Length == 1)) return (null, $"“{fact.Name}” is no number.");
            else choices.Add((fact.Name, 0));
        }

        return (new(choices), null);
    }

    private static string Unknown(string name) => $"there is no fact “{Short(name)}”. The page of a price line lists the facts there are.";

    private static string Short(string text) => text.Length <= 60 ? text : text[..60] + "…";

    [GeneratedRegex(@"^(included|offered|not\s+offered)(\s*,\s*recommended)?(?:\s+when\s+(.+))?$", RegexOptions.IgnoreCase)]
    private static partial Regex Head();

    [GeneratedRegex(@"^(\w+)\s*(>=|<=|≥|≤|>|<|=|is\s+yes|is\s+no|is\s+there|is\s+missing)(.*)$", RegexOptions.IgnoreCase)]
    private static partial Regex Compared();

    [GeneratedRegex(@"\s+and\s+", RegexOptions.IgnoreCase)]
    private static partial Regex And();

    [GeneratedRegex(@"\s+or\s+", RegexOptions.IgnoreCase)]
    private static partial Regex Or();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
