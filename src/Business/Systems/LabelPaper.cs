using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;

namespace MitigationOffice.Business.Systems;

/// <summary>The label that goes on the pipe beside the gauge: what ANSI/AARST SGM-SF 2017, 8.4.2.1 lists for a house lived in
/// by its owner, the tag, and a code that leads to the system's own page. One page; the larger sizes can be read from three feet.
/// The pipe mark names the pipe on the other floors it passes (EPA 402-R-93-078, 16.4, from memory).</summary>
public static class LabelPaper
{
    private const double Most = 1.8, Least = 0.6, Step = 0.04;
    private const string LookAtIt = "Scan: your system's own page";

    public static byte[] Make(SystemPaper s, LabelSize size = LabelSize.FourBySix)
    {
        var form = Fitting(s, LabelForm.Of(size));
        return Paper.Make(Head(s, form), Writing(s, form));
    }

    /// <summary>The form with the largest type that leaves it on one sheet.</summary>
    private static LabelForm Fitting(SystemPaper s, LabelForm form)
    {
        for (var larger = Most; larger > Least; larger -= Step)
        {
            foreach (var code in new[] { Math.Max(1, larger), 1 })
            {
                var tried = form with { TextSize = form.TextSize * larger, CodeInches = form.CodeInches * code };
                if (Paper.SheetsOf(Head(s, tried), Writing(s, tried)) == 1) return tried;
            }
        }

        return form with { TextSize = form.TextSize * Least };
    }

    private static PaperHead Head(SystemPaper s, LabelForm form) => new($"Label, tag {s.TagNumber}", s.Company, s.MadeAtUtc) { Size = form.Paper, TextSize = form.TextSize };

    private static Action<Paper> Writing(SystemPaper s, LabelForm form) => p =>
    {
        if (form.Whole) Whole(p, s, form);
        else Mark(p, s, form);
    };

    private static void Whole(Paper paper, SystemPaper s, LabelForm form)
    {
        var labels = form.TextSize * 6.6;
        paper.Title("Radon reduction system");
        paper.Facts([("Installed", $"{HouseTime.Show(s.CompletedOn)} · tag {s.TagNumber}")], labels);
        paper.Rule();
        paper.SubHeading($"The gauge read {s.StartUpReading} at the start");
        paper.Text("Read the difference between its two columns. About that difference: the fan is drawing.");
        if (s.LeftRunning)
            paper.Caution("No difference, or clearly more or less than at the start, or the alarm sounds",
                $"Is the fan's switch on, and its breaker? If so, call {s.Company}{(s.Phone.Length == 0 ? "" : ", " + s.Phone)}. Do not open the pipe or the fan.");
        else paper.Caution("Switched off on purpose", $"The check for fumes drawn back into the house was not passed. Do not switch the fan on before {s.Company} has been back{(s.Phone.Length == 0 ? "" : ": " + s.Phone)}.");
        paper.Text($"{(s.LeftRunning ? "Do not switch the fan off. " : "")}Test the house for radon at least every {s.TestEvery}, and whenever it is sold or rebuilt.", PaperFace.Strong);
        paper.Rule();
        if (s.OwnPage.Length == 0) paper.Facts(Who(s), labels);
        else paper.CodeBeside(s.OwnPage, LookAtIt, form.CodeInches * 72, [LookAtIt, .. Who(s).Select(w => $"{w.Label}: {w.Words}")]);
    }

    private static void Mark(Paper paper, SystemPaper s, LabelForm form)
    {
        paper.Title("Radon pipe");
        List<string> lines = ["Part of a radon system. Do not cut, open or block it.", $"Tag {s.TagNumber}", s.Company, s.Phone];
        if (s.OwnPage.Length == 0) paper.Text(string.Join('\n', lines.Where(l => l.Length > 0)));
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
