using System.Globalization;
using System.Text;
using PdfSharp.Drawing;

namespace MitigationOffice.Business.Documents;

/// <summary>A face at a size, measuring and wrapping text for it. A character without a shape becomes a hollow square.</summary>
public sealed class PaperType
{
    public const char NoShape = '\u25A1';
    private readonly Dictionary<Rune, double> _widths = [];

    /// <summary>Widths of the characters a keyboard has, 0 where not asked for yet: a long list measures a million of them.</summary>
    private readonly double[] _plain = new double[127];
    private readonly XGraphics _measure;

    public PaperType(PaperFace face, double sizePt, XGraphics measure)
    {
        Face = face;
        Font = PaperFonts.Make(face, sizePt);
        _measure = measure;
        LineHeight = sizePt * 1.32;
        Ascent = sizePt * 1.0;
    }

    public PaperFace Face { get; }
    public XFont Font { get; }
    public double LineHeight { get; }
    public double Ascent { get; }

    /// <summary>How many characters had no shape in this face so far.</summary>
    public int Missing { get; private set; }

    public double Width(string text)
    {
        var width = 0.0;
        foreach (var rune in text.EnumerateRunes()) width += Width(rune);
        return width;
    }

    /// <summary>The text as lines no wider than the given width; a word longer than a line is cut.</summary>
    public List<string> Wrap(string? text, double width)
    {
        if (text is { Length: > 0 } && Fits(text, width)) return [text];
        var lines = new List<string>();
        foreach (var paragraph in Printable(text).Split('\n')) WrapParagraph(paragraph, width, lines);
        while (lines.Count > 1 && lines[^1].Length == 0) lines.RemoveAt(lines.Count - 1);
        return lines;
    }

    private void WrapParagraph(string paragraph, double width, List<string> lines)
    {
        var (line, used) = (new StringBuilder(), 0.0);
        var space = Width(new Rune(' '));
        foreach (var piece in paragraph.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Cut(w, width)))
        {
            var wide = Width(piece);
            if (line.Length > 0 && used + space + wide > width)
            {
                lines.Add(line.ToString());
                (line, used) = (new StringBuilder(), 0);
            }

            if (line.Length > 0) (_, used) = (line.Append(' '), used + space);
            line.Append(piece);
            used += wide;
        }

        lines.Add(line.ToString());
    }

    private List<string> Cut(string word, double width)
    {
        if (Width(word) <= width) return [word];
        var (pieces, piece, used) = (new List<string>(), new StringBuilder(), 0.0);
        foreach (var rune in word.EnumerateRunes())
        {
            if (piece.Length > 0 && used + Width(rune) > width)
            {
                pieces.Add(piece.ToString());
                (piece, used) = (new StringBuilder(), 0);
            }

            piece.Append(rune);
            used += Width(rune);
        }

        pieces.Add(piece.ToString());
        return pieces;
    }

    private double Width(Rune rune)
    {
        if (rune.Value < _plain.Length && _plain[rune.Value] is > 0 and var plain) return plain;
        if (_widths.TryGetValue(rune, out var known)) return known;
        var width = _widths[rune] = _measure.MeasureString(rune.ToString(), Font).Width;
        if (rune.Value < _plain.Length && PaperFonts.Has(Face, rune.Value)) _plain[rune.Value] = width;
        return width;
    }

    /// <summary>Whether the text is one line as it stands: plain characters, single spaces between words, no wider than that.</summary>
    private bool Fits(string text, double width)
    {
        var (used, last) = (0.0, ' ');
        foreach (var c in text)
        {
            if (c < ' ' || c >= _plain.Length || (c == ' ' && last == ' ')) return false;
            var wide = Width(new Rune(c));
            if (_plain[c] == 0) return false;
            (used, last) = (used + wide, c);
        }

        return last != ' ' && used <= width;
    }

    /// <summary>Composed, without control and direction-changing characters, shapes that are missing shown as hollow squares.</summary>
    private string Printable(string? text)
    {
        var clean = new StringBuilder();
        foreach (var rune in Composed(text).EnumerateRunes())
        {
            if (rune.Value is '\n' or ' ') clean.Append(rune);
            else if (rune.Value is '\t' or 0xA0 or 0x202F or 0x2009) clean.Append(' ');
            else if (Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate || rune.Value is >= 0xFE00 and <= 0xFE0F) continue;
            else if (PaperFonts.Has(Face, rune.Value)) clean.Append(rune);
            else (_, Missing) = (clean.Append(NoShape), Missing + 1);
        }

        return clean.ToString();
    }

    private static string Composed(string? text)
    {
        var lines = (text ?? "").ReplaceLineEndings("\n");
        var whole = new string([.. lines.EnumerateRunes().SelectMany(r => r.ToString())]);
        return whole.Normalize(NormalizationForm.FormC);
    }
}
