namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>An upright rectangle.</summary>
public readonly record struct Frame(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;
    public double Bottom => Y + Height;
    public Spot Centre => new(X + Width / 2, Y + Height / 2);

    public Frame Grown(double by) => new(X - by, Y - by, Width + 2 * by, Height + 2 * by);

    public bool Contains(Spot spot) => spot.X >= X && spot.X <= Right && spot.Y >= Y && spot.Y <= Bottom;

    public bool Within(Frame outer) => X >= outer.X && Y >= outer.Y && Right <= outer.Right && Bottom <= outer.Bottom;

    public bool Meets(Frame other) => X < other.Right && other.X < Right && Y < other.Bottom && other.Y < Bottom;

    public bool Meets(Spot from, Spot to) => Cut(from, to) is not null;

    /// <summary>The part of a line inside this frame, as shares of its length; null where it passes by.</summary>
    public (double Enters, double Leaves)? Cut(Spot from, Spot to)
    {
        var (enters, leaves) = (0.0, 1.0);
        foreach (var (start, step, least, most) in new[] { (from.X, to.X - from.X, X, Right), (from.Y, to.Y - from.Y, Y, Bottom) })
        {
            if (step == 0)
            {
                if (start < least || start > most) return null;
                continue;
            }

            var (a, b) = ((least - start) / step, (most - start) / step);
            enters = Math.Max(enters, Math.Min(a, b));
            leaves = Math.Min(leaves, Math.Max(a, b));
        }

        return enters <= leaves ? (enters, leaves) : null;
    }
}
