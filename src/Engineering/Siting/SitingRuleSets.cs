using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace MitigationOffice.Engineering.Siting;

/// <summary>The rule sets that come with the library, and the reader of further ones.</summary>
public static class SitingRuleSets
{
    private static readonly JsonSerializerOptions Json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        AllowDuplicateProperties = false,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    private static readonly Lazy<IReadOnlyList<SitingRuleSet>> Embedded = new(ReadEmbedded);

    /// <summary>Every set that comes with the library, by id.</summary>
    public static IReadOnlyList<SitingRuleSet> All => Embedded.Value;

    /// <summary>The set with an id, for example "us-pa".</summary>
    /// <param name="id">The id.</param>
    /// <returns>The set.</returns>
    /// <exception cref="KeyNotFoundException">There is no such set.</exception>
    public static SitingRuleSet Get(string id) =>
        All.FirstOrDefault(set => set.Id == id)
        ?? throw new KeyNotFoundException($"There is no siting rule set '{id}'; there are {string.Join(", ", All.Select(set => set.Id))}.");

    /// <summary>Reads a rule set from JSON. An unknown field, an unknown kind, or a rule that lacks its value is refused by name.</summary>
    /// <param name="json">The text of the file.</param>
    /// <returns>The set.</returns>
    /// <exception cref="JsonException">Not such a file; the message names what is wrong.</exception>
    public static SitingRuleSet Read(string json)
    {
        var set = JsonSerializer.Deserialize<SitingRuleSet>(json, Json)
            ?? throw new JsonException("A siting rule set is expected; the file holds null.");
        if (set.Rules.Count == 0)
            throw new JsonException($"The rule set '{set.Id}' has no rules.");
        if (set.Rules.Any(rule => rule is null))
            throw new JsonException($"A rule of the rule set '{set.Id}' is null.");
        if (set.Rules.GroupBy(rule => rule.Id).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw new JsonException($"The rule set '{set.Id}' has two rules named '{twice.Key}'.");
        foreach (var rule in set.Rules)
            RefuseWithoutValues(rule, set);
        return set;
    }

    private static void RefuseWithoutValues(SitingRule rule, SitingRuleSet set)
    {
        var missing = Needed(rule).Where(needed => needed.Value is not >= 0m).Select(needed => needed.Name).ToList();
        if (rule.Kind == SitingRuleKind.FanLocation && rule.Forbidden.Count == 0)
            missing.Add("forbidden");
        if (missing.Count > 0)
            throw new JsonException($"The rule '{rule.Id}' of '{set.Id}' needs {string.Join(" and ", missing)}, 0 or more.");
    }

    private static IEnumerable<(string Name, decimal? Value)> Needed(SitingRule rule) => rule.Kind switch
    {
        SitingRuleKind.NoRainCap or SitingRuleKind.FanLocation => [],
        SitingRuleKind.Direction => [("maximumFromVerticalDeg", rule.MaximumFromVerticalDeg)],
        SitingRuleKind.RoofEdge => [("aboveEdgeIn", rule.AboveEdgeIn)],
        SitingRuleKind.RoofClearance =>
            [("pitchedMinimumIn", rule.PitchedMinimumIn), ("flatMinimumIn", rule.FlatMinimumIn)],
        _ => [("minimumFt", rule.MinimumFt)],
    };

    private static IReadOnlyList<SitingRuleSet> ReadEmbedded()
    {
        var assembly = Assembly.GetExecutingAssembly();
        return [.. assembly.GetManifestResourceNames()
            .Where(name => name.Contains(".Siting.Rules.", StringComparison.Ordinal))
            .Select(name => Read(Text(assembly, name)))
            .OrderBy(set => set.Id, StringComparer.Ordinal)];
    }

    private static string Text(Assembly assembly, string name)
    {
        using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
        return reader.ReadToEnd();
    }
}
