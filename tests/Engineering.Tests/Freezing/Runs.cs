using CsCheck;
using MitigationOffice.Engineering.Freezing;

namespace MitigationOffice.Engineering.Tests.Freezing;

/// <summary>Invented outdoor runs that the tests share.</summary>
internal static class Runs
{
    public const double M3PerSPerCfm = 4.719474e-4;

    public static OutdoorRun FourInch(double lengthM, double cfm) => new()
    {
        BoreM = 0.1022604,
        WallM = 0.0060198,
        FlowM3PerS = cfm * M3PerSPerCfm,
        Pieces = [new RunPiece { LengthM = lengthM }],
    };

    public static StreamAssumptions SoilGasOnly(double groundC) => new() { HouseAirShare = 0, GroundC = groundC, SkyShare = 0 };

    public static StreamAssumptions Dry(double celsius) =>
        new() { HouseAirShare = 1, HouseC = celsius, HouseHumidityPercent = 0, SkyShare = 0 };

    public static FreezeInput Input(OutdoorRun run, double designC = -22, double januaryC = -8) =>
        new() { Run = run, DesignC = designC, JanuaryMeanC = januaryC, Trials = 0 };

    public static SuctionSystem System => new()
    {
        Curve = [new(0, 400), new(0.005, 380), new(0.012, 330), new(0.03, 100)],
        OpenGaugePa = 280,
    };

    public static readonly Gen<OutdoorRun> AnyRun =
        from bore in Gen.Double[0.05, 0.16]
        from cfm in Gen.Double[4, 120]
        from length in Gen.Double[0.5, 12]
        from insulation in Gen.Double[0, 0.04]
        from elevation in Gen.Double[0, 2500]
        select new OutdoorRun
        {
            BoreM = bore,
            WallM = 0.005,
            FlowM3PerS = cfm * M3PerSPerCfm,
            ElevationM = elevation,
            Pieces = [new RunPiece { LengthM = length, InsulationM = insulation }, new RunPiece { LengthM = 0.6 }],
        };

    public static readonly Gen<StreamAssumptions> AnyAir =
        from ground in Gen.Double[4, 16]
        from share in Gen.Double[0, 1]
        from humidity in Gen.Double[10, 70]
        from wind in Gen.Double[0, 10]
        from sky in Gen.Double[0, 0.5]
        from fog in Gen.Double[0, 1]
        select new StreamAssumptions
        {
            GroundC = ground,
            HouseAirShare = share,
            HouseHumidityPercent = humidity,
            WindMPerS = wind,
            SkyShare = sky,
            FogCaughtShare = fog,
        };
}
