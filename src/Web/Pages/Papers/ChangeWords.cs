using System.Globalization;
using System.Text.Json;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Papers;

/// <summary>Puts one row's change into words: the unit at the end of a column's name says how its value is shown.</summary>
public sealed class ChangeWords(TimeZoneInfo zone, UnitSystem units)
{
    private const int Longest = 160;

    private static readonly (string Ending, Measure Measure)[] Measured =
    [
        ("M3PerS", Measures.Flow), ("M2", Measures.Area), ("Pa", Measures.Pressure), ("Watts", Measures.Power), ("ElevationM", Measures.Elevation),
        ("WinterC", Measures.Temperature), ("OutdoorC", Measures.Temperature), ("IndoorC", Measures.Temperature), ("GradeM", Measures.Length), ("DistanceM", Measures.Length),
        ("TopM", Measures.Height), ("RoofM", Measures.Height), ("LengthM", Measures.Length), ("RiseM", Measures.Height),
    ];

    /// <summary>Columns that say nothing to a reader: keys, what is computed from others, proofs, and who and when, which the line says anyway.</summary>
    private static readonly HashSet<string> Silent = new(StringComparer.Ordinal)
    {
        "Search", "AddressKey", "Hash", "PreviousHash", "InputsHash", "EngineVersion", "Sha256", "PdfSha256", "MessageId", "Key", "UserAgent", "ClaimedBy",
        "ClaimedUntilUtc", "NextTryUtc", "StoredBy", "StoredAtUtc", "CreatedAtUtc", "Position", "AddOnIds", "DeclinedAddOnIds",
    };

    /// <summary>Columns that hold one of a few words.</summary>
    private static readonly HashSet<string> OneOfAFew = new(StringComparer.Ordinal)
    {
        "Kind", "Building", "Sump", "Under", "Draft", "State", "Outcome", "Reason", "Backdraft", "Class", "Rule", "Use", "Place",
    };

    public static string Heading(string subject, string act) => Plain(subject) + act switch { "Added" => " added", "Deleted" => " taken out", _ => " changed" };

    public IReadOnlyList<string> Details(IReadOnlyDictionary<string, JsonElement[]> changes, string act) =>
        [.. changes.Where(c => !Silent.Contains(c.Key) && !(c.Key.Length > 2 && c.Key.EndsWith("Id", StringComparison.Ordinal)) && c.Value.Length == 2)
            .Select(c => Detail(c.Key, c.Value[0], c.Value[1], act)).OfType<string>()];

    private string? Detail(string name, JsonElement before, JsonElement after, string act)
    {
        if (act == "Modified") return $"{Plain(Bare(name))} from {Value(name, before)} to {Value(name, after)}";
        var only = act == "Deleted" ? before : after;
        return SaysNothing(only) ? null : $"{Plain(Bare(name))} {Value(name, only)}";
    }

    private string Value(string name, JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null or JsonValueKind.Undefined => "nothing",
        JsonValueKind.True => "yes",
        JsonValueKind.False => "no",
        JsonValueKind.Number => Number(name, value),
        _ => Text(name, value.ToString()),
    };

    private string Number(string name, JsonElement value)
    {
        if (name.EndsWith("Cents", StringComparison.Ordinal) && value.TryGetInt64(out var cents)) return new Money(cents).ToString();
        if (name.EndsWith("PCiL", StringComparison.Ordinal)) return Houses.RadonReading.Show(value.GetDecimal(), units);
        if (Measured.FirstOrDefault(m => name.EndsWith(m.Ending, StringComparison.Ordinal)).Measure is { } measure) return measure.Show(value.GetDouble(), units);
        if (name.EndsWith("Percent", StringComparison.Ordinal)) return value.GetRawText() + " %";
        return name == "SizeBytes" ? Business.Documents.ReceivedFile.Size(value.GetInt64()) : value.GetDouble().ToString("0.######", CultureInfo.InvariantCulture);
    }

    private string Text(string name, string text)
    {
        if (text.Length == 0) return "nothing";
        if (name.EndsWith("Utc", StringComparison.Ordinal) && DateTime.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal, out var at)) return HouseTime.Show(at, zone);
        if (OneOfAFew.Contains(name) && text.Length > 2 && char.IsUpper(text[0]) && text.All(char.IsAsciiLetterOrDigit)) return Plain(text).ToLowerInvariant();
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)) return HouseTime.Show(day);
        return $"“{(text.Length <= Longest ? text : text[..Longest] + "…")}”";
    }

    /// <summary>A new row is told without its many "no" and "nothing".</summary>
    private static bool SaysNothing(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null or JsonValueKind.Undefined or JsonValueKind.False => true,
        JsonValueKind.Number => value.GetDouble() == 0,
        JsonValueKind.String => value.GetString()!.Length == 0,
        _ => false,
    };

    private static string Bare(string name)
    {
        foreach (var ending in new[] { "AtUtc", "Utc", "Cents", "M3PerS", "M2", "PCiL", "Pa", "Percent", "Bytes" })
            if (name.Length > ending.Length && name.EndsWith(ending, StringComparison.Ordinal)) return name[..^ending.Length];
        return name.Length > 3 && name[^1] is 'M' or 'C' && char.IsLower(name[^2]) ? name[..^1] : name == "PCiL" ? "Radon" : name;
    }

    private static string Plain(string name) =>
        string.Concat(name.Select((c, i) => i > 0 && char.IsUpper(c) ? " " + char.ToLowerInvariant(c) : i == 0 ? char.ToUpperInvariant(c).ToString() : c.ToString()));
}
