using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Engineering.Freezing;

namespace MitigationOffice.Business.Design;

/// <summary>What the program assumes about the pipe outdoors and its air today, written out: a file that says it gives the same numbers
/// under a later program that would assume something else.</summary>
public static class AssumedOutdoors
{
    private static readonly StreamAssumptions Air = new();

    /// <summary>Null where no pipe of the route is outdoors.</summary>
    public static FileOutdoorRun? Of(DesignFile file) => !file.Route.Any(p => p is { Kind: PieceKind.Pipe, Place: PiecePlace.Outdoors, LengthM: > 0 }) ? null : new()
    {
        WindMPerS = Air.WindMPerS, WindSpreadMPerS = Air.WindSpreadMPerS, SkyShare = Air.SkyShare, GroundSpreadK = Air.GroundSpreadK,
        HouseAirShareSpread = Air.HouseAirShareSpread, HouseC = ForeseeFreezing.HouseC(file.Site), HouseHumidityPercent = Air.HouseHumidityPercent,
        HouseHumiditySpreadPercent = Air.HouseHumiditySpreadPercent, IceKgPerM3 = Air.IceKgPerM3, IceSpreadKgPerM3 = Air.IceSpreadKgPerM3,
        FogCaughtShare = Air.FogCaughtShare, FlowSpreadShare = Air.FlowSpreadShare,
    };
}
