namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>Keeps labels of a drawing off each other, in the letters of a wide screen and in the larger ones a phone needs.</summary>
internal sealed class LabelPlaces
{
    public const double Small = 10;
    public const double Large = 18;
    private const double LetterWidth = 0.58;
    private readonly List<Box> _taken = [];

    private readonly record struct Box(double Left, double Top, double Right, double Bottom)
    {
        public bool Meets(Box other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;
    }

    public static double WidthOf(string text, double size) => text.Length * LetterWidth * size;

    public void Take(double x, double y, double radius) => _taken.Add(new(x - radius, y - radius, x + radius, y + radius));

    /// <summary>The first of the places that is free in large letters, else in small ones (then a phone leaves the label out).</summary>
    public (int Place, bool Minor)? Find(string text, IReadOnlyList<(double X, double Y, string Anchor, double Degrees)> places, Func<double, int, bool>? fits = null)
    {
        foreach (var size in (double[])[Large, Small])
            for (var i = 0; i < places.Count; i++)
            {
                var box = BoxOf(text, size, places[i]);
                if (_taken.Exists(t => t.Meets(box)) || fits?.Invoke(WidthOf(text, size), i) == false) continue;
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
