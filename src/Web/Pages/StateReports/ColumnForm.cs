using System.Globalization;
using System.Text.Json.Nodes;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>One column of a profile as it is typed.</summary>
public sealed class ColumnForm
{
    public string? Name { get; set; }
    public string? From { get; set; }
    public string? Value { get; set; }
    public string? Format { get; set; }
    public bool Required { get; set; }
    public bool Amends { get; set; }
    public string? Most { get; set; }

    /// <summary>The state's words, a line each: the office's word, an equals sign, the state's.</summary>
    public string? Map { get; set; }

    public static ColumnForm Of(ProfileField f) => new()
    {
        Name = f.Name, From = f.From, Value = f.Value, Format = f.Format, Required = f.Required, Amends = f.Amends,
        Most = f.Most > 0 ? f.Most.ToString(CultureInfo.InvariantCulture) : "", Map = string.Join('\n', f.Map.Select(m => $"{m.Key} = {m.Value}")),
    };

    /// <summary>What there is to choose from; the first is a text that is always the same.</summary>
    public static IEnumerable<(string Value, string Words)> Sources { get; } = [("", "always the same text"), .. ReportFields.All.Select(f => (f.Name, f.Words))];

    public static IEnumerable<(string Value, string Words)> Forms { get; } =
        [("", "as it is kept"), .. ReportFields.DayForms.Select(f => (f, $"day {f}")), .. ReportFields.NumberForms.Select(f => (f, $"number {f}"))];

    public JsonObject Text(FormReading read, int place)
    {
        var (from, name) = ((From ?? "").Trim(), (Name ?? "").Trim());
        var column = new JsonObject { ["name"] = name.Length == 0 && from.Length > 0 ? from : name, ["required"] = Required, ["amends"] = Amends };
        if (from.Length > 0) column["from"] = from;
        if (from.Length == 0 || !string.IsNullOrWhiteSpace(Value)) column["value"] = (Value ?? "").Trim();
        if (!string.IsNullOrWhiteSpace(Format)) column["format"] = Format.Trim();
        if (read.Whole(Most, $"{nameof(ProfileForm.Columns)}[{place}].{nameof(Most)}", $"most characters of column {place + 1}", 0, 10_000) is > 0 and var most) column["most"] = most;
        if (Words(read, place) is { Count: > 0 } map) column["map"] = map;
        return column;
    }

    private JsonObject Words(FormReading read, int place)
    {
        var map = new JsonObject();
        foreach (var line in (Map ?? "").ReplaceLineEndings("\n").Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var (ours, theirs) = line.IndexOf('=', StringComparison.Ordinal) is > 0 and var at ? (line[..at].Trim(), line[(at + 1)..].Trim()) : ("", "");
            if (ours.Length == 0) read.Refuse($"{nameof(ProfileForm.Columns)}[{place}].{nameof(Map)}", $"Column {place + 1}: write each of the state's words as “Single family = 01”, not “{line}”.");
            else if (!map.TryAdd(ours, theirs)) read.Refuse($"{nameof(ProfileForm.Columns)}[{place}].{nameof(Map)}", $"Column {place + 1}: “{ours}” has two words.");
        }

        return map;
    }
}
