using BenchmarkDotNet.Attributes;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Benchmarks.Sizing;

/// <summary>A whole sizing report: fans of a catalogue on a route of twelve pieces with six test holes.</summary>
[MemoryDiagnoser]
public class RankingBenchmarks
{
    private SizingInput input = null!;

    [Params(100, 200)]
    public int Fans { get; set; }

    [GlobalSetup]
    public void Prepare() => input = new(
        new(200, -22, 21, 9, 2.5, 1, 14, 4000, 0.85, 1.2, 0.5),
        new([new("shop vacuum", 250, 0.02), new("shop vacuum, half open", 140, 0.013)], [.. Enumerable.Range(0, 6).Select(i => new PfeHole($"{i}", null, 0.2, [-40.0 / (i + 1), -22.0 / (i + 1)]))], -5, 21),
        Route(), [.. Enumerable.Range(0, Fans).Select(Fan)]);

    [Benchmark]
    public int? Rank() => SystemSizing.Compute(input).RecommendedFanId;

    private static RoutePiece[] Route()
    {
        var size = PipeSize.Of("3in");
        RoutePiece[] indoors = [new(PieceKind.Pipe, size, 2, RiseM: 2), new(PieceKind.Elbow90, size), new(PieceKind.Pipe, size, 4), new(PieceKind.Elbow45, size, Count: 2), new(PieceKind.Coupling, size, Count: 3)];
        return [.. indoors, .. indoors, new(PieceKind.Fan, size), new(PieceKind.Pipe, size, 5, Outdoors: true, RiseM: 5)];
    }

    private static CandidateFan Fan(int i)
    {
        var (pa, flow, watts) = (100 + 6.0 * i, 0.04 + 0.0003 * i, 10 + 0.4 * i);
        return new(i, $"fan {i}", new(Enumerable.Range(0, 8).Select(k => new FanPoint(flow * k / 7, pa * (1.01 - Math.Pow(k / 7.0, 1.8)), watts * (0.8 + 0.03 * k)))), 150 + i);
    }
}
