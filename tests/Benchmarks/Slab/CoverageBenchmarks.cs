using BenchmarkDotNet.Attributes;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Benchmarks.Slab;

/// <summary>Fit, map and search on a plan of 100 m² and one of 400 m², at 0.25 m.</summary>
[MemoryDiagnoser]
public class CoverageBenchmarks
{
    private CoverageInput input = null!;
    private SlabCoverage fitted = null!;

    [Params(10, 20)]
    public double SideM { get; set; }

    [GlobalSetup]
    public void Prepare()
    {
        input = SampleSlab.Input(SideM);
        fitted = SlabCoverage.Compute(input);
    }

    [Benchmark]
    public double FitAndMap() => SlabCoverage.Compute(input).Map.ShareBeyondTarget;

    [Benchmark]
    public double WhatIf() => fitted.WhatIf(SampleSlab.Pit(SideM * 0.8, SideM * 0.8)).ShareBeyondTarget;

    [Benchmark]
    public double BestSecondPoint() => fitted.BestSecondPoint(250)!.Map.ShareBeyondTarget;
}
