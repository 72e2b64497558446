using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Asks the engine what ice does to a design's outdoor run.</summary>
public static class ForeseeFreezing
{
    /// <summary>What the report keeps of the forecast with a fan at its operating point, or why there is none.</summary>
    public static (FreezeResult? Result, string? WhyNone) Of(DesignFile file, SizingInput sizing, SizingReport sized, OperatingPoint at, FanCurve fan)
    {
        var (forecast, why) = Forecast(file, sizing, sized, at, fan);
        return (forecast is null ? null : Result(forecast, file.OutdoorRun?.WithDays == true), why);
    }

    /// <summary>The whole forecast with a fan at its operating point, or why there is none.</summary>
    public static (FreezeReport? Forecast, string? WhyNone) Forecast(DesignFile file, SizingInput sizing, SizingReport sized, OperatingPoint at, FanCurve fan)
    {
        var record = ReadClimate.Of(file.Climate);
        var pieces = file.Route.Where(p => p is { Place: PiecePlace.Outdoors, Kind: PieceKind.Pipe, LengthM: > 0 }).ToList();
        if (pieces.Count == 0) return (null, "No pipe of the route is outdoors.");
        try
        {
            return (FreezeForecast.Compute(Assumed(file.OutdoorRun ?? new(), Input(file, sizing.Site, pieces, at) with { Record = record, System = System(sized, at, fan) })), null);
        }
        catch (ArgumentOutOfRangeException e)
        {
            return (null, $"The freeze forecast does not reach this case. {e.Message.Split(" (Parameter", 2)[0]}");
        }
    }

    /// <summary>The air drawn through the slab: an assumption.</summary>
    public static double HouseC(FileSite site) => Math.Clamp(site.IndoorC - 3, 0, 35);

    private static SuctionSystem System(SizingReport sized, OperatingPoint at, FanCurve fan) =>
        SuctionSystem.Of(fan, sized.GasDensityKgPerM3, at.FlowM3PerS, at.PitVacuumPa, 1 / sized.Ground.Soil.Exponent);

    private static FreezeInput Input(DesignFile file, SizingSite site, List<FilePiece> pieces, OperatingPoint at)
    {
        var pipe = PipeSize.Of(pieces[0].Size);
        var route = file.Route.ToList();
        var fanFirst = route.FindIndex(p => p.Kind == PieceKind.Fan) < route.IndexOf(pieces[^1]);
        return new FreezeInput
        {
            Run = new OutdoorRun
            {
                BoreM = pipe.HydraulicDiameterM, WallM = pipe.WallM, WallWPerMK = IsMetal(pipe) ? AluminiumWPerMK : PipeWall.PvcConductivityWPerMK, FlowM3PerS = at.FlowM3PerS,
                ElevationM = file.Site.ElevationM, FanStandsBeforeRun = fanFirst, FanBeforeRunW = fanFirst ? at.Watts : 0, Pieces = [.. pieces.Select(Piece)],
            },
            Assumptions = new StreamAssumptions { GroundC = site.GroundC, HouseAirShare = file.Prices.IndoorAirShare, HouseC = HouseC(file.Site) },
            DesignC = file.Site.DesignWinterC, JanuaryMeanC = file.Site.JanuaryMeanC, WinterDays = file.Site.WinterDays,
            DollarsPerKWh = file.Prices.ElectricityCentsPerKWh / 100,
        };
    }

    private static RunPiece Piece(FilePiece p)
    {
        var piece = new RunPiece { LengthM = p.LengthM * p.Count, Direction = Direction(p), InsulationM = p.InsulationM ?? 0 };
        return piece with { InsulationWPerMK = p.InsulationWPerMK ?? piece.InsulationWPerMK };
    }

    /// <summary>What the file assumes in place of the program.</summary>
    private static FreezeInput Assumed(FileOutdoorRun run, FreezeInput input)
    {
        var air = input.Assumptions;
        return input with
        {
            Run = input.Run with { WallWPerMK = run.WallWPerMK ?? input.Run.WallWPerMK },
            System = input.System! with { MouthContraction = run.MouthContraction ?? input.System.MouthContraction },
            Assumptions = air with
            {
                GroundSpreadK = run.GroundSpreadK ?? air.GroundSpreadK,
                HouseAirShare = run.HouseAirShare ?? air.HouseAirShare,
                HouseAirShareSpread = run.HouseAirShareSpread ?? air.HouseAirShareSpread,
                HouseC = run.HouseC ?? air.HouseC,
                HouseHumidityPercent = run.HouseHumidityPercent ?? air.HouseHumidityPercent,
                HouseHumiditySpreadPercent = run.HouseHumiditySpreadPercent ?? air.HouseHumiditySpreadPercent,
                WindMPerS = run.WindMPerS ?? air.WindMPerS,
                WindSpreadMPerS = run.WindSpreadMPerS ?? air.WindSpreadMPerS,
                SkyShare = run.SkyShare ?? air.SkyShare,
                IceKgPerM3 = run.IceKgPerM3 ?? air.IceKgPerM3,
                IceSpreadKgPerM3 = run.IceSpreadKgPerM3 ?? air.IceSpreadKgPerM3,
                FogCaughtShare = run.FogCaughtShare ?? air.FogCaughtShare,
                FlowSpreadShare = run.FlowSpreadShare ?? air.FlowSpreadShare,
            },
            CableSizesWPerFt = run.CableSizesWPerFt ?? input.CableSizesWPerFt,
            CableOnBelowC = run.CableOnBelowC ?? input.CableOnBelowC,
            BypassFromKgPerDay = run.BypassFromKgPerDay ?? input.BypassFromKgPerDay,
            ColdSpellDays = run.ColdSpellDays ?? input.ColdSpellDays,
            ColdSpellSwingK = run.ColdSpellSwingK ?? input.ColdSpellSwingK,
            Trials = run.Trials ?? input.Trials,
            Seed = (ulong?)run.Seed ?? input.Seed,
        };
    }

    /// <summary>Downspouts are sheet metal.</summary>
    private const double AluminiumWPerMK = 200;

    private static bool IsMetal(PipeSize pipe) => pipe.Key.Contains('x', StringComparison.Ordinal);

    private static RunDirection Direction(FilePiece p) =>
        p.RiseM > 0.5 * p.LengthM ? RunDirection.Up : p.RiseM < 0 ? RunDirection.Down : p.RiseM > 0.01 * p.LengthM ? RunDirection.SlopedBack : RunDirection.Level;

    private static FreezeResult Result(FreezeReport report, bool withDays) => new()
    {
        Conclusion = report.Conclusion,
        DaysAtRisk = report.AtRisk.Days, DaysAtRiskLow = report.AtRisk.Low, DaysAtRiskHigh = report.AtRisk.High,
        Winters = report.AtRisk.Winters, WinterMadeUp = report.AtRisk.MadeUp,
        OutdoorM = report.Input.Run.LengthM,
        CableWPerFt = report.Cable?.ChosenWPerFt, CableLengthM = report.Cable?.LengthM, CableKWhPerWinter = report.Cable?.KWhPerWinter, CableDollarsPerWinter = report.Cable?.DollarsPerWinter,
        InsulationR = report.Insulation is { Enough: true } insulation ? insulation.UsR : null,
        BypassNeeded = report.Bypass.Needed, BypassReason = report.Bypass.Reason, CondensateKgPerDay = report.Bypass.ToFanKgPerDay,
        DaysUntilHalfClosed = report.ColdSpell.DaysUntilHalfClosed, DaysUntilShut = report.ColdSpell.DaysUntilShut,
        ManometerOpenPa = report.Input.System?.OpenGaugePa, ColdSpell = Days(report.ColdSpell), Winter = withDays ? Days(report.Winter) : null,
        Assumptions = report.Assumptions, Warnings = report.Warnings, Cautions = report.Cautions, Sources = report.Sources,
    };

    private static List<FreezeDay> Days(IceSeason season) =>
        [.. season.Days.Select(d => new FreezeDay(d.Day, d.MinC, d.MaxC, d.ThickestIceM, d.NarrowestOpenShare, d.DrainedKg, d.FrostKg, d.GaugePa))];
}
