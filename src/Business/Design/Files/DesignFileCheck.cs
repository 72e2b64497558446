using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text.Json.Serialization;

namespace MitigationOffice.Business.Design.Files;

/// <summary>Refuses what a design file's form allows and a design does not: each time with the path to the field.</summary>
internal static class DesignFileCheck
{
    private const int LongestWords = 500;

    public static void Refuse(DesignFile file)
    {
        Walk(file, "");
        RefuseTwice(file.Fans.Select(f => f.Model), "fans", "model");
        RefuseUnknownFan(file, file.ChosenFan, "chosenFan");
        Check(file.Test, file, "test");
        RefuseTwice((file.FurtherPoints ?? []).Select(p => p.Name), "furtherPoints", "name");
        foreach (var (point, i) in (file.FurtherPoints ?? []).Select((p, i) => (p, i))) Check(point.Test, file, Say($"furtherPoints[{i}].test"));
        if (file.FloorPlan is { } plan) RefuseTwice(plan.Holes.Select(h => h.Label), "floorPlan.holes", "label");
    }

    private static void Check(FileTest test, DesignFile file, string path)
    {
        RefuseTwice(test.Holes.Select(h => h.Label), path + ".holes", "label");
        for (var i = 0; i < test.Settings.Count; i++) RefuseUnknownFan(file, test.Settings[i].Fan, Say($"{path}.settings[{i}].fan"));
        for (var i = 0; i < test.Holes.Count; i++)
            if (test.Holes[i].FanOnPa.Count != test.Settings.Count)
                throw new FormatException(Say($"{path}.holes[{i}].fanOnPa has {test.Holes[i].FanOnPa.Count} readings for {test.Settings.Count} settings; write null where none was taken."));
    }

    private static void RefuseUnknownFan(DesignFile file, string? model, string path)
    {
        if (model is not null && file.Fans.Count > 0 && file.Fans.All(f => f.Model != model)) throw new FormatException($"{path} is “{model}”; no fan of that model stands in fans.");
    }

    private static void RefuseTwice(IEnumerable<string> names, string path, string field)
    {
        if (names.GroupBy(n => n, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
            throw new FormatException($"{path} holds the {field} “{twice.Key}” twice; each needs its own.");
    }

    /// <summary>Every number against its field's range, every list against its length; nothing null where a value must be.</summary>
    private static void Walk(object part, string path)
    {
        foreach (var field in part.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.CanWrite))
        {
            var at = path.Length == 0 ? NameOf(field) : $"{path}.{NameOf(field)}";
            if (field.GetValue(part) is { } value) Check(value, at, field.GetCustomAttribute<WithinAttribute>());
        }
    }

    private static void Check(object value, string path, WithinAttribute? within)
    {
        switch (value)
        {
            case double number: InRange(number, within, path); break;
            case int number: InRange(number, within, path); break;
            case string words when words.Length > LongestWords && path != "climate.csv": throw new FormatException(Say($"{path} has {words.Length} characters; at most {LongestWords} are read."));
            case string or bool or Enum or DateOnly: break;
            case IList list: CheckList(list, path, within); break;
            default: Walk(value, path); break;
        }
    }

    private static void CheckList(IList list, string path, WithinAttribute? within)
    {
        if (within is not null && (list.Count < within.Least || list.Count > within.Most))
            throw new FormatException(Say($"{path} holds {list.Count} {within.Unit}; it must hold from {within.Least} to {within.Most}."));
        for (var i = 0; i < list.Count; i++)
            if (list[i] is { } item) Check(item, Say($"{path}[{i}]"), null);
            else if (!path.EndsWith(".fanOnPa", StringComparison.Ordinal)) throw new FormatException(Say($"{path}[{i}] is null; a value is needed."));
    }

    private static void InRange(double number, WithinAttribute? within, string path)
    {
        if (!double.IsFinite(number)) throw new FormatException($"{path} is too large for a number.");
        if (within is not null && (number < within.Least || number > within.Most))
            throw new FormatException(Say($"{path} is {number:0.######} {within.Unit}; it must lie from {within.Least:0.######} to {within.Most:0.######} {within.Unit}."));
    }

    private static string NameOf(PropertyInfo field) =>
        field.GetCustomAttribute<JsonPropertyNameAttribute>()?.Name ?? DesignFileText.Json.PropertyNamingPolicy!.ConvertName(field.Name);

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
