using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Asks the engine what ice does to a design's outdoor run.</summary>
public static class ForeseeFreezing
{
    /// <summary>The forecast, or why there is none.</summary>
    public static (FreezeResult? Result, string? WhyNone) Of(DesignFile file, double flowM3PerS, double fanWatts)
    {
        var pieces = file.Route.Where(p => p is { Place: PiecePlace.Outdoors, Kind: PieceKind.Pipe, LengthM: > 0 }).ToList();
        if (pieces.Count == 0) return (null, "No pipe of the route is outdoors.");
        var pipe = PipeSize.Of(pieces[0].Size);
        try
        {
            return (Result(FreezeForecast.Compute(Input(file, pieces, pipe, flowM3PerS, fanWatts))), null);
        }
        catch (ArgumentOutOfRangeException e)
        {
            return (null, $"The freeze forecast does not reach this case. {e.Message.Split(" (Parameter", 2)[0]}");
        }
    }

    private static FreezeInput Input(DesignFile file, List<FilePiece> pieces, PipeSize pipe, double flow, double watts)
    {
        var route = file.Route.ToList();
        var fanAt = route.FindIndex(p => p.Kind == PieceKind.Fan);
        var fanFirst = fanAt < route.IndexOf(pieces[^1]);
        return new FreezeInput
        {
            Run = new OutdoorRun
            {
                BoreM = pipe.HydraulicDiameterM, WallM = pipe.WallM, WallWPerMK = IsMetal(pipe) ? AluminiumWPerMK : PipeWall.PvcConductivityWPerMK, FlowM3PerS = flow, ElevationM = file.Site.ElevationM, FanStandsBeforeRun = fanFirst, FanBeforeRunW = fanFirst ? watts : 0,
                Pieces = [.. pieces.Select(p => new RunPiece { LengthM = p.LengthM * p.Count, Direction = Direction(p) })],
            },
            Assumptions = new StreamAssumptions { GroundC = file.Site.MeanAnnualC, HouseAirShare = file.Prices.IndoorAirShare, HouseC = Math.Clamp(file.Site.IndoorC - 3, 0, 35) },
            DesignC = file.Site.DesignWinterC, JanuaryMeanC = file.Site.JanuaryMeanC, WinterDays = file.Site.WinterDays,
            DollarsPerKWh = file.Prices.ElectricityCentsPerKWh / 100,
        };
    }

    /// <summary>Downspouts are sheet metal.</summary>
    private const double AluminiumWPerMK = 200;

    private static bool IsMetal(PipeSize pipe) => pipe.Key.Contains('x', StringComparison.Ordinal);

    private static RunDirection Direction(FilePiece p) =>
        p.RiseM > 0.5 * p.LengthM ? RunDirection.Up : p.RiseM < 0 ? RunDirection.Down : p.RiseM > 0.01 * p.LengthM ? RunDirection.SlopedBack : RunDirection.Level;

    private static FreezeResult Result(FreezeReport report) => new()
    {
        Conclusion = report.Conclusion,
        DaysAtRisk = report.AtRisk.Days, DaysAtRiskLow = report.AtRisk.Low, DaysAtRiskHigh = report.AtRisk.High,
        OutdoorM = report.Input.Run.LengthM,
        CableWPerFt = report.Cable?.ChosenWPerFt, CableLengthM = report.Cable?.LengthM, CableDollarsPerWinter = report.Cable?.DollarsPerWinter,
        InsulationR = report.Insulation is { Enough: true } insulation ? insulation.UsR : null,
        BypassNeeded = report.Bypass.Needed, BypassReason = report.Bypass.Reason, CondensateKgPerDay = report.Bypass.ToFanKgPerDay,
        DaysUntilHalfClosed = report.ColdSpell.DaysUntilHalfClosed, DaysUntilShut = report.ColdSpell.DaysUntilShut,
        Assumptions = report.Assumptions, Warnings = report.Warnings, Cautions = report.Cautions, Sources = report.Sources,
    };
}
