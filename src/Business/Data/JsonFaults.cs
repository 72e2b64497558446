using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace MitigationOffice.Business.Data;

/// <summary>What is wrong with a JSON text, in words that name the place. <paramref name="What"/> is expected; <paramref name="See"/> lists its fields.</summary>
public sealed partial record JsonFaults(string What, string See)
{
    [GeneratedRegex("including: (?<names>[^.]+)", RegexOptions.CultureInvariant)]
    private static partial Regex MissingNames();

    public string Plain(JsonException e)
    {
        var path = e.Path is { Length: > 2 } whole ? whole[2..] : "";
        var line = e.LineNumber is { } n ? string.Create(CultureInfo.InvariantCulture, $" (line {n + 1})") : "";
        var where = path.Length > 0 ? $" at {path}" : "";
        var said = e.Message;
        if (said.Contains("could not be mapped", StringComparison.Ordinal)) return $"Unknown field “{LastOf(path)}”{where}{line}. {See}";
        if (said.StartsWith("Duplicate property", StringComparison.Ordinal)) return $"The field {path} stands there twice{line}.";
        if (MissingNames().Match(said) is { Success: true } missing) return $"Missing{line}: {Missing(path, missing.Groups["names"].Value)}. {See}";
        if (said.StartsWith("The JSON value could not be converted", StringComparison.Ordinal) || said.Contains("null values", StringComparison.Ordinal))
            return path.Length > 0 ? $"The field {path} is not of the kind it must be{line}. {See}" : $"The file is not one JSON object{line}; {What} is expected. {See}";
        return $"The file cannot be read{where}{line}: it is not valid JSON.";
    }

    private static string LastOf(string path) => path[(path.LastIndexOf('.') + 1)..];

    private static string Missing(string path, string names) =>
        string.Join(", ", names.Split(',', StringSplitOptions.TrimEntries).Select(name => (path.Length > 0 ? path + "." : "") + name.Trim('\'')));
}
