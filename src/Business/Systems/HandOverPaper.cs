using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using PdfSharp.Drawing;

namespace MitigationOffice.Business.Systems;

/// <summary>The signed walk-through list as a paper.</summary>
public static class HandOverPaper
{
    public sealed record Facts(string House, string For, string Company, string TagNumber, DateTime AtUtc, TimeZoneInfo Zone, string By, string TypedName, InspectionAnswer Inspection, string Program, string Notes)
    {
        public IReadOnlyList<(bool Shown, string Words)> Lines { get; init; } = [];
        public IReadOnlyList<IReadOnlyList<XPoint>> Strokes { get; init; } = [];
    }

    public static string InspectionWords(InspectionAnswer answer, string program) => answer switch
    {
        InspectionAnswer.Agrees => $"The owner agrees that the state's radon program ({program}) may look at the system in the house, on a day agreed with the owner.",
        InspectionAnswer.Refuses => $"The owner does not agree to an inspection by the state's radon program ({program}).",
        _ => "An inspection by the state's radon program was not asked about.",
    };

    public static byte[] Make(Facts f) => Paper.Make(
        new PaperHead($"Handed over, {f.House}", f.Company, f.AtUtc)
        {
            Boxes = [new("House", f.House, 2), new("For", f.For, 1.4), new("Paper", "Handed over", 1.2), new("Date", HouseTime.Show(HouseTime.DayOf(f.AtUtc, f.Zone)), 1)],
        },
        paper =>
        {
            paper.Title("Your radon system was shown and handed over");
            paper.Text($"{f.House} · tag {f.TagNumber} · shown by {f.By} of {f.Company}", soft: true);
            foreach (var (shown, words) in f.Lines) paper.TickLine(shown, words, shown ? "" : "Not shown that day.");
            if (f.Notes.Length > 0) paper.Note("Noted", f.Notes);
            paper.Heading("Inspection");
            paper.Text(InspectionWords(f.Inspection, f.Program));
            paper.Heading("Signed");
            if (f.Strokes.Count > 0) paper.Drawing($"Drawn signature of {f.TypedName}", 80, (g, at) => Draw(g, at, f.Strokes));
            paper.Facts([("Name, as typed", f.TypedName), ("At", HouseTime.Show(f.AtUtc, f.Zone))]);
            paper.Text("The name was typed on the company's device in the house by the person it names. It says that the list above was gone through, and promises no radon level.", small: true, soft: true);
        });

    private static void Draw(XGraphics g, XRect at, IReadOnlyList<IReadOnlyList<XPoint>> strokes)
    {
        var (width, height) = (strokes.Max(s => s.Max(p => p.X)), strokes.Max(s => s.Max(p => p.Y)));
        var scale = Math.Min(Math.Min(at.Width, 260) / Math.Max(width, 1), at.Height / Math.Max(height, 1));
        var pen = new XPen(XColors.Black, 1.4) { LineCap = XLineCap.Round, LineJoin = XLineJoin.Round };
        foreach (var stroke in strokes.Where(s => s.Count > 1)) g.DrawLines(pen, [.. stroke.Select(p => new XPoint(at.X + p.X * scale, at.Y + p.Y * scale))]);
    }

    /// <summary>Strokes as "x,y x,y;x,y …" in whole dots; null where they are not that.</summary>
    public static IReadOnlyList<IReadOnlyList<XPoint>>? ReadStrokes(string typed)
    {
        var strokes = new List<IReadOnlyList<XPoint>>();
        foreach (var stroke in typed.Split(';', StringSplitOptions.RemoveEmptyEntries))
        {
            var points = new List<XPoint>();
            foreach (var point in stroke.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                var xy = point.Split(',');
                if (xy.Length != 2 || !int.TryParse(xy[0], NumberStyles.None, CultureInfo.InvariantCulture, out var x) || !int.TryParse(xy[1], NumberStyles.None, CultureInfo.InvariantCulture, out var y) || x > 5000 || y > 5000) return null;
                points.Add(new(x, y));
            }

            strokes.Add(points);
        }

        return strokes;
    }
}
