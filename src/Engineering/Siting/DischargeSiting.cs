using System.Globalization;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Siting;

/// <summary>Holds the site of a discharge against a rule set. Local code and the licensing state come first.</summary>
public static class DischargeSiting
{
    private const decimal FarthestFt = 1000m;

    /// <summary>
    /// Judges every rule. In Pennsylvania, 12 ft up and 9 ft from a window whose top is 1 ft below the discharge: failed;
    /// with the top 2.5 ft below: passed.
    /// </summary>
    /// <param name="site">The site; what is null was not measured.</param>
    /// <param name="ruleSet">The rule set.</param>
    /// <returns>One finding for each rule.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A height beyond ±1000 ft, a distance outside 0 to 1000 ft, an angle outside 0 to 180 degrees.</exception>
    /// <remarks>Range: 0 to 1000 ft; 0 to 180 degrees. Source: the rule set's own citation.</remarks>
    public static SitingReport Judge(DischargeSite site, SitingRuleSet ruleSet)
    {
        Refuse(site);
        return new(ruleSet, site, [.. ruleSet.Rules.Select(rule => Judge(rule, site, ruleSet))]);
    }

    private static SitingFinding Judge(SitingRule rule, DischargeSite site, SitingRuleSet ruleSet)
    {
        var (outcome, why) = rule.Kind switch
        {
            SitingRuleKind.HeightAboveGrade => Height(rule, site),
            SitingRuleKind.OpeningClearance => Openings(rule, site),
            SitingRuleKind.AdjacentBuilding => Buildings(rule, site),
            SitingRuleKind.AdjacentOpening => BuildingOpenings(rule, site),
            SitingRuleKind.RoofClearance => Roof(rule, site),
            SitingRuleKind.RoofEdge => RoofEdge(rule, site),
            SitingRuleKind.Direction => Direction(rule, site),
            SitingRuleKind.NoRainCap => RainCap(site),
            SitingRuleKind.RisingWall => Walls(rule, site),
            _ => Fan(rule, site),
        };
        return new(rule.Id, rule.Text, outcome, why, rule.Advisory, ruleSet.SourceOf(rule));
    }

    private static (SitingOutcome, string) Height(SitingRule rule, DischargeSite site) =>
        site.HeightAboveGradeFt is { } height
            ? Verdict(height >= rule.MinimumFt, Said($"The discharge is {height:0.##} ft above grade."))
            : Missing("the height above grade");

    private static (SitingOutcome, string) Openings(SitingRule rule, DischargeSite site)
    {
        if (site.Openings is null)
            return Missing("the openings near the discharge");
        var near = site.Openings
            .Where(opening => !rule.IgnoreOpenings.Contains(opening.Kind) && opening.DistanceFt < rule.MinimumFt)
            .ToList();
        if (near.Find(opening => opening.TopBelowExhaustFt < rule.UnlessOpeningTopBelowFt
            || (rule.UnlessOpeningTopBelowFt is null)) is { } tooNear)
            return (SitingOutcome.Failed, TooNear(tooNear));
        return near.Find(opening => opening.TopBelowExhaustFt is null) is { } unknown
            ? Missing($"how far the top of {unknown.Name} lies below the discharge")
            : (SitingOutcome.Passed, "Every opening is far enough away or far enough below.");
    }

    private static string TooNear(NearbyOpening opening) =>
        Said($"{opening.Name} is {opening.DistanceFt:0.##} ft away")
        + (opening.TopBelowExhaustFt is { } below ? Said($" and its top {below:0.##} ft below the discharge.") : ".");

    private static (SitingOutcome, string) Buildings(SitingRule rule, DischargeSite site)
    {
        if (site.AdjacentBuildings is null)
            return Missing("the adjacent buildings");
        return site.AdjacentBuildings.FirstOrDefault(building => building.DistanceFt < rule.MinimumFt) is { } near
            ? (SitingOutcome.Failed, Said($"{near.Name} is {near.DistanceFt:0.##} ft away."))
            : (SitingOutcome.Passed, "No adjacent building is too near.");
    }

    private static (SitingOutcome, string) BuildingOpenings(SitingRule rule, DischargeSite site)
    {
        if (site.AdjacentBuildings is null)
            return Missing("the adjacent buildings");
        var near = site.AdjacentBuildings.Where(building => building.DistanceFt < rule.MinimumFt).ToList();
        if (near.Find(building => building.NearestOpeningFt < rule.MinimumFt) is { } tooNear)
            return (SitingOutcome.Failed, Said($"An opening of {tooNear.Name} is {tooNear.NearestOpeningFt:0.##} ft away."));
        return near.Find(building => building.NearestOpeningFt is null) is { } unknown
            ? Missing($"the nearest opening of {unknown.Name}")
            : (SitingOutcome.Passed, "No opening of an adjacent building is too near.");
    }

    private static (SitingOutcome, string) Roof(SitingRule rule, DischargeSite site)
    {
        if (site.Mounting is null)
            return Missing("how the pipe meets the roof");
        if (site.Mounting == DischargeMounting.SideOfHouse)
            return NotForThis("The pipe does not come through the roof.");
        if (site.AboveRoofIn is not { } above)
            return Missing("the height above the roof");
        var least = site.Mounting == DischargeMounting.ThroughFlatRoof ? rule.FlatMinimumIn : rule.PitchedMinimumIn;
        return Verdict(above >= least, Said($"The discharge is {above:0.##} in above the roof; {least:0.##} in are needed."));
    }

