using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Holds a design's mouth and fan against the siting rules.</summary>
public static class JudgeSiting
{
    private const double FtPerM = 1 / 0.3048;

    public static SitingResult? Of(DesignFile file)
    {
        if (file.Discharge is not { } d) return null;
        if (!SitingRuleSets.All.Any(s => s.Id == d.Rules))
            throw new DesignRefused($"There are no siting rules “{d.Rules}”. Known: {string.Join(", ", SitingRuleSets.All.Select(s => s.Id))}.") { Path = "discharge.rules" };
        var report = DischargeSiting.Judge(Site(file, d), SitingRuleSets.Get(d.Rules));
        return new SitingResult(report.RuleSet.Jurisdiction, report.RuleSet.Note ?? "", [.. report.Findings.Select(f => new RuleResult(f.Rule, Word(f.Outcome), f.Why, f.IsAdvisory, f.Source.ToString()))]);
    }

    private static DischargeSite Site(DesignFile file, FileDischarge d)
    {
        var mounting = d.Mounting ?? MountingOf(file);
        var side = mounting == DischargeMounting.SideOfHouse;
        return new DischargeSite
        {
            HeightAboveGradeFt = Ft(d.AboveGradeM),
            Mounting = mounting,
            AboveRoofIn = side ? null : Ft(d.AboveRoofM) * 12,
            AboveRoofEdgeIn = side ? Ft(d.AboveRoofM) * 12 : null,
            Openings = Openings(d),
            AdjacentBuildings = Buildings(d),
            Walls = d.Walls is { } walls ? [.. walls.Select(w => new NearbyWall(w.Name, Ft(w.DistanceM), Ft(w.TopAboveMouthM)))] : null,
            FromVerticalDeg = (decimal)d.FromVerticalDeg,
            HasRainCap = d.RainCap,
            Fan = d.Fan ?? FanOf(file),
        };
    }

    private static DischargeMounting MountingOf(DesignFile file) =>
        !file.Route.Any(p => p.Place is PiecePlace.Attic or PiecePlace.Garage) && file.Route.Any(p => p.Place == PiecePlace.Outdoors) ? DischargeMounting.SideOfHouse : DischargeMounting.ThroughPitchedRoof;

    private static FanLocation? FanOf(DesignFile file) => file.Route.FirstOrDefault(p => p.Kind == PieceKind.Fan)?.Place switch
    {
        PiecePlace.Outdoors => FanLocation.Outdoors,
        PiecePlace.Attic => FanLocation.Attic,
        PiecePlace.Garage => FanLocation.Garage,
        PiecePlace.Indoors => file.Site.Basement ? FanLocation.Basement : FanLocation.ConditionedSpace,
        _ => null,
    };

    private static IReadOnlyList<NearbyOpening>? Openings(FileDischarge d)
    {
        if (d.Openings is { } all) return [.. all.Select(o => new NearbyOpening(o.Name, o.Kind, Ft(o.DistanceM), Ft(o.TopBelowMouthM)))];
        return d.OpeningDistanceM is { } away ? [new NearbyOpening("the nearest opening", OpeningKind.Window, Ft(away), Ft(d.AboveOpeningTopM))] : null;
    }

    private static IReadOnlyList<AdjacentBuilding>? Buildings(FileDischarge d)
    {
        if (d.AdjacentBuildings is { } all) return [.. all.Select(b => new AdjacentBuilding(b.Name, Ft(b.DistanceM), Ft(b.NearestOpeningM)))];
        return d.AdjacentBuildingM is { } next ? [new AdjacentBuilding("The next building", Ft(next))] : null;
    }

    private static decimal? Ft(double? metres) => metres is { } m ? Ft(m) : null;

    private static decimal Ft(double metres) => Math.Round((decimal)(metres * FtPerM), 3, MidpointRounding.AwayFromZero);

    private static string Word(SitingOutcome outcome) => outcome switch
    {
        SitingOutcome.Passed => "passes",
        SitingOutcome.Failed => "fails",
        SitingOutcome.NotEnoughData => "not measured",
        _ => "does not apply",
    };
}
