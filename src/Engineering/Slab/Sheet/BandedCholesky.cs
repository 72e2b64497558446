using System.Numerics;

namespace MitigationOffice.Engineering.Slab;

/// <summary>
/// Factor of a symmetric positive definite matrix whose entries lie near the diagonal. Factoring N equations with band b
/// takes about N·b²/2 multiplications, a solution 2·N·b; neither allocates.
/// </summary>
internal sealed class BandedCholesky(int count, int band)
{
    private readonly int width = band + 1;
    private readonly double[] rows = new double[count * (band + 1)];
    private readonly double[] inverseDiagonal = new double[count];

    public void Clear() => Array.Clear(rows);

    public void Add(int row, int column, double value)
    {
        if (column <= row) rows[row * width + column - row + band] += value;
    }

    public void Factor()
    {
        for (var row = 0; row < count; row++)
        {
            var start = Math.Max(0, row - band);
            var mine = rows.AsSpan(row * width, width);
            for (var column = start; column < row; column++)
            {
                var first = Math.Max(start, column - band);
                var length = column - first;
                var theirs = rows.AsSpan(column * width + first - column + band, length);
                ref var entry = ref mine[column - row + band];
                entry = (entry - Dot(mine.Slice(first - row + band, length), theirs)) * inverseDiagonal[column];
            }
            var own = mine.Slice(start - row + band, row - start);
            inverseDiagonal[row] = 1 / Math.Sqrt(mine[band] - Dot(own, own));
        }
    }

    /// <summary>Solves in place; entries before <paramref name="firstNonZero"/> are known to be zero.</summary>
    public void Solve(Span<double> values, int firstNonZero = 0)
    {
        for (var row = firstNonZero; row < count; row++)
        {
            var start = Math.Max(firstNonZero, row - band);
            var length = row - start;
            var sum = Dot(rows.AsSpan(row * width + start - row + band, length), values.Slice(start, length));
            values[row] = (values[row] - sum) * inverseDiagonal[row];
        }
        for (var row = count - 1; row >= 0; row--)
        {
            var start = Math.Max(0, row - band);
            var value = values[row] * inverseDiagonal[row];
            values[row] = value;
            Subtract(values[start..row], rows.AsSpan(row * width + start - row + band, row - start), value);
        }
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var lanes = Vector<double>.Count;
        var (even, odd) = (Vector<double>.Zero, Vector<double>.Zero);
        var at = 0;
        for (; at + 2 * lanes <= a.Length; at += 2 * lanes)
        {
            even += new Vector<double>(a[at..]) * new Vector<double>(b[at..]);
            odd += new Vector<double>(a[(at + lanes)..]) * new Vector<double>(b[(at + lanes)..]);
        }
        var sum = Vector.Sum(even + odd);
        for (; at < a.Length; at++) sum += a[at] * b[at];
        return sum;
    }

    private static void Subtract(Span<double> target, ReadOnlySpan<double> row, double factor)
    {
        var lanes = Vector<double>.Count;
        var at = 0;
        for (; at + lanes <= row.Length; at += lanes)
            (new Vector<double>(target[at..]) - new Vector<double>(row[at..]) * factor).CopyTo(target[at..]);
        for (; at < row.Length; at++) target[at] -= row[at] * factor;
    }
}
