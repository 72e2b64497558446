using System.Globalization;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Shop;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Design;

/// <param name="Note">How it was counted.</param>
public sealed record MaterialRow(string What, decimal Quantity, string Unit, string Note);

/// <summary>A take-off as the list that is loaded onto the truck. It names no prices.</summary>
public static class MaterialList
{
    public static IReadOnlyList<MaterialRow> Of(TakeOff takeOff, Fan? fan, FreezeResult? freeze) =>
    [
        .. takeOff.Pipes.SelectMany(Pipe), .. takeOff.Fittings.Select(f => new MaterialRow($"{Capital(WordsOf(f.Kind))}, {Size(f.Size)}", f.Count, "each", "drawn")),
        .. takeOff.Pipes.Where(p => p.Joints > 0).Select(p => new MaterialRow($"Coupling, {Size(p.Size)}", p.Joints, "each", "between stock lengths of one run")),
        .. takeOff.Pipes.Where(p => p.Supports > 0).Select(p => new MaterialRow($"Hanger or strap, {Size(p.Size)}", p.Supports, "each", Held)),
        .. Fan(takeOff, fan), .. takeOff.Passages.Select(p => new MaterialRow($"{PassageWords(p.Kind)}, {Size(p.Size)}", p.Count, "each", PassageNote(p.Kind))),
        new("Suction pit: core, hand pit, sleeve and seal", takeOff.SuctionPoints, "each", ""), .. Winter(freeze),
    ];

    private static readonly string Held = Say($"one to each begun {PipeRules.SupportEveryLevelFt:0} ft across or {PipeRules.SupportEveryUprightFt:0} ft up; {PipeRules.SupportSource.Text}, {PipeRules.SupportSource.CertaintyInWords}");

    private static IEnumerable<MaterialRow> Pipe(PipeTaken p)
    {
        yield return new($"Pipe, {Size(p.Size)}", p.Feet, "ft", p.OutdoorFeet > 0 ? Say($"drawn, {p.OutdoorFeet:0} ft of it outdoors") : "drawn, all indoors");
        yield return new($"Pipe, {Size(p.Size)}, to buy", p.Lengths, Say($"lengths of {TakeOff.StockLengthFt:0} ft"), Say($"with {TakeOff.WasteShare:0 %} for waste: common practice, no source"));
    }

    private static IEnumerable<MaterialRow> Fan(TakeOff takeOff, Fan? fan)
    {
        if (takeOff.SizeAtFan.Length == 0) yield break;
        yield return new(fan is null ? "Fan, not chosen yet" : $"Fan {fan.Model}", 1, "each", fan is { Connection.Length: > 0 } ? $"takes {Size(fan.Connection)}" : "");
        var differs = fan is { Connection.Length: > 0 } && fan.Connection != takeOff.SizeAtFan;
        yield return new(differs ? $"Soft coupling, {Size(fan!.Connection)} to {Size(takeOff.SizeAtFan)}" : $"Soft coupling, {Size(takeOff.SizeAtFan)}", TakeOff.CouplingsAtFan, "each",
            "before and after the fan: common practice, no source");
    }

    private static IEnumerable<MaterialRow> Winter(FreezeResult? freeze)
    {
        if (freeze is { CableAdvised: true, CableLengthM: { } metres, CableWPerFt: { } watts })
            yield return new(Say($"Heat cable, {watts:0.#} W/ft, if it is sold"), Math.Ceiling((decimal)(metres / 0.3048) - 0.001m), "ft", Say($"{freeze.DaysAtRisk:0} days a winter at risk, {freeze.DaysAtRiskLow:0} to {freeze.DaysAtRiskHigh:0}"));
        else if (freeze is { CableWPerFt: null, DaysAtRisk: >= 1, InsulationR: { } r })
            yield return new(Say($"Insulation, R {r:0.#}, if it is sold"), Math.Ceiling((decimal)(freeze.OutdoorM / 0.3048) - 0.001m), "ft", Say($"{freeze.DaysAtRisk:0} days a winter at risk, {freeze.DaysAtRiskLow:0} to {freeze.DaysAtRiskHigh:0}"));
    }

    private static string WordsOf(PieceKind kind) => kind switch
    {
        PieceKind.Elbow90 => "elbow 90°",
        PieceKind.LongElbow90 => "long elbow 90°",
        PieceKind.Elbow45 => "elbow 45°",
        _ => kind.ToString().ToLowerInvariant(),
    };

    private static string PassageWords(PassageKind kind) => kind switch
    {
        PassageKind.Wall => "Through an outer wall",
        PassageKind.Roof => "Through the roof, flashing",
        PassageKind.Garage => "Through the garage's wall, fire collar",
        _ => "Through a ceiling to the attic",
    };

    private static string PassageNote(PassageKind kind) => kind switch
    {
        PassageKind.Garage => "as the fire code asks",
        PassageKind.Ceiling => "sealed; as the fire code asks",
        _ => "sealed and made weathertight",
    };

    private static string Size(string key) => PipeChoices.WordsOf(key);

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
