using BenchmarkDotNet.Attributes;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Benchmarks.Sizing;

/// <summary>What one change in the route editor asks of the engine: forty fans on a tree of five suction points with nine holes each; and the
/// system's curve for the chart. Limits with five points on one core of a common machine, so that the server's 100 ms are kept: report 20 ms, curve 5 ms.</summary>
[MemoryDiagnoser]
public class SeveralPointsBenchmarks
{
    private SizingInput input = null!;
    private SizingReport sized = null!;

    [Params(1, 5, 12)]
    public int Points { get; set; }

    [GlobalSetup]
    public void Prepare()
    {
        input = new(new(200, -22, 21, 9, 2.5, 1, 14, 4000, 0.85, 1.2, 0.5), Test(0), Line(fan: true), [.. Enumerable.Range(0, 40).Select(Fan)])
        {
            FurtherPoints = [.. Enumerable.Range(1, Points - 1).Select(i => new FurtherPoint($"point {i}", Test(i), Line(fan: false), 1 + i % 4, i > 3 ? $"point {i - 3}" : null))],
        };
        sized = SystemSizing.Compute(input);
    }

    [Benchmark]
    public int? Report() => SystemSizing.Compute(input).RecommendedFanId;

    [Benchmark]
    public double Curve() => SystemSizing.Curve(input, sized, 0.1, 40)[^1].PressurePa;

    private static PfeTest Test(int pit) => new(
        [new("shop vacuum", 250, 0.014), new("shop vacuum, half open", 140, 0.0095)],
        [.. Enumerable.Range(0, 9).Select(i => new PfeHole($"{i}", null, 0.2, [-60.0 / (1 + Math.Abs(i - 2 * pit)), -33.0 / (1 + Math.Abs(i - 2 * pit))]))], -5, 21);

    private static RoutePiece[] Line(bool fan)
    {
        var size = PipeSize.Of(fan ? "4in" : "3in");
        RoutePiece[] indoors = [new(PieceKind.Pipe, size, 2, RiseM: 2), new(PieceKind.Elbow90, size), new(PieceKind.Pipe, size, 4), new(PieceKind.Tee, size)];
        return fan ? [.. indoors, new(PieceKind.Fan, size), new(PieceKind.Pipe, size, 5, Outdoors: true, RiseM: 5)] : indoors;
    }

    private static CandidateFan Fan(int i)
    {
        var (pa, flow, watts) = (150 + 14.0 * i, 0.05 + 0.0009 * i, 12 + 1.2 * i);
        return new(i, $"fan {i}", new(Enumerable.Range(0, 8).Select(k => new FanPoint(flow * k / 7, pa * (1.01 - Math.Pow(k / 7.0, 1.8)), watts * (0.8 + 0.03 * k)))), 150 + i);
    }
}
