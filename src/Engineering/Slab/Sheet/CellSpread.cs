namespace MitigationOffice.Engineering.Slab;

/// <summary>A place spread over up to four cells, with weights that add to one.</summary>
internal readonly record struct CellSpread(int C0, int C1, int C2, int C3, double W0, double W1, double W2, double W3, bool Whole)
{
    // Potential kernel of the square lattice: 0 at itself, 1/4 at a neighbour, 1/π across the corner; far away it becomes
    // (ln n + γ + 3/2 ln 2)/2π.
    private const double Neighbour = 0.25;
    private const double Corner = 1 / Math.PI;
    private const double FarConstant = 0.57721566490153286 + 1.0397207708399179;

    public static CellSpread Of(ReadOnlySpan<int> cells, ReadOnlySpan<double> weights, int home, Func<int, bool> allowed)
    {
        Span<double> kept = stackalloc double[4];
        var total = 0.0;
        for (var at = 0; at < 4; at++)
        {
            kept[at] = weights[at] > 0 && allowed(cells[at]) ? weights[at] : 0;
            total += kept[at];
        }
        if (total <= 0) return new CellSpread(home, home, home, home, 1, 0, 0, 0, false);
        Span<int> used = stackalloc int[4];
        for (var at = 0; at < 4; at++) used[at] = kept[at] > 0 ? cells[at] : home;
        return new CellSpread(used[0], used[1], used[2], used[3], kept[0] / total, kept[1] / total, kept[2] / total, kept[3] / total, total > 1 - 1e-9);
    }

    public static CellSpread Single(int cell) => new(cell, cell, cell, cell, 1, 0, 0, 0, true);

    public double Read(ReadOnlySpan<double> field) => W0 * field[C0] + W1 * field[C1] + W2 * field[C2] + W3 * field[C3];

    /// <summary>Reads between cells along a straight line in the logarithm, which fits a field that falls by a share per metre.</summary>
    public double ReadLog(ReadOnlySpan<double> field) =>
        Math.Exp(W0 * Log(field[C0]) + W1 * Log(field[C1]) + W2 * Log(field[C2]) + W3 * Log(field[C3]));

    public void Put(Span<double> field)
    {
        field[C0] += W0;
        field[C1] += W1;
        field[C2] += W2;
        field[C3] += W3;
    }

    /// <summary>
    /// Radius at which the sheet has the spread cells' mean pressure, in cells. One cell: e^−γ/(2√2) = 0.1985 (Peaceman's 0.2).
    /// </summary>
    public double EquivalentRadius()
    {
        var pairs = 2 * Neighbour * (W0 * W1 + W2 * W3 + W0 * W2 + W1 * W3) + 2 * Corner * (W0 * W3 + W1 * W2);
        return Math.Exp(2 * Math.PI * pairs - FarConstant);
    }

    private static double Log(double value) => Math.Log(Math.Max(value, 1e-30));
}