    private static (SitingOutcome, string) RoofEdge(SitingRule rule, DischargeSite site)
    {
        if (site.Mounting is null)
            return Missing("how the pipe meets the roof");
        if (site.Mounting != DischargeMounting.SideOfHouse)
            return NotForThis("The pipe comes through the roof.");
        if (site.AboveRoofEdgeIn is not { } above)
            return Missing("the height above the roof edge");
        if (above < 0m && rule.OrHeightAboveGradeFt is { } least)
            return BelowEdge(least, site);
        var met = rule.StrictlyAbove ? above > rule.AboveEdgeIn : above >= rule.AboveEdgeIn;
        return Verdict(met, Said($"The discharge is {above:0.##} in above the roof edge."));
    }

    private static (SitingOutcome, string) BelowEdge(decimal leastFt, DischargeSite site) =>
        site.HeightAboveGradeFt is { } height
            ? Verdict(height >= leastFt, Said($"The discharge is below the roof edge and {height:0.##} ft above grade; {leastFt:0.##} ft are needed."))
            : Missing("the height above grade");

    private static (SitingOutcome, string) Direction(SitingRule rule, DischargeSite site) =>
        site.FromVerticalDeg is { } angle
            ? Verdict(angle <= rule.MaximumFromVerticalDeg, Said($"The discharge points {angle:0.##} degrees away from straight up."))
            : Missing("the direction of the discharge");

    private static (SitingOutcome, string) RainCap(DischargeSite site) =>
        site.HasRainCap is { } cap
            ? Verdict(!cap, cap ? "There is a rain cap." : "There is no rain cap.")
            : Missing("whether there is a rain cap");

    private static (SitingOutcome, string) Walls(SitingRule rule, DischargeSite site)
    {
        if (site.Walls is null)
            return Missing("the walls near the discharge");
        return site.Walls.FirstOrDefault(wall => wall.TopAboveExhaustFt > 0m && wall.DistanceFt < rule.MinimumFt) is { } near
            ? (SitingOutcome.Failed, Said($"{near.Name} is {near.DistanceFt:0.##} ft away and rises {near.TopAboveExhaustFt:0.##} ft above the discharge."))
            : (SitingOutcome.Passed, "No wall that rises above the discharge is too near.");
    }

    private static (SitingOutcome, string) Fan(SitingRule rule, DischargeSite site) =>
        site.Fan is { } fan
            ? Verdict(!rule.Forbidden.Contains(fan), $"The fan stands {InWords(fan)}.")
            : Missing("where the fan stands");

    private static string InWords(FanLocation fan) => fan switch
    {
        FanLocation.Outdoors => "outdoors",
        FanLocation.Attic => "in the attic",
        FanLocation.Garage => "in the garage",
        FanLocation.GarageUnderLivingSpace => "in a garage under living space",
        FanLocation.ConditionedSpace => "in conditioned space",
        FanLocation.Basement => "in the basement",
        FanLocation.CrawlSpaceUnderLivingSpace => "in a crawl space under living space",
        FanLocation.WindowWell => "in a window well",
        _ => "below grade",
    };

    private static (SitingOutcome, string) Verdict(bool met, string why) =>
        (met ? SitingOutcome.Passed : SitingOutcome.Failed, why);

    private static (SitingOutcome, string) Missing(string what) =>
        (SitingOutcome.NotEnoughData, $"Not enough data: {what} was not measured.");

    private static (SitingOutcome, string) NotForThis(string why) => (SitingOutcome.DoesNotApply, why);

    private static string Said(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static void Refuse(DischargeSite site)
    {
        Height(site.HeightAboveGradeFt, FarthestFt, "The height above grade", "ft");
        Height(site.AboveRoofIn, FarthestFt * 12m, "The height above the roof", "in");
        Height(site.AboveRoofEdgeIn, FarthestFt * 12m, "The height above the roof edge", "in");
        Require.InRange(site.FromVerticalDeg ?? 0m, 0m, 180m, "degrees", "The angle from straight up");
        foreach (var opening in site.Openings ?? [])
        {
            Distance(opening.DistanceFt, opening.Name);
            Height(opening.TopBelowExhaustFt, FarthestFt, $"The top of {opening.Name} below the discharge", "ft");
        }

        foreach (var building in site.AdjacentBuildings ?? [])
        {
            Distance(building.DistanceFt, building.Name);
            Distance(building.NearestOpeningFt ?? 0m, $"the nearest opening of {building.Name}");
        }

        foreach (var wall in site.Walls ?? [])
            Distance(wall.DistanceFt, wall.Name);
    }

    private static void Height(decimal? height, decimal most, string what, string unit) =>
        Require.InRange(height ?? 0m, -most, most, unit, what);

    private static void Distance(decimal distance, string from) =>
        Require.InRange(distance, 0m, FarthestFt, "ft", $"The distance from {from}");
}
