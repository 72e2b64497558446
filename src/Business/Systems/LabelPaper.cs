using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;

namespace MitigationOffice.Business.Systems;

/// <summary>The label that goes on the pipe beside the gauge: what ANSI/AARST SGM-SF 2017, 8.4.2.1 lists for a house lived in
/// by its owner, the tag, and a code that leads to the system's own page. One page; the larger sizes can be read from three feet.
/// The pipe mark names the pipe on the other floors it passes (EPA 402-R-93-078, 16.4, from memory).</summary>
public static class LabelPaper
{
    private const string LookAtIt = "Scan: your system's own page";

    public static byte[] Make(SystemPaper s, LabelSize size = LabelSize.FourBySix)
    {
        var form = LabelForm.Of(size);
        var head = new PaperHead($"Label, tag {s.TagNumber}", s.Company, s.MadeAtUtc) { Size = form.Paper, TextSize = form.TextSize };
        return Paper.Make(head, paper => (form.Whole ? (Action<Paper>)(p => Whole(p, s, form)) : p => Mark(p, s, form))(paper));
    }

    private static void Whole(Paper paper, SystemPaper s, LabelForm form)
    {
        var labels = form.TextSize * 6.6;
        paper.Title("Radon reduction system");
        paper.Facts([("Installed", $"{HouseTime.Show(s.CompletedOn)} · tag {s.TagNumber}")], labels);
        paper.Rule();
        paper.SubHeading($"The gauge read {s.StartUpReading} at the start");
        paper.Text("Read the difference between its two columns. About that difference: the fan is drawing.");
        paper.Caution("No difference, or clearly more or less than at the start, or the alarm sounds",
            $"Is the fan's switch on, and its breaker? If so, call {s.Company}{(s.Phone.Length == 0 ? "" : ", " + s.Phone)}. Do not open the pipe or the fan.");
        paper.Text($"Do not switch the fan off. Test the house for radon at least every {s.TestEvery}, and whenever it is sold or rebuilt.", PaperFace.Strong);
        paper.Rule();
        if (s.OwnPage.Length == 0) paper.Facts(Who(s), labels);
        else paper.CodeBeside(s.OwnPage, LookAtIt, form.CodeInches * 72, [LookAtIt, .. Who(s).Select(w => $"{w.Label}: {w.Words}")]);
    }

    private static void Mark(Paper paper, SystemPaper s, LabelForm form)
    {
        paper.Title("Radon pipe");
        paper.Text("Part of a radon system. Do not cut, open or block it.");
        List<string> lines = [$"Tag {s.TagNumber}", s.Company, s.Phone];
        if (s.OwnPage.Length == 0) paper.Text(string.Join(" · ", lines.Where(l => l.Length > 0)));
        else paper.CodeBeside(s.OwnPage, LookAtIt, form.CodeInches * 72, [.. lines.Where(l => l.Length > 0)]);
    }

    private static IEnumerable<(string Label, string Words)> Who(SystemPaper s)
    {
        yield return ("Installed by", s.Company);
        yield return ("Phone", s.Phone);
        yield return ("Certificate", s.CertificationNumber);
        yield return ("Radon help", s.Program);
    }
}
