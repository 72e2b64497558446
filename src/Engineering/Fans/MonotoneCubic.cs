namespace MitigationOffice.Engineering.Fans;

/// <summary>Cubic through points that falls where they fall and rises where they rise (Fritsch and Carlson 1980). Cost of a look-up: logarithm of the points.</summary>
internal sealed class MonotoneCubic
{
    private readonly double[] _x, _y, _slope;

    internal MonotoneCubic(double[] x, double[] y)
    {
        (_x, _y) = (x, y);
        _slope = Slopes(x, y);
    }

    /// <summary>Value and slope; beyond the ends a straight line.</summary>
    internal (double Value, double Slope) At(double x)
    {
        var last = _x.Length - 1;
        if (x <= _x[0]) return (_y[0] + _slope[0] * (x - _x[0]), _slope[0]);
        if (x >= _x[last]) return (_y[last] + _slope[last] * (x - _x[last]), _slope[last]);
        return Between(Interval(x), x);
    }

    private int Interval(double x)
    {
        var (low, high) = (0, _x.Length - 1);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (_x[middle] <= x) low = middle;
            else high = middle;
        }

        return low;
    }

    private (double Value, double Slope) Between(int i, double x)
    {
        var (width, rise) = (_x[i + 1] - _x[i], _y[i + 1] - _y[i]);
        var t = (x - _x[i]) / width;
        var (m0, m1) = (_slope[i] * width, _slope[i + 1] * width);
        var (c2, c3) = (3 * rise - 2 * m0 - m1, m0 + m1 - 2 * rise);
        return (_y[i] + t * (m0 + t * (c2 + t * c3)), (m0 + t * (2 * c2 + t * 3 * c3)) / width);
    }

    private static double[] Slopes(double[] x, double[] y)
    {
        var n = x.Length;
        var chord = new double[n - 1];
        for (var i = 0; i < n - 1; i++) chord[i] = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
        var slope = new double[n];
        (slope[0], slope[^1]) = (chord[0], chord[^1]);
        for (var i = 1; i < n - 1; i++) slope[i] = chord[i - 1] * chord[i] <= 0 ? 0 : Harmonic(chord[i - 1], chord[i], x[i] - x[i - 1], x[i + 1] - x[i]);
        for (var i = 0; i < n - 1; i++) Limit(slope, chord, i);
        return slope;
    }

    private static double Harmonic(double before, double after, double widthBefore, double widthAfter)
    {
        var (w1, w2) = (2 * widthAfter + widthBefore, widthAfter + 2 * widthBefore);
        return (w1 + w2) / (w1 / before + w2 / after);
    }

    private static void Limit(double[] slope, double[] chord, int i)
    {
        if (chord[i] == 0)
        {
            (slope[i], slope[i + 1]) = (0, 0);
            return;
        }

        var (a, b) = (slope[i] / chord[i], slope[i + 1] / chord[i]);
        var length = a * a + b * b;
        if (length <= 9) return;
        var scale = 3 / Math.Sqrt(length);
        (slope[i], slope[i + 1]) = (scale * a * chord[i], scale * b * chord[i]);
    }
}
