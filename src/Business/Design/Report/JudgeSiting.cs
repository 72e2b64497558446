using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Shop;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Holds a design's mouth and fan against the siting rules.</summary>
public static class JudgeSiting
{
    private const double FtPerM = 1 / 0.3048;

    public static SitingResult? Of(DesignFile file)
    {
        if (file.Discharge is not { } mouth) return null;
        var report = Findings(mouth, file.Route, file.Site.Basement);
        return new SitingResult(report.RuleSet.Jurisdiction, report.RuleSet.Note ?? "", [.. report.Findings.Select(f => new RuleResult(f.Rule, Word(f.Outcome), f.Why, f.IsAdvisory, f.Source.ToString()))])
        {
            Key = report.RuleSet.Id, TextSha256 = RuleSetText.HashOf(report.RuleSet),
        };
    }

    /// <summary>The rules, the site as it was understood, and what each rule says of it.</summary>
    public static SitingReport Findings(FileDischarge d, IReadOnlyList<FilePiece> route, bool basement) => DischargeSiting.Judge(Site(d, route, basement), RulesOf(d));

    private static SitingRuleSet RulesOf(FileDischarge d)
    {
        if (d.RuleSet is { } given)
        {
            var (set, problem) = RuleSetText.Read(given.GetRawText());
            if (set is null) throw new FormatException($"discharge.ruleSet: {problem}");
            return set.Id == d.Rules ? set : throw new FormatException($"discharge.ruleSet is “{set.Id}”, but discharge.rules names “{d.Rules}”.");
        }

        return SitingRuleSets.All.FirstOrDefault(s => s.Id == d.Rules)
            ?? throw new FormatException($"There are no siting rules “{d.Rules}”. Known: {string.Join(", ", SitingRuleSets.All.Select(s => s.Id))}.");
    }

    private static DischargeSite Site(FileDischarge d, IReadOnlyList<FilePiece> route, bool basement)
    {
        var mounting = d.Mounting ?? MountingOf(route);
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
            Fan = d.Fan ?? FanOf(route, basement),
        };
    }

    private static DischargeMounting MountingOf(IReadOnlyList<FilePiece> route) =>
        !route.Any(p => p.Place is PiecePlace.Attic or PiecePlace.Garage) && route.Any(p => p.Place == PiecePlace.Outdoors) ? DischargeMounting.SideOfHouse : DischargeMounting.ThroughPitchedRoof;

    private static FanLocation? FanOf(IReadOnlyList<FilePiece> route, bool basement) => route.FirstOrDefault(p => p.Kind == PieceKind.Fan)?.Place switch
    {
        PiecePlace.Outdoors => FanLocation.Outdoors,
        PiecePlace.Attic => FanLocation.Attic,
        PiecePlace.Garage => FanLocation.Garage,
        PiecePlace.Indoors => basement ? FanLocation.Basement : FanLocation.ConditionedSpace,
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

    public static string Word(SitingOutcome outcome) => outcome switch
    {
        SitingOutcome.Passed => "passes",
        SitingOutcome.Failed => "fails",
        SitingOutcome.NotEnoughData => "not measured",
        _ => "does not apply",
    };
}
