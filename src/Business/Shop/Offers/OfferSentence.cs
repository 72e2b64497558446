using System.Globalization;
using System.Text.RegularExpressions;

namespace MitigationOffice.Business.Shop.Offers;

/// <summary>A sentence with facts in braces, "up to {days_at_risk_high:0} days", and parts in square brackets that are left out where a fact in them is missing.</summary>
public sealed partial record OfferSentence(string Text)
{
    /// <summary>In one pass, so that what a fact says is never read as a place for another.</summary>
    public string Fill(IReadOnlyDictionary<string, object> facts) => PartOrPlace().Replace(Text, found =>
    {
        if (found.Value[0] == '{') return Shown(found, facts) ?? "";
        var missing = false;
        var filled = Place().Replace(found.Value[1..^1], place =>
        {
            var words = Shown(place, facts);
            missing |= words is null;
            return words ?? "";
        });
        return missing ? "" : filled;
    });

    /// <summary>What is wrong with it; null where nothing is.</summary>
    public string? Problem()
    {
        foreach (Match place in Place().Matches(Text))
        {
            var (_, problem) = ReadOfferRule.Number(place.Groups[1].Value, anyKind: true);
            if (problem is not null) return problem;
            if (place.Groups[2].Success && !Format().IsMatch(place.Groups[2].Value)) return $"“{place.Value}” asks for no form of a number; write {{fact}}, {{fact:0}}, {{fact:0.0}} or {{fact:0.#}}.";
        }

        if (Place().Replace(Text, "").AsSpan().ContainsAny('{', '}')) return "A brace in its sentence is not closed, or not opened; write {fact}.";
        return Part().Replace(Text, "").AsSpan().ContainsAny('[', ']') ? "A square bracket in its sentence is not closed, or not opened." : null;
    }

    private static string? Shown(Match place, IReadOnlyDictionary<string, object> facts)
    {
        var (named, format) = (place.Groups[1].Value, place.Groups[2].Success ? place.Groups[2].Value : "0.##");
        if (facts.TryGetValue(named.Trim(), out var value) && value is not decimal) return value is bool yes ? yes ? "yes" : "no" : (string)value;
        return ReadOfferRule.Number(named, anyKind: true).Number?.Of(facts)?.ToString(format, CultureInfo.InvariantCulture).Replace('-', '−');
    }

    [GeneratedRegex(@"\{([^{}:]*)(?::([^{}]*))?\}")]
    private static partial Regex Place();

    [GeneratedRegex(@"\[([^\[\]]*)\]")]
    private static partial Regex Part();

    [GeneratedRegex(@"\[[^\[\]]*\]|\{([^{}:]*)(?::([^{}]*))?\}")]
    private static partial Regex PartOrPlace();

    [GeneratedRegex(@"^0(\.[0#]{1,3})?$")]
    private static partial Regex Format();
}
