using System.Text.RegularExpressions;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Houses;

/// <summary>Places that somebody typed, or a sentence that says what to do.</summary>
public readonly record struct TypedPlaces(IReadOnlyList<PlanPoint> Places, string? Problem)
{
    internal static TypedPlaces Refused(string problem) => new([], problem);
}

/// <summary>
/// Reads places on a floor plan as people type them: pairs "0,0 40,0 40,28" (across, up), or a walk along the walls,
/// "40 L 28 L 40" with turns or "E 40 N 28 W 40" with directions. Each length as everywhere: 12.5, 12 ft 6 in, 3.2 m.
/// </summary>
public static partial class ReadPlaces
{
    public const int Most = 100;
    private const double FarthestM = 150;
    private const double SamePlaceM = 0.02;
    private static readonly Measure Distance = Measures.Length with { Name = "distance", Most = FarthestM };

    private const string Number = @"(?:\d+(?:\.\d*)?|\.\d+)(?:\s+\d+/\d+)?";
    private const string Length = Number + @"(?:\s*(?:'|(?:ft|feet|foot)\b)(?:\s*-?\s*" + Number + @"\s*(?:""|(?:in|inch|inches)\b))?|\s*(?:""|(?:in|inch|inches|mm|cm|m)\b))?";
    private const string Across = @"[\s;()]*(?<x>[-+]?" + Length + @")\s*,\s*(?<y>[-+]?" + Length + ")";
    private const string Pair = Across + @"(?:[\s;()]+|$)";

    [GeneratedRegex("^" + Pair, RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex PairRegex();

    [GeneratedRegex(@"^\s*(?:from|start)?" + Across + @"[\s):]+", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex StartRegex();

    [GeneratedRegex(@"^[\s,;:]*(?:(?<length>" + Length + @")|(?<turn>left|right|l|r)(?<angle>\d{1,3})(?:°|deg)|(?<turn>left|right|l|r)|(?<way>north|east|south|west|n|e|s|w))", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex StepRegex();

    [GeneratedRegex(@"\b(?:left|right|north|east|south|west|[lrnesw])(?:\b|\d)|\d[lrnesw]\b", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex WalkRegex();

    /// <summary>One place; empty gives none.</summary>
    public static (PlanPoint? Place, string? Problem) One(string? typed, string name, UnitSystem units)
    {
        if (string.IsNullOrWhiteSpace(typed)) return (null, null);
        var (places, problem) = Pairs(MeasureText.Clean(typed), $"the place of {name}", units);
        if (problem is not null) return (null, problem);
        return places.Count == 1 ? (places[0], null) : (null, $"Write the place of {name} as one pair, across and up: 12,8.");
    }

    /// <summary>A line of places, without closing it.</summary>
    public static TypedPlaces Line(string typed, string name, UnitSystem units)
    {
        var text = MeasureText.Clean(typed);
        return WalkRegex().IsMatch(text) ? Walk(text, name, units) : Pairs(text, name, units);
    }

    /// <summary>Corners around a floor. A last corner on the first is the way back and falls away.</summary>
    public static TypedPlaces Around(string typed, string name, UnitSystem units)
    {
        var read = Line(typed, name, units);
        return read.Problem is null && read.Places.Count > 1 && read.Places[^1].DistanceM(read.Places[0]) < SamePlaceM
            ? read with { Places = [.. read.Places.SkipLast(1)] }
            : read;
    }

    private static TypedPlaces Pairs(string text, string name, UnitSystem units)
    {
        var places = new List<PlanPoint>();
        for (var rest = text; rest.Trim().Length > 0;)
        {
            var match = PairRegex().Match(rest);
            if (!match.Success)
                return TypedPlaces.Refused($"Corner {places.Count + 1} of {name} cannot be read at “{Short(rest)}”. Write across and up with a comma between, and a space before the next: 0,0 40,0 40,28.");
            var (place, problem) = Place(match, units);
            if (place is not { } at) return TypedPlaces.Refused($"Corner {places.Count + 1} of {name}: {problem}");
            places.Add(at);
            rest = rest[match.Length..];
        }

        return Counted(places, name);
    }

    private static TypedPlaces Counted(List<PlanPoint> places, string name) => places.Count > Most
        ? TypedPlaces.Refused($"There are {places.Count} corners in {name}; {Most} are the most. Leave out those that hardly bend the wall.")
        : new(places, null);

    private static TypedPlaces Walk(string text, string name, UnitSystem units)
    {
        var start = new PlanPoint(0, 0);
        if (StartRegex().Match(text) is { Success: true } from)
        {
            var (place, problem) = Place(from, units);
            if (place is not { } at) return TypedPlaces.Refused($"The start of {name}: {problem}");
            (start, text) = (at, text[from.Length..]);
        }

        var steps = new WalkSteps(start);
        for (var rest = text; rest.Trim(' ', ',', ';', '\n', '\r', '\t').Length > 0;)
        {
            var match = StepRegex().Match(rest);
            if (!match.Success || EndsInAWord(rest, match.Length))
                return TypedPlaces.Refused($"The walk around {name} cannot be read at “{Short(rest)}”. Write each wall's length, then the turn, L or R: 40 L 28 L 40 L 28.");
            if (Step(match, steps, units) is { } wrong) return TypedPlaces.Refused($"The walk around {name}: {wrong}");
            rest = rest[match.Length..];
        }

        return steps.Finish() is { } left ? TypedPlaces.Refused($"The walk around {name}: {left}") : Counted(steps.Places, name);
    }

    private static bool EndsInAWord(string text, int at) => at < text.Length && char.IsLetter(text[at - 1]) && char.IsLetter(text[at]);

    private static string? Step(Match match, WalkSteps steps, UnitSystem units)
    {
        if (match.Groups["length"].Success)
        {
            var read = Distance.Read(match.Groups["length"].Value, units);
            return read.Value is { } metres ? steps.Go(metres) : read.Problem;
        }

        if (match.Groups["way"].Success) return steps.Face(char.ToUpperInvariant(match.Groups["way"].Value[0]));
        var angle = match.Groups["angle"].Success ? (double)TypedNumbers.ReadDecimal(match.Groups["angle"].Value, "turn", 0, 999).Value! : 90;
        return steps.Turn(char.ToUpperInvariant(match.Groups["turn"].Value[0]) == 'L' ? angle : -angle);
    }

    private static (PlanPoint? Place, string? Problem) Place(Match match, UnitSystem units)
    {
        var (x, y) = (Signed(match.Groups["x"].Value, units), Signed(match.Groups["y"].Value, units));
        return x.Value is { } across && y.Value is { } up ? (new(across, up), null) : (null, x.Problem ?? y.Problem);
    }

    private static Measured Signed(string typed, UnitSystem units)
    {
        var read = Distance.Read(typed.TrimStart('-', '+'), units);
        return typed.StartsWith('-') ? read with { Value = -read.Value } : read;
    }

    private static string Short(string rest)
    {
        var text = rest.Trim().Split('\n')[0];
        return text.Length <= 24 ? text : text[..24] + "…";
    }
}
