using System.Text.Json;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Design;

/// <summary>Where a design's mouth stands, and the rules it is held against, as the design file tells it.</summary>
public static class GatherMouth
{
    public static async Task<FileDischarge> OfAsync(OfficeDb db, SuctionDesign design, House house)
    {
        var rules = await OfferRuleSets.ForAsync(db, design.SitingRules, house.State);
        return Of(design) with { Rules = rules.Key, RuleSet = rules.Own is { } own ? JsonDocument.Parse(own).RootElement : null };
    }

    private static FileDischarge Of(SuctionDesign d)
    {
        var near = NearMouth.Load(d.Nearby);
        return new FileDischarge
        {
            AboveGradeM = d.DischargeAboveGradeM, OpeningDistanceM = d.OpeningDistanceM, AboveOpeningTopM = d.AboveOpeningTopM, AboveRoofM = d.AboveRoofM,
            AdjacentBuildingM = d.AdjacentBuildingM, RainCap = d.RainCap, FromVerticalDeg = d.FromVerticalDeg, Rules = "", Mounting = d.Mounting, Fan = d.FanStands,
            Openings = Openings(d, near), AdjacentBuildings = Buildings(d, near), Walls = near.Walls.Count > 0 ? near.Walls : d.NoWallNear ? [] : null,
        };
    }

    /// <summary>Null where the nearest one says it all.</summary>
    private static IReadOnlyList<FileOpening>? Openings(SuctionDesign d, NearMouth near)
    {
        if (d.OpeningDistanceM is not { } away) return near.Openings.Count > 0 ? near.Openings : d.NoOpeningNear ? [] : null;
        if (near.Openings.Count == 0 && d.OpeningName.Length == 0 && d.OpeningKind == Engineering.Siting.OpeningKind.Window) return null;
        var name = d.OpeningName.Length > 0 ? d.OpeningName : "the nearest opening";
        return [new FileOpening { Name = name, Kind = d.OpeningKind, DistanceM = away, TopBelowMouthM = d.AboveOpeningTopM }, .. near.Openings];
    }

    private static IReadOnlyList<FileBuilding>? Buildings(SuctionDesign d, NearMouth near)
    {
        if (d.AdjacentBuildingM is not { } away) return near.Buildings.Count > 0 ? near.Buildings : d.NoBuildingNear ? [] : null;
        if (near.Buildings.Count == 0 && d.BuildingName.Length == 0 && d.BuildingOpeningM is null) return null;
        return [new FileBuilding { Name = d.BuildingName.Length > 0 ? d.BuildingName : "The next building", DistanceM = away, NearestOpeningM = d.BuildingOpeningM }, .. near.Buildings];
    }
}
