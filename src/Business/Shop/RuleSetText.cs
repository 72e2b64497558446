using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Shop;

/// <summary>A siting rule set as text: read with every fault told in words, written the same way every time.</summary>
public static partial class RuleSetText
{
    public const int MostLetters = 200_000;
    private const int MostRules = 60;
    private static readonly JsonFaults Faults = new("a rule set", "docs/calculations/siting.md lists the fields.");

    private static readonly JsonSerializerOptions Json = new()
    {
        WriteIndented = true,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingDefault,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$", RegexOptions.CultureInvariant)]
    private static partial Regex KeyRegex();

    public static (SitingRuleSet? Set, string? Problem) Read(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return (null, "Choose a file or paste its text.");
        if (text.Length > MostLetters) return (null, Say($"The text has {text.Length} letters; at most {MostLetters} are read. A rule set of {MostRules} rules is far shorter."));
        try
        {
            var set = SitingRuleSets.Read(text);
            return Fault(set) is { } fault ? (null, fault) : (set, null);
        }
        catch (JsonException e)
        {
            // What the reader itself refuses names the rule and carries no place in the text.
            return (null, e.Path is null && e.LineNumber is null ? e.Message : Faults.Plain(e));
        }
    }

    /// <summary>The certainty is written always: left out, it would be taken for the first of its kind.</summary>
    public static string Write(SitingRuleSet set)
    {
        var node = JsonSerializer.SerializeToNode(set, Json)!.AsObject();
        node["certainty"] = JsonNamingPolicy.CamelCase.ConvertName(set.Certainty.ToString());
        foreach (var (rule, i) in set.Rules.Select((r, i) => (r, i)))
        {
            var own = node["rules"]![i]!.AsObject();
            own["kind"] = JsonNamingPolicy.CamelCase.ConvertName(rule.Kind.ToString());
            if (rule.IgnoreOpenings.Count == 0) own.Remove("ignoreOpenings");
            if (rule.Forbidden.Count == 0) own.Remove("forbidden");
        }

        return node.ToJsonString(Json).ReplaceLineEndings("\n");
    }

    /// <summary>Of what the set says, however it is spaced.</summary>
    public static string HashOf(SitingRuleSet set) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Write(set))));

    private static string? Fault(SitingRuleSet set)
    {
        if (set.Id.Length > 40 || !KeyRegex().IsMatch(set.Id)) return $"The id “{Short(set.Id)}” is not one to keep: write small letters, digits and hyphens, at most 40, as in us-oh.";
        if (Words(set.Jurisdiction, 120) is { } place) return $"The jurisdiction {place}.";
        if (Words(set.Citation, 300) is { } cited) return $"The citation {cited}.";
        if (set.Note.Length > 2000) return "The note is longer than 2000 letters; shorten it.";
        if (set.Rules.Count > MostRules) return Say($"There are {set.Rules.Count} rules; {MostRules} are the most.");
        return set.Rules.Select((r, i) => Fault(r, i + 1)).FirstOrDefault(f => f is not null);
    }

    private static string? Fault(SitingRule rule, int number)
    {
        if (Words(rule.Id, 60) is { } name) return Say($"The id of rule {number} {name}.");
        if (Words(rule.Text, 1000) is { } text) return $"The text of the rule “{rule.Id}” {text}.";
        if (rule.Citation is { } own && Words(own, 300) is { } cited) return $"The citation of the rule “{rule.Id}” {cited}.";
        (string Name, decimal? Value, decimal Most)[] numbers =
        [
            ("minimumFt", rule.MinimumFt, 1000), ("unlessOpeningTopBelowFt", rule.UnlessOpeningTopBelowFt, 1000), ("pitchedMinimumIn", rule.PitchedMinimumIn, 12_000),
            ("flatMinimumIn", rule.FlatMinimumIn, 12_000), ("aboveEdgeIn", rule.AboveEdgeIn, 12_000), ("orHeightAboveGradeFt", rule.OrHeightAboveGradeFt, 1000),
            ("maximumFromVerticalDeg", rule.MaximumFromVerticalDeg, 180),
        ];
        var far = numbers.FirstOrDefault(n => n.Value < 0 || n.Value > n.Most);
        return far.Name is null ? null : Say($"In the rule “{rule.Id}” {far.Name} is {far.Value}; it must lie from 0 to {far.Most}.");
    }

    private static string? Words(string words, int most) =>
        string.IsNullOrWhiteSpace(words) ? "is empty; write it" : words.Length > most ? Say($"is longer than {most} letters; shorten it") : words.Any(char.IsControl) ? "holds a line end or a control mark; take it out" : null;

    private static string Short(string words) => words.Length > 60 ? words[..60] + "…" : words;

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
