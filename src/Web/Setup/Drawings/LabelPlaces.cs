namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>Keeps labels of a drawing off each other, in the letters of a wide screen and in the larger ones a phone needs.</summary>
internal sealed class LabelPlaces
{
    public const double Small = 10;
    public const double Large = 18;
    private const double LetterWidth = 0.58;
    private readonly List<Box> _taken = [];
    private readonly List<((double X, double Y) From, (double X, double Y) To)> _lines = [];

    private readonly record struct Box(double Left, double Top, double Right, double Bottom)
    {
        public bool Meets(Box other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

        /// <summary>Whether a straight line runs through the box (Liang and Barsky's clipping, from memory).</summary>
        public bool Meets((double X, double Y) from, (double X, double Y) to)
        {
            var (enter, leave) = (0.0, 1.0);
            return Clip(to.X - from.X, Left - from.X, Right - from.X, ref enter, ref leave) && Clip(to.Y - from.Y, Top - from.Y, Bottom - from.Y, ref enter, ref leave);
        }

        private static bool Clip(double step, double low, double high, ref double enter, ref double leave)
        {
            if (step == 0) return low <= 0 && high >= 0;
            var (first, second) = step > 0 ? (low / step, high / step) : (high / step, low / step);
            (enter, leave) = (Math.Max(enter, first), Math.Min(leave, second));
            return enter <= leave;
        }
    }

    public static double WidthOf(string text, double size) => text.Length * LetterWidth * size;

    public void Take(double x, double y, double radius) => _taken.Add(new(x - radius, y - radius, x + radius, y + radius));

    /// <summary>Lines that no label may cross.</summary>
    public void Block(IReadOnlyList<(double X, double Y)> points)
    {
        for (var i = 1; i < points.Count; i++) _lines.Add((points[i - 1], points[i]));
    }

    /// <summary>The first of the places that is free in large letters, else in small ones (then a phone leaves the label out).</summary>
    public (int Place, bool Minor)? Find(string text, IReadOnlyList<(double X, double Y, string Anchor, double Degrees)> places, Func<double, int, bool>? fits = null, bool largeOnly = false)
    {
        foreach (var size in largeOnly ? (double[])[Large] : [Large, Small])
            for (var i = 0; i < places.Count; i++)
            {
                var box = BoxOf(text, size, places[i]);
                if (_taken.Exists(t => t.Meets(box)) || _lines.Exists(l => box.Meets(l.From, l.To)) || fits?.Invoke(WidthOf(text, size), i) == false) continue;
                _taken.Add(box);
                return (i, size == Small);
            }
        return null;
    }

    private static Box BoxOf(string text, double size, (double X, double Y, string Anchor, double Degrees) at)
    {
        var width = WidthOf(text, size);
        var middle = at.X + (at.Anchor switch { "start" => width / 2, "end" => -width / 2, _ => 0 });
        var (sine, cosine) = Math.SinCos(at.Degrees * Math.PI / 180);
        var (half, tall) = ((Math.Abs(cosine) * width + Math.Abs(sine) * size) / 2, (Math.Abs(sine) * width + Math.Abs(cosine) * size) / 2);
        return new(middle - half, at.Y - tall, middle + half, at.Y + tall);
    }
}
