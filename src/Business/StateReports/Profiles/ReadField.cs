using System.Text.Json;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>One column of a profile.</summary>
internal static class ReadField
{
    public static ProfileField Of(JsonElement element, string where, List<string> problems)
    {
        if (element.ValueKind == JsonValueKind.String) return Short(element.GetString()!, where, problems);
        var read = new JsonReading(element, where, problems);
        var (from, value) = (read.Text("from", most: 60), read.Text("value", most: 200));
        var known = ReportFields.Find(from);
        if (from.Length > 0 && known is null) Refuse(from, read.Named("from"), problems);
        if (from.Length == 0 && !read.Has("value")) read.Refuse($"“{where}” needs “from”, the office's name of the value, or “value”, a text that is always the same.");
        if (from.Length > 0 && read.Has("value")) read.Refuse($"“{where}” has both “from” and “value”; take one out.");
        if (Csv.LooksComputed(value)) read.Refuse($"{read.Named("value")} begins with “{value[0]}”, which a spreadsheet would take for a formula.");
        var name = read.Has("name") ? read.Text("name", needed: true, most: 100) : from;
        if (Csv.LooksComputed(name)) read.Refuse($"{read.Named("name")} begins with “{name[0]}”, which a spreadsheet would take for a formula.");
        var field = new ProfileField(name, from, read.Text("format", most: 20), read.YesNo("required", known?.Needed ?? false), read.YesNo("amends", known is { Amends: true, Of: FieldOf.System }), read.Whole("most", 0, 10_000), Map(read, problems), value);
        Check(field, known, read);
        read.Close();
        return field;
    }

    private static ProfileField Short(string from, string where, List<string> problems)
    {
        if (ReportFields.Find(from) is { } known) return ReportFields.Of(known);
        Refuse(from, $"“{where}”", problems);
        return new("", from, "", false, false, 0, new Dictionary<string, string>(StringComparer.Ordinal), "");
    }

    private static void Refuse(string from, string named, List<string> problems) => problems.Add(
        $"{named}: the office knows no value “{from}”{(JsonReading.Near(from, ReportFields.All.Select(f => f.Name)) is { } near ? $"; did you mean “{near}”?" : ".")} The values are listed under “What can be reported” below.");

    private static void Check(ProfileField field, ReportField? known, JsonReading read)
    {
        if (field.Format.Length == 0 || known is null) return;
        var forms = known.Kind switch { FieldKind.Day => ReportFields.DayForms, FieldKind.Number => ReportFields.NumberForms, _ => [] };
        if (forms.Count == 0) read.Refuse($"{read.Named("format")}: “{known.Name}” is text and takes no format.");
        else if (!forms.Contains(field.Format)) read.Refuse($"{read.Named("format")} must be one of {string.Join(", ", forms)}, not “{field.Format}”.");
    }

    private static Dictionary<string, string> Map(JsonReading outer, List<string> problems)
    {
        var map = new Dictionary<string, string>(StringComparer.Ordinal);
        if (outer.Take("map") is not { } element) return map;
        if (element.ValueKind != JsonValueKind.Object || element.EnumerateObject().Any(p => p.Value.ValueKind != JsonValueKind.String))
        {
            problems.Add($"{outer.Named("map")} must be an object of texts: the office's word, a colon, the state's.");
            return map;
        }

        foreach (var p in element.EnumerateObject())
        {
            if (Csv.LooksComputed(p.Value.GetString()!)) problems.Add($"{outer.Named("map")}: “{p.Value.GetString()}” begins like a formula.");
            map[p.Name] = p.Value.GetString()!;
        }

        return map;
    }
}
