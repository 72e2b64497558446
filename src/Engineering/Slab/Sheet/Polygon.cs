namespace MitigationOffice.Engineering.Slab;

/// <summary>The little plane geometry that the grid needs.</summary>
internal static class Polygon
{
    public static double SignedArea(IReadOnlyList<PlanPoint> corners)
    {
        var twice = 0.0;
        for (var at = 0; at < corners.Count; at++)
        {
            var (a, b) = (corners[at], corners[(at + 1) % corners.Count]);
            twice += a.XM * b.YM - b.XM * a.YM;
        }
        return twice / 2;
    }

    public static bool Contains(IReadOnlyList<PlanPoint> corners, PlanPoint place)
    {
        var inside = false;
        for (var at = 0; at < corners.Count; at++)
        {
            var (a, b) = (corners[at], corners[(at + 1) % corners.Count]);
            if ((a.YM > place.YM) != (b.YM > place.YM) && place.XM < a.XM + (place.YM - a.YM) / (b.YM - a.YM) * (b.XM - a.XM))
                inside = !inside;
        }
        return inside;
    }

    /// <summary>Area of a polygon inside a square cell: the polygon is cut by the cell's four sides one after another.</summary>
    public static double AreaInside(IReadOnlyList<PlanPoint> corners, double left, double low, double size, List<PlanPoint> work, List<PlanPoint> next)
    {
        work.Clear();
        work.AddRange(corners);
        for (var side = 0; side < 4 && work.Count > 0; side++)
        {
            Cut(work, next, side, left, low, size);
            (work, next) = (next, work);
        }
        return Math.Abs(SignedArea(work));
    }

    /// <summary>
    /// Length of the part of an axis-parallel line between two ends that lies inside the polygon. The line is moved aside
    /// by a hair so that an edge of the polygon never lies on it.
    /// </summary>
    public static double LengthInside(IReadOnlyList<PlanPoint> corners, bool upright, double at, double from, double to, List<double> crossings)
    {
        const double hair = 1e-7;
        crossings.Clear();
        for (var corner = 0; corner < corners.Count; corner++)
        {
            var (a, b) = Along(corners[corner], corners[(corner + 1) % corners.Count], upright);
            if ((a.XM > at + hair) == (b.XM > at + hair)) continue;
            crossings.Add(a.YM + (at + hair - a.XM) / (b.XM - a.XM) * (b.YM - a.YM));
        }
        crossings.Sort();
        var length = 0.0;
        for (var pair = 0; pair + 1 < crossings.Count; pair += 2)
            length += Math.Max(0, Math.Min(to, crossings[pair + 1]) - Math.Max(from, crossings[pair]));
        return length;
    }

    private static (PlanPoint A, PlanPoint B) Along(PlanPoint a, PlanPoint b, bool upright) =>
        upright ? (a, b) : (new PlanPoint(a.YM, a.XM), new PlanPoint(b.YM, b.XM));

    private static void Cut(List<PlanPoint> work, List<PlanPoint> kept, int side, double left, double low, double size)
    {
        kept.Clear();
        for (var at = 0; at < work.Count; at++)
        {
            var (a, b) = (work[at], work[(at + 1) % work.Count]);
            var (insideA, insideB) = (Depth(a, side, left, low, size), Depth(b, side, left, low, size));
            if (insideA >= 0) kept.Add(a);
            if (insideA >= 0 == insideB >= 0) continue;
            var share = insideA / (insideA - insideB);
            kept.Add(new PlanPoint(a.XM + share * (b.XM - a.XM), a.YM + share * (b.YM - a.YM)));
        }
    }

    private static double Depth(PlanPoint place, int side, double left, double low, double size) => side switch
    {
        0 => place.XM - left,
        1 => left + size - place.XM,
        2 => place.YM - low,
        _ => low + size - place.YM,
    };
}
