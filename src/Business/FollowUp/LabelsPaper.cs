using MitigationOffice.Business.Documents;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Addresses on sheets of labels, beginning at the first label that is still on the sheet.</summary>
public static class LabelsPaper
{
    private const double InsetIn = 0.1;

    public static byte[] Make(LabelSheet sheet, IReadOnlyList<IReadOnlyList<string>> addresses, int firstLabel, string author, DateTime madeAtUtc)
    {
        var size = new PaperSize(sheet.PageIn[0] * 72, sheet.PageIn[1] * 72, 0, 0);
        return Paper.Make(new PaperHead("Address labels", author, madeAtUtc) { Frame = false, Size = size }, paper =>
        {
            var places = addresses.Select((lines, i) => (Lines: lines, At: firstLabel - 1 + i)).GroupBy(p => p.At / sheet.Count).ToList();
            foreach (var page in places)
            {
                if (page != places[0]) paper.NewSheet();
                var words = string.Join("; ", page.Select(p => string.Join(", ", p.Lines)));
                paper.Drawing(words, size.Height, (drawn, _) =>
                {
                    foreach (var (lines, at) in page)
                    {
                        var (x, y) = sheet.Place(at % sheet.Count);
                        var room = (sheet.LabelIn[1] - 2 * InsetIn) * 72;
                        var sizePt = lines.Count > 4 || sheet.LabelIn[0] < 3 ? 8.5 : 10;
                        LettersPaper.Lines(drawn, lines, sizePt, (x + InsetIn) * 72, (y + InsetIn) * 72, (sheet.LabelIn[0] - 2 * InsetIn) * 72, Paper.Ink, (int)(room / (sizePt * 1.25)));
                    }
                });
            }
        });
    }
}
