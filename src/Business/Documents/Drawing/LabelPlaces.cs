namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>Finds room for words among the lines already drawn. What finds none goes to the notes under the drawing.</summary>
public sealed class LabelPlaces(double width, double height)
{
    private const double Clear = 2;
    private readonly List<(string Of, Spot From, Spot To, double HalfWidth)> _lines = [];
    private readonly List<Label> _placed = [];

    public IReadOnlyList<Label> Placed => _placed;

    public void Avoid(Shape shape)
    {
        switch (shape)
        {
            case Trace trace:
                foreach (var (from, to) in trace.Segments()) _lines.Add((shape.Of, from, to, StrokeWidths.Of(trace.Stroke) / 2));
                break;
            case Ring ring:
                // A ring is kept clear of as its whole disc: a level line through the middle, as thick as the ring is high.
                _lines.Add((shape.Of, ring.Centre, ring.Centre, ring.Radius + StrokeWidths.Of(ring.Stroke) / 2));
                break;
        }
    }

    /// <summary>Puts a block of lines at the first place that is free; false where none is.</summary>
    public bool Place(string of, IReadOnlyList<(string Text, Tone Tone)> words, IEnumerable<(Spot At, Anchor Anchor)> places)
    {
        foreach (var (at, anchor) in places)
        {
            var block = Block(of, words, at, anchor);
            if (!block.TrueForAll(IsFree)) continue;
            _placed.AddRange(block);
            return true;
        }

        return false;
    }

    /// <summary>Where words about a spot may stand, nearest first: right, left, above, below, then further away.</summary>
    public static IEnumerable<(Spot At, Anchor Anchor)> Around(Spot spot, double away, params ReadOnlySpan<Anchor> anchors)
    {
        var order = anchors.Length == 0 ? [Anchor.Start, Anchor.End, Anchor.Middle] : anchors.ToArray();
        return order.SelectMany(anchor => Offsets.Select(dy => (Beside(spot, away, dy, anchor), anchor)));
    }

    private static readonly double[] Offsets = [4, -12, 20, -28, 36, -44, 52, -60, 68];

    private static Spot Beside(Spot spot, double away, double dy, Anchor anchor) => anchor switch
    {
        Anchor.Start => new(spot.X + away, spot.Y + dy),
        Anchor.End => new(spot.X - away, spot.Y + dy),
        _ => new(spot.X, spot.Y + (dy < 0 ? dy - away : dy + away)),
    };

    private static List<Label> Block(string of, IReadOnlyList<(string Text, Tone Tone)> words, Spot at, Anchor anchor) =>
        [.. words.Select((line, i) => new Label(of, line.Text, at with { Y = at.Y + i * 16 }, anchor, line.Tone))];

    private bool IsFree(Label label)
    {
        var frame = label.Frame;
        return frame.Within(new Frame(2, 2, width - 4, height - 4))
            && !_placed.Exists(other => other.Frame.Grown(Clear).Meets(frame))
            && !_lines.Exists(line => line.Of != label.Of && frame.Grown(Clear + line.HalfWidth).Meets(line.From, line.To));
    }
}
