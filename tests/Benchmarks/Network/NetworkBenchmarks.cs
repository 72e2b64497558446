using BenchmarkDotNet.Attributes;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Tests.Network;

namespace MitigationOffice.Benchmarks.Network;

/// <summary>One balance of the reference trees, from a cold start, without and with the report.</summary>
[MemoryDiagnoser]
public class NetworkBenchmarks
{
    private AirNetwork network = null!;
    private FanCurve fan = null!;

    [Params("two points, unequal", "three points, one on the way", "eight points, twice forked")]
    public string Tree { get; set; } = "";

    [GlobalSetup]
    public void Prepare()
    {
        var tree = ReferenceTrees.All.Single(t => t.Name == Tree);
        (network, fan) = (tree.Network(), tree.Curve());
    }

    [Benchmark(Baseline = true)]
    public double Balance() => network.SolveFlowM3PerS(fan);

    [Benchmark]
    public double BalanceAndReport() => network.Solve(fan).FlowM3PerS;
}
