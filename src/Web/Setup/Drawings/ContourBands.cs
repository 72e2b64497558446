using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>A closed line of equal vacuum, with the stretches that run along a wall marked.</summary>
internal sealed record ContourLoop(IReadOnlyList<(PlanPoint At, bool OnWall)> Points);

/// <summary>Draws lines of equal vacuum through a map's cells: around the cells beyond a level, each point moved to where
/// between the two cells the level is met.</summary>
internal sealed class ContourBands
{
    private const double TinyPa = 1e-6;
    private static readonly (int Across, int Up)[] Sides = [(0, -1), (1, 0), (0, 1), (-1, 0)];
    private readonly Dictionary<(int Column, int Row), double> _vacuum = [];
    private readonly CoverageMap _map;
    private readonly double _left;
    private readonly double _low;

    public ContourBands(CoverageMap map)
    {
        _map = map;
        (_left, _low) = (map.Cells.Min(c => c.Centre.XM), map.Cells.Min(c => c.Centre.YM));
        foreach (var cell in map.Cells) _vacuum[(Index(cell.Centre.XM - _left), Index(cell.Centre.YM - _low))] = cell.VacuumPa;
    }

    /// <summary>Levels worth a line: half the target, the target, and multiples of it that the map reaches.</summary>
    public static IReadOnlyList<double> Levels(double targetPa, double mostPa) =>
        [.. new[] { 0.5, 1, 2, 5, 20, 100 }.Select(times => times * targetPa).Where(level => level <= mostPa || level <= targetPa)];

    public IReadOnlyList<ContourLoop> Around(double level)
    {
        var next = new Dictionary<(int, int), Queue<((int, int) To, (PlanPoint At, bool OnWall) Point)>>();
        foreach (var (cell, vacuum) in _vacuum)
        {
            if (vacuum < level) continue;
            for (var side = 0; side < 4; side++)
                if (Beyond(cell, side) is not { } value || value < level) AddEdge(next, cell, side, level);
        }

        var loops = new List<ContourLoop>();
        foreach (var start in next.Keys)
            while (next[start].Count > 0) loops.Add(Follow(next, start));
        return loops;
    }

    private static ContourLoop Follow(Dictionary<(int, int), Queue<((int, int) To, (PlanPoint At, bool OnWall) Point)>> next, (int, int) start)
    {
        var points = new List<(PlanPoint, bool)>();
        for (var at = start; next[at].TryDequeue(out var edge);)
        {
            points.Add(edge.Point);
            at = edge.To;
            if (at == start) break;
        }

        return new(points);
    }

    private void AddEdge(Dictionary<(int, int), Queue<((int, int), (PlanPoint, bool))>> next, (int Column, int Row) cell, int side, double level)
    {
        var (column, row) = cell;
        var (from, to) = side switch
        {
            0 => ((column, row), (column + 1, row)),
            1 => ((column + 1, row), (column + 1, row + 1)),
            2 => ((column + 1, row + 1), (column, row + 1)),
            _ => ((column, row + 1), (column, row)),
        };
        if (!next.TryGetValue(from, out var edges)) next[from] = edges = new();
        if (!next.ContainsKey(to)) next[to] = new();
        var beyond = Beyond(cell, side);
        var share = beyond is { } outer ? Share(_vacuum[cell], outer, level) : 1;
        var place = new PlanPoint(_left + (column + share * Sides[side].Across) * _map.GridM, _low + (row + share * Sides[side].Up) * _map.GridM);
        edges.Enqueue((to, (place, beyond is null)));
    }

    private static double Share(double inside, double outside, double level) =>
        Math.Clamp(Math.Log(inside / level) / Math.Log(inside / Math.Max(TinyPa, outside)), 0.02, 0.98);

    private double? Beyond((int Column, int Row) cell, int side) =>
        _vacuum.TryGetValue((cell.Column + Sides[side].Across, cell.Row + Sides[side].Up), out var value) ? value : null;

    private int Index(double metres) => (int)Math.Round(metres / _map.GridM, MidpointRounding.AwayFromZero);
}
