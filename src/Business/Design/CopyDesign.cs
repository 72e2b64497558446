using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Design;

/// <summary>Starts the next revision from an earlier one. The copy is open again, whatever became of the first.</summary>
public static class CopyDesign
{
    public static async Task<SuctionDesign> AsNextRevisionAsync(OfficeDb db, SuctionDesign from)
    {
        var copy = new SuctionDesign
        {
            HouseId = from.HouseId, PressureFieldTestId = from.PressureFieldTestId, Revision = await NextAsync(db, from.HouseId), Notes = from.Notes,
            FanId = from.FanId, TargetPa = from.TargetPa, DischargeAboveGradeM = from.DischargeAboveGradeM, OpeningDistanceM = from.OpeningDistanceM,
            AboveOpeningTopM = from.AboveOpeningTopM, AboveRoofM = from.AboveRoofM, AdjacentBuildingM = from.AdjacentBuildingM,
            RainCap = from.RainCap, FromVerticalDeg = from.FromVerticalDeg, SitingRules = from.SitingRules,
            OpeningName = from.OpeningName, OpeningKind = from.OpeningKind, BuildingName = from.BuildingName, BuildingOpeningM = from.BuildingOpeningM, Nearby = from.Nearby,
            NoOpeningNear = from.NoOpeningNear, NoBuildingNear = from.NoBuildingNear, NoWallNear = from.NoWallNear, Mounting = from.Mounting, FanStands = from.FanStands,
            Pieces = [.. from.Pieces.OrderBy(p => p.Position).Select(Copy)],
        };
        db.Designs.Add(copy);
        return copy;
    }

    public static async Task<string> NextAsync(OfficeDb db, int houseId) => RevisionLetters.After(
        await db.Designs.Where(d => d.HouseId == houseId).OrderByDescending(d => d.Revision.Length).ThenByDescending(d => d.Revision).Select(d => d.Revision).FirstOrDefaultAsync());

    private static RoutePiece Copy(RoutePiece p) => new()
    {
        Position = p.Position, Kind = p.Kind, Size = p.Size, LengthM = p.LengthM, RiseM = p.RiseM, Place = p.Place, Count = p.Count, LossK = p.LossK,
    };
}
