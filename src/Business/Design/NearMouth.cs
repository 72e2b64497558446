using System.Globalization;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Design;

/// <summary>What stands near a mouth beyond the nearest opening and building.</summary>
public sealed record NearMouth(IReadOnlyList<FileOpening> Openings, IReadOnlyList<FileBuilding> Buildings, IReadOnlyList<FileWall> Walls)
{
    public const int Most = 20;

    /// <summary>One line each: "opening|Window|Kitchen|2.1336|0.6", "building|Shed|4|", "wall|Gable|2|0.5"; lengths in metres.</summary>
    public string Store() => string.Join('\n',
    [
        .. Openings.Select(o => Line("opening", o.Kind.ToString(), o.Name, Text(o.DistanceM), Text(o.TopBelowMouthM))),
        .. Buildings.Select(b => Line("building", b.Name, Text(b.DistanceM), Text(b.NearestOpeningM))),
        .. Walls.Select(w => Line("wall", w.Name, Text(w.DistanceM), Text(w.TopAboveMouthM))),
    ]);

    public static NearMouth Load(string stored)
    {
        var lines = stored.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l.Split('|')).ToList();
        return new(
            [.. lines.Where(l => l[0] == "opening").Select(l => new FileOpening { Kind = Enum.Parse<OpeningKind>(l[1]), Name = l[2], DistanceM = Number(l[3])!.Value, TopBelowMouthM = Number(l[4]) })],
            [.. lines.Where(l => l[0] == "building").Select(l => new FileBuilding { Name = l[1], DistanceM = Number(l[2])!.Value, NearestOpeningM = Number(l[3]) })],
            [.. lines.Where(l => l[0] == "wall").Select(l => new FileWall { Name = l[1], DistanceM = Number(l[2])!.Value, TopAboveMouthM = Number(l[3])!.Value })]);
    }

    private static string Line(params string[] parts) => string.Join('|', parts.Select(p => p.Replace('|', '/').ReplaceLineEndings(" ")));

    private static string Text(double? metres) => metres?.ToString("0.######", CultureInfo.InvariantCulture) ?? "";

    private static double? Number(string text) => text.Length == 0 ? null : double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
