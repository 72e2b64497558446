namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>A point of a drawing, in its own units, y downwards.</summary>
public readonly record struct Spot(double X, double Y);

/// <summary>What a line stands for; the renderers choose its look.</summary>
public enum Stroke
{
    Wall,
    Thin,
    Pipe,
    Measure,
    Hatch,
    Warn,
}

public enum Anchor
{
    Start,
    Middle,
    End,
}

public enum Tone
{
    Plain,
    Soft,
    Warn,
}

/// <summary>One thing drawn. <paramref name="Of"/> names what it belongs to: a label may touch the lines of its own thing only.</summary>
public abstract record Shape(string Of);

/// <summary>A line through corners; closed it is a figure, filled it covers what lies behind it with paper.</summary>
public sealed record Trace(string Of, Stroke Stroke, IReadOnlyList<Spot> Corners, bool Closed = false, bool Filled = false) : Shape(Of)
{
    public IEnumerable<(Spot From, Spot To)> Segments()
    {
        for (var i = 1; i < Corners.Count; i++) yield return (Corners[i - 1], Corners[i]);
        if (Closed && Corners.Count > 2) yield return (Corners[^1], Corners[0]);
    }
}

public sealed record Ring(string Of, Stroke Stroke, Spot Centre, double Radius, bool Filled = false) : Shape(Of);

/// <summary>Many short lines of one look, such as hatching.</summary>
public sealed record Strokes(string Of, Stroke Stroke, IReadOnlyList<(Spot From, Spot To)> Lines) : Shape(Of);

public sealed record Label(string Of, string Text, Spot At, Anchor Anchor, Tone Tone) : Shape(Of)
{
    public double Size => Tone == Tone.Soft ? 12 : 13;

    /// <summary>Room the words take, in any usual font.</summary>
    public Frame Frame
    {
        get
        {
            var width = LetterWidths.Of(Text) * Size;
            var left = Anchor switch { Anchor.Start => At.X, Anchor.End => At.X - width, _ => At.X - width / 2 };
            return new Frame(left, At.Y - Size * 0.85, width, Size * 1.1);
        }
    }
}

/// <summary>A finished drawing with its words for those who cannot see it.</summary>
public sealed record Picture(double Width, double Height, string Title, string Description, IReadOnlyList<Shape> Shapes);

public static class StrokeWidths
{
    public static double Of(Stroke stroke) => stroke switch
    {
        Stroke.Wall => 2,
        Stroke.Pipe => 7,
        Stroke.Warn => 2,
        _ => 1,
    };
}
