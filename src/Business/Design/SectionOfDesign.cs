using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Business.Design;

/// <summary>The section through a house with a design in it, for the sheet, the quote and the packet.</summary>
public static class SectionOfDesign
{
    public static HouseFacts Of(SuctionDesign design, DesignReport? report, House house, string name, UnitSystem units)
    {
        var pieces = design.Line().ToList();
        var shown = report?.Shown;
        return SectionOfTest.Of(house, name, units) with
        {
            Route = Stretches(pieces),
            Branches = [.. design.BranchesInOrder().Select((b, i) => new BranchMark(
                b.Name, Stretches(design.Line(b.Number)), Joined(design, b), shown is { OnCurve: true } && i + 1 < shown.Points.Count ? shown.Points[i + 1].PitVacuumPa : null))],
            FanPlace = pieces.Find(p => p.Kind == PieceKind.Fan) is { } fan ? Place(fan.Place) : null,
            FanWords = shown is null ? "fan" : shown.OnCurve ? string.Create(CultureInfo.InvariantCulture, $"{shown.Model}, {shown.Watts:0} W") : shown.Model,
            DischargeAboveGradeM = design.DischargeAboveGradeM,
            StartUpPa = shown is { OnCurve: true } ? shown.PitVacuumPa : null,
            Holes = [.. (shown?.Holes ?? []).Select(h => new HoleMark(h.Label, h.NowPa, report!.Soil.Holes.FirstOrDefault(t => t.Label == h.Label)?.DistanceM))],
            Warning = Warning(report?.Freeze),
        };
    }

    private static List<RouteStretch> Stretches(IEnumerable<RoutePiece> line) =>
        [.. line.Where(p => p.Kind == PieceKind.Pipe).Select(p => new RouteStretch(Place(p.Place), p.LengthM * p.Count, PipeChoices.WordsOf(p.Size)))];

    private static string Joined(SuctionDesign design, SuctionBranch branch) => design.Branches.Find(b => b.Number == branch.JoinsBranch)?.Name ?? "";

    private static string Warning(FreezeResult? freeze) =>
        freeze is { DaysAtRisk: >= 1 } ? string.Create(CultureInfo.InvariantCulture, $"ice on about {freeze.DaysAtRisk:0} days a winter") : "";

    private static RoutePlace Place(PiecePlace place) => place switch
    {
        PiecePlace.Outdoors => RoutePlace.Outdoors,
        PiecePlace.Attic => RoutePlace.Attic,
        PiecePlace.Garage => RoutePlace.Garage,
        _ => RoutePlace.Indoors,
    };
}
