namespace MitigationOffice.Engineering.Slab;

/// <summary>A face between two cells: how open it is, and how many footings (weighted by their slant) cross it.</summary>
internal readonly record struct CellFace(int A, int B, double Open, double Footings);

/// <summary>
/// The plan cut into square cells; cells at the walls keep only the part inside. Cells are numbered across the plan's
/// shorter side, which keeps neighbours' numbers close together (the band of the equations narrow).
/// </summary>
internal sealed class SlabGrid
{
    private const double LeastShareOfCell = 1e-3;
    private const double LeastSlant = 0.2;
    private readonly SlabPlan plan;
    private readonly double left;
    private readonly double low;
    private readonly int across;
    private readonly int up;
    private readonly int[] numberAt;
    private readonly List<int> owner = [];

    public SlabGrid(SlabPlan plan)
    {
        plan.Check();
        this.plan = plan;
        Size = plan.GridM;
        var corners = plan.Areas.SelectMany(area => area.Corners).ToList();
        (left, low) = (corners.Min(corner => corner.XM), corners.Min(corner => corner.YM));
        across = Math.Max(1, (int)Math.Ceiling((corners.Max(corner => corner.XM) - left) / Size - 1e-9));
        up = Math.Max(1, (int)Math.Ceiling((corners.Max(corner => corner.YM) - low) / Size - 1e-9));
        numberAt = new int[across * up];
        Array.Fill(numberAt, -1);
        NumberCells();
        Faces = JoinCells();
        Band = Faces.Count == 0 ? 1 : Faces.Max(face => Math.Abs(face.A - face.B));
    }

    public double Size { get; }
    public List<PlanPoint> Centres { get; } = [];
    public List<double> AreaM2 { get; } = [];
    public List<CellFace> Faces { get; }
    public int Count => Centres.Count;
    public int Band { get; }
    public bool HasFootings => Faces.Exists(face => face.Footings > 0);

    public int NumberAt(int column, int row) =>
        column < 0 || row < 0 || column >= across || row >= up ? -1 : numberAt[row * across + column];

    public int CellOf(PlanPoint place) =>
        NumberAt((int)Math.Floor((place.XM - left) / Size), (int)Math.Floor((place.YM - low) / Size));

    public bool Holds(PlanPoint place)
    {
        for (var area = 0; area < plan.Areas.Count; area++)
            if (Polygon.Contains(plan.Areas[area].Corners, place)) return true;
        return false;
    }

    /// <summary>
    /// Spreads a place over the four cells around it, so that their mean place is the place itself; where a wall or a
    /// footing parts them, only the cells on its own side are used.
    /// </summary>
    public CellSpread Spread(PlanPoint place)
    {
        var (x, y) = ((place.XM - left) / Size - 0.5, (place.YM - low) / Size - 0.5);
        var (column, row) = ((int)Math.Floor(x), (int)Math.Floor(y));
        var (dx, dy) = (x - column, y - row);
        var home = CellOf(place);
        if (home < 0) home = Nearest(place);
        Span<int> cells = [NumberAt(column, row), NumberAt(column + 1, row), NumberAt(column, row + 1), NumberAt(column + 1, row + 1)];
        Span<double> weights = [(1 - dx) * (1 - dy), dx * (1 - dy), (1 - dx) * dy, dx * dy];
        return CellSpread.Of(cells, weights, home, cell => cell >= 0 && SameSide(place, Centres[cell], cell, home));
    }

    private int Nearest(PlanPoint place)
    {
        var best = 0;
        for (var cell = 1; cell < Count; cell++)
            if (Centres[cell].DistanceM(place) < Centres[best].DistanceM(place)) best = cell;
        return best;
    }

    private bool SameSide(PlanPoint place, PlanPoint centre, int cell, int home) =>
        owner[cell] == owner[home] && !plan.Footings.Any(footing => Crosses(footing, place, centre));

    private void NumberCells()
    {
        var (work, next) = (new List<PlanPoint>(), new List<PlanPoint>());
        for (var outer = 0; outer < Math.Max(across, up); outer++)
            for (var inner = 0; inner < Math.Min(across, up); inner++)
            {
                var (column, row) = across <= up ? (inner, outer) : (outer, inner);
                NumberCell(column, row, work, next);
            }
    }

    private void NumberCell(int column, int row, List<PlanPoint> work, List<PlanPoint> next)
    {
        var (total, largest, whose) = (0.0, 0.0, -1);
        for (var area = 0; area < plan.Areas.Count; area++)
        {
            var inside = Polygon.AreaInside(plan.Areas[area].Corners, left + column * Size, low + row * Size, Size, work, next);
            total += inside;
            if (inside > largest) (largest, whose) = (inside, area);
        }
        if (total < LeastShareOfCell * Size * Size) return;
        numberAt[row * across + column] = Count;
        Centres.Add(new PlanPoint(left + (column + 0.5) * Size, low + (row + 0.5) * Size));
        AreaM2.Add(Math.Min(total, Size * Size));
        owner.Add(whose);
    }

    private List<CellFace> JoinCells()
    {
        var faces = new List<CellFace>(2 * Count);
        var crossings = new List<double>();
        for (var row = 0; row < up; row++)
            for (var column = 0; column < across; column++)
            {
                var cell = NumberAt(column, row);
                if (cell < 0) continue;
                var (x, y) = (left + (column + 1) * Size, low + (row + 1) * Size);
                Join(faces, cell, NumberAt(column + 1, row), true, x, y - Size, crossings);
                Join(faces, cell, NumberAt(column, row + 1), false, y, x - Size, crossings);
            }
        return faces;
    }

    private void Join(List<CellFace> faces, int a, int b, bool upright, double at, double from, List<double> crossings)
    {
        if (b < 0) return;
        var length = 0.0;
        foreach (var area in plan.Areas) length += Polygon.LengthInside(area.Corners, upright, at, from, from + Size, crossings);
        if (length <= 0) return;
        faces.Add(new CellFace(a, b, Math.Min(1, length / Size), FootingsBetween(a, b, upright)));
    }

    // A slanting footing crosses more faces than its length; weighting each by its slant keeps the whole right.
    private double FootingsBetween(int a, int b, bool upright)
    {
        var crossed = 0.0;
        foreach (var footing in plan.Footings)
        {
            if (!Crosses(footing, Centres[a], Centres[b])) continue;
            var (dx, dy) = (footing.To.XM - footing.From.XM, footing.To.YM - footing.From.YM);
            var slant = Math.Abs(upright ? dy : dx) / Math.Sqrt(dx * dx + dy * dy);
            crossed += 1 / Math.Max(slant, LeastSlant);
        }
        return crossed == 0 && owner[a] != owner[b] ? 1 : crossed;
    }

    private static bool Crosses(FootingLine footing, PlanPoint a, PlanPoint b) =>
        Left(footing.From, footing.To, a) != Left(footing.From, footing.To, b)
        && Left(a, b, footing.From) != Left(a, b, footing.To);

    private static bool Left(PlanPoint from, PlanPoint to, PlanPoint place) =>
        (to.XM - from.XM) * (place.YM - from.YM) - (to.YM - from.YM) * (place.XM - from.XM) >= 0;
}
