using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;
using PdfSharp.Drawing;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The letters of one run as one file, each on a sheet of its own, the address where a window envelope shows it.</summary>
public static class LettersPaper
{
    /// <summary>A US Letter sheet folded in three for an envelope whose window is 7/8 in from the left and 1/2 in from the foot:
    /// the address lies from 2.1 to 3.0 in below the top. Common practice, no source.</summary>
    private const double AddressLeftPt = 0.95 * 72, AddressTopPt = 2.1 * 72, TextTopPt = 3.5 * 72;

    private const double InsetPt = 0.8 * 72;

    public static byte[] Make(CompanyProfile company, IReadOnlyList<LetterToPost> letters, DateOnly day, DateTime madeAtUtc) => Paper.Make(
        new PaperHead($"Letters of {HouseTime.Show(day)}", company.Name, madeAtUtc) { Frame = false, Size = new PaperSize(612, 792, 0, InsetPt), TextSize = 11 },
        paper =>
        {
            for (var i = 0; i < letters.Count; i++)
            {
                if (i > 0) paper.NewSheet();
                var letter = letters[i];
                paper.Drawing($"From {company.Name} to {string.Join(", ", letter.Address)}, {HouseTime.Show(day)}", TextTopPt - InsetPt, (page, at) => Head(page, at, company, letter, day));
                paper.Text(letter.Subject, PaperFace.Strong);
                foreach (var paragraph in letter.Text.ReplaceLineEndings("\n").Split("\n\n", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
                {
                    paper.Gap(letter.Heads.Contains(paragraph) ? 10 : 4);
                    paper.Text(paragraph, letter.Heads.Contains(paragraph) ? PaperFace.Strong : PaperFace.Regular);
                }
            }
        });

    private static void Head(XGraphics page, XRect at, CompanyProfile company, LetterToPost letter, DateOnly day)
    {
        string[] from = [company.Name, company.Street, $"{company.City}, {company.State} {company.Zip}".Trim(' ', ','), company.Phone];
        Lines(page, from.Where(l => l.Length > 0), 9.5, at.X, at.Y, 260, Paper.Soft, most: 5);
        Lines(page, letter.Address, 11, AddressLeftPt, AddressTopPt, 4.2 * 72, Paper.Ink, most: 5);
        var right = at.Right - 150;
        Lines(page, [HouseTime.Show(day)], 10, right, AddressTopPt + 52, 150, Paper.Ink, most: 1);
        if (letter.Page.Length == 0) return;
        Paper.DrawCode(page, letter.Page, new XRect(right, at.Y - 6, 76, 76));
        Lines(page, ["Your own page:", "point a phone here"], 9, right, at.Y + 72, 150, Paper.Soft, most: 2);
    }

    internal static void Lines(XGraphics page, IEnumerable<string> lines, double sizePt, double x, double y, double width, XColor color, int most)
    {
        var type = new PaperType(PaperFace.Regular, sizePt, page);
        foreach (var line in lines.SelectMany(l => type.Wrap(l, width)).Take(most))
        {
            page.DrawString(line, type.Font, new XSolidBrush(color), x, y + type.Ascent);
            y += type.LineHeight;
        }
    }
}
