using BenchmarkDotNet.Attributes;
using MitigationOffice.Engineering.Freezing;

namespace MitigationOffice.Benchmarks.Freezing;

/// <summary>A winter of daily steps in a run of 5 m and one of 20 m, with and without repeated trials.</summary>
[MemoryDiagnoser]
public class FreezeBenchmarks
{
    private FreezeInput input = null!;

    [Params(5, 20)]
    public double LengthM { get; set; }

    [GlobalSetup]
    public void Prepare() => input = new FreezeInput
    {
        Run = new OutdoorRun { BoreM = 0.10226, WallM = 0.00602, FlowM3PerS = 0.0104, Pieces = [new RunPiece { LengthM = LengthM }] },
        DesignC = -24,
        JanuaryMeanC = -9,
        Trials = 0,
    };

    [Benchmark(Baseline = true)]
    public double WinterWithoutTrials() => FreezeForecast.Compute(input).AtRisk.Days;

    [Benchmark]
    public double WinterWithSixtyTrials() => FreezeForecast.Compute(input with { Trials = 60 }).AtRisk.High;
}
