namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>Where a label may stand: its anchor's place and its slant.</summary>
internal readonly record struct LabelPlace(double X, double Y, string Anchor = "middle", double Degrees = 0);

/// <summary>Keeps labels of one size off each other and off the drawing's lines.</summary>
internal sealed class LabelPlaces(double size)
{
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

    public void Take(double x, double y, double radius) => _taken.Add(new(x - radius, y - radius, x + radius, y + radius));

    /// <summary>Lines that no label may cross.</summary>
    public void Block(IReadOnlyList<(double X, double Y)> points)
    {
        for (var i = 1; i < points.Count; i++) _lines.Add((points[i - 1], points[i]));
    }

    /// <summary>The first of the places that is free; it is taken from then on.</summary>
    public int? Find(string text, IReadOnlyList<LabelPlace> places, Func<double, int, bool>? fits = null)
    {
        for (var i = 0; i < places.Count; i++)
        {
            var box = BoxOf(text, places[i]);
            if (_taken.Exists(t => t.Meets(box)) || _lines.Exists(l => box.Meets(l.From, l.To)) || fits?.Invoke(WidthOf(text), i) == false) continue;
            _taken.Add(box);
            return i;
        }

        return null;
    }

    private double WidthOf(string text) => text.Length * LetterWidth * size;

    private Box BoxOf(string text, LabelPlace at)
    {
        var width = WidthOf(text);
        var middle = at.X + (at.Anchor switch { "start" => width / 2, "end" => -width / 2, _ => 0 });
        var (sine, cosine) = Math.SinCos(at.Degrees * Math.PI / 180);
        var (half, tall) = ((Math.Abs(cosine) * width + Math.Abs(sine) * size) / 2, (Math.Abs(sine) * width + Math.Abs(cosine) * size) / 2);
        return new(middle - half, at.Y - tall, middle + half, at.Y + tall);
    }
}
