using System.Globalization;
using System.Text.Json;

namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>Reads one object of a profile name by name; what it does not know is refused by its name and place.</summary>
internal sealed class JsonReading
{
    private readonly Dictionary<string, JsonElement> _values = new(StringComparer.Ordinal);
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);
    private readonly string _where;
    private readonly List<string> _problems;

    public JsonReading(JsonElement element, string where, List<string> problems)
    {
        (_where, _problems) = (where, problems);
        if (element.ValueKind != JsonValueKind.Object)
        {
            Refuse($"{(where.Length == 0 ? "The profile" : $"“{where}”")} must be an object in braces.");
            return;
        }

        foreach (var p in element.EnumerateObject())
            if (!_values.TryAdd(p.Name, p.Value)) Refuse($"{Named(p.Name)} stands twice.");
    }

    public void Refuse(string words) => _problems.Add(words);

    public string Named(string name) => $"“{(_where.Length == 0 ? name : $"{_where}.{name}")}”";

    public bool Has(string name) => Take(name) is not null;

    public string Text(string name, bool needed = false, int most = 1000)
    {
        var value = Take(name);
        if (value is { ValueKind: not JsonValueKind.String }) Refuse($"{Named(name)} must be text in quotation marks.");
        var text = value is { ValueKind: JsonValueKind.String } v ? v.GetString()!.Trim() : "";
        if (needed && value is null or { ValueKind: JsonValueKind.String } && needed && text.Length == 0) Refuse($"{Named(name)} is missing.");
        if (text.Length > most) Refuse($"{Named(name)} is longer than {most} characters.");
        if (text.Any(c => char.IsControl(c) && c is not '\n')) Refuse($"{Named(name)} holds a control character.");
        return text;
    }

    public bool YesNo(string name, bool standard)
    {
        var value = Take(name);
        if (value is { ValueKind: not (JsonValueKind.True or JsonValueKind.False) }) Refuse($"{Named(name)} must be true or false.");
        return value is { ValueKind: JsonValueKind.True } || (value is not { ValueKind: JsonValueKind.False } && standard);
    }

    public int Whole(string name, int least, int most, int standard = 0)
    {
        if (Take(name) is not { } value) return standard;
        if (value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out var number) && number >= least && number <= most) return number;
        Refuse($"{Named(name)} must be a whole number from {least} to {most}.");
        return standard;
    }

    public DateOnly? Day(string name)
    {
        var text = Text(name);
        if (text.Length == 0) return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)) return day;
        Refuse($"{Named(name)} must be a day like 2026-11-25, not “{text}”.");
        return null;
    }

    /// <summary>A word of a list, written with dashes between its parts.</summary>
    public T Word<T>(string name, T standard)
        where T : struct, Enum => Has(name) ? WordOf(Text(name), Named(name), standard) : standard;

    public IReadOnlyList<T> Words<T>(string name, IReadOnlyList<T> standard)
        where T : struct, Enum
    {
        if (!Has(name)) return standard;
        var words = Texts(name).Select(t => WordOf(t, Named(name), default(T))).ToList();
        if (words.Count == 0) Refuse($"{Named(name)} names none; the choices are {Choices<T>()}.");
        if (words.Distinct().Count() < words.Count) Refuse($"{Named(name)} names one twice.");
        return [.. words.Distinct()];
    }

    public IReadOnlyList<string> Texts(string name)
    {
        if (Take(name) is not { } value) return [];
        if (value.ValueKind == JsonValueKind.Array && value.EnumerateArray().All(e => e.ValueKind == JsonValueKind.String)) return [.. value.EnumerateArray().Select(e => e.GetString()!.Trim())];
        Refuse($"{Named(name)} must be a list of texts in square brackets.");
        return [];
    }

    public JsonElement? Take(string name)
    {
        _known.Add(name);
        return _values.TryGetValue(name, out var value) && value.ValueKind != JsonValueKind.Null ? value : null;
    }

    /// <summary>Call last: names that nothing asked for.</summary>
    public void Close()
    {
        foreach (var name in _values.Keys.Where(k => !_known.Contains(k)))
            Refuse($"{Named(name)} is not a name a profile has{(Near(name, _known) is { } near ? $"; did you mean “{near}”?" : "")} The names here are {string.Join(", ", _known.Order(StringComparer.Ordinal))}.".Replace("has The", "has. The", StringComparison.Ordinal));
    }

    /// <summary>The known word that a mistyped one was most likely meant to be.</summary>
    public static string? Near(string typed, IEnumerable<string> known) =>
        known.Select(k => (Word: k, Apart: Apart(typed.ToLowerInvariant(), k.ToLowerInvariant()))).Where(x => x.Apart <= Math.Max(2, typed.Length / 3)).OrderBy(x => x.Apart).Select(x => x.Word).FirstOrDefault();

    private T WordOf<T>(string text, string named, T standard)
        where T : struct, Enum
    {
        foreach (var value in Enum.GetValues<T>())
            if (JsonWord.Of(value) == text) return value;
        Refuse($"{named} must be one of {Choices<T>()}, not “{text}”.");
        return standard;
    }

    private static string Choices<T>()
        where T : struct, Enum => string.Join(", ", Enum.GetValues<T>().Select(v => JsonWord.Of(v)));

    /// <summary>How many letters have to be put in, taken out or changed.</summary>
    private static int Apart(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var (before, left) = (row[0], row[0] = i);
            for (var j = 1; j <= b.Length; j++)
            {
                var here = Math.Min(Math.Min(row[j] + 1, left + 1), before + (a[i - 1] == b[j - 1] ? 0 : 1));
                (before, row[j], left) = (row[j], here, here);
            }
        }

        return row[^1];
    }
}
