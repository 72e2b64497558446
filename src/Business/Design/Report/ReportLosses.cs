using System.Globalization;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Sizing;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Where the fan's pressure goes: along the route, and then along each branch from its own ground to where it joins.</summary>
internal static class ReportLosses
{
    public static IReadOnlyList<PieceLoss> Of(DesignFile file, SizingInput input, SystemCurve system, OperatingPoint point) => [.. Route(file, input, system, point), .. Branches(file, input, point)];

    private static IEnumerable<PieceLoss> Route(DesignFile file, SizingInput input, SystemCurve system, OperatingPoint point)
    {
        yield return new PieceLoss(0, "Ground, from the soil into the pit", 0, point.PitVacuumPa, 0, null);
        for (var i = 0; i < file.Route.Count; i++)
            if (file.Route[i].Kind != PieceKind.Fan)
                yield return Piece(i + 1, file.Route[i], input.Route[i], point.Pieces[i], point.Speeds[i].VelocityMPerS);
        yield return new PieceLoss(file.Route.Count + 1, "Mouth, the speed that is lost", 0, system.MouthLossPa(point.FlowM3PerS), input.Route[^1].Size.VelocityMPerS(point.FlowM3PerS), 1);
    }

    private static IEnumerable<PieceLoss> Branches(DesignFile file, SizingInput input, OperatingPoint point)
    {
        for (var k = 0; k < input.FurtherPoints.Count; k++)
        {
            var further = file.FurtherPoints![k];
            yield return new PieceLoss(0, $"Ground at {further.Name}", 0, point.Points[k + 1].PitVacuumPa, 0, null) { Branch = further.Name };
            for (var i = 0; i < further.Branch.Count; i++)
                yield return Piece(i + 1, further.Branch[i], input.FurtherPoints[k].Branch[i], point.Branches[k][i].LossPa, point.Branches[k][i].VelocityMPerS) with { Branch = further.Name };
        }
    }

    private static PieceLoss Piece(int position, FilePiece piece, Engineering.Piping.RoutePiece engine, double pa, double speed) =>
        new(position, Words(piece), piece.LengthM * piece.Count, pa, speed, engine.K > 0 ? engine.K * piece.Count : null);

    private static string Words(FilePiece p)
    {
        var kind = p.Kind switch { PieceKind.Elbow90 => "elbow 90°", PieceKind.LongElbow90 => "long elbow 90°", PieceKind.Elbow45 => "elbow 45°", _ => p.Kind.ToString().ToLowerInvariant() };
        var place = p.Place switch { PiecePlace.Outdoors => "outdoors", PiecePlace.Attic => "in the attic", PiecePlace.Garage => "in the garage", _ => "indoors" };
        return string.Create(CultureInfo.InvariantCulture, $"{(p.Count > 1 ? $"{p.Count} × " : "")}{PipeChoices.WordsOf(p.Size)} {kind}, {place}");
    }
}
