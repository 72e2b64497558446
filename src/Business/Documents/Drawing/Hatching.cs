namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>Slanted lines over a region, leaving given frames blank.</summary>
public static class Hatching
{
    public static IReadOnlyList<(Spot From, Spot To)> Lines(Frame region, IReadOnlyList<Frame> spared, double step = 9)
    {
        var lines = new List<(Spot, Spot)>();
        for (var sum = Math.Ceiling((region.X + region.Y) / step) * step; sum < region.Right + region.Bottom; sum += step)
        {
            var from = sum - region.Y <= region.Right ? new Spot(sum - region.Y, region.Y) : new Spot(region.Right, sum - region.Right);
            var to = sum - region.X <= region.Bottom ? new Spot(region.X, sum - region.X) : new Spot(sum - region.Bottom, region.Bottom);
            lines.AddRange(Around(from, to, spared));
        }

        return lines;
    }

    private static IEnumerable<(Spot From, Spot To)> Around(Spot from, Spot to, IReadOnlyList<Frame> spared)
    {
        var cuts = spared.Select(f => f.Cut(from, to)).OfType<(double Enters, double Leaves)>().OrderBy(c => c.Enters);
        var done = 0.0;
        foreach (var (enters, leaves) in cuts)
        {
            if (enters > done) yield return (At(done), At(enters));
            done = Math.Max(done, leaves);
        }

        if (done < 1) yield return (At(done), to);

        Spot At(double share) => new(from.X + (to.X - from.X) * share, from.Y + (to.Y - from.Y) * share);
    }
}
