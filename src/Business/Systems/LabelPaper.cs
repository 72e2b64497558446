using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;

namespace MitigationOffice.Business.Systems;

/// <summary>The label that goes on the pipe beside the gauge: what ANSI/AARST SGM-SF 2017, 8.4.2.1 lists for a house lived in
/// by its owner, and the tag. One page of 4 by 6 inches, to be read from three feet.</summary>
public static class LabelPaper
{
    public static byte[] Make(SystemPaper s) => Paper.Make(
        new PaperHead($"Label, tag {s.TagNumber}", s.Company, s.MadeAtUtc) { Size = PaperSize.Inches(4, 6), TextSize = 12 },
        paper =>
        {
            paper.Title("Radon reduction system");
            paper.Facts([("Installed", HouseTime.Show(s.CompletedOn)), ("Tag", s.TagNumber)], 80);
            paper.Rule();
            paper.SubHeading($"The gauge read {s.StartUpReading} at the start");
            paper.Text("Read the difference between its two columns. About that difference: the fan is drawing.");
            paper.Caution("No difference, or clearly more or less than at the start, or the alarm sounds",
                $"Is the fan's switch on, and its breaker? If so, call {s.Company}{(s.Phone.Length == 0 ? "" : ", " + s.Phone)}. Do not open the pipe or the fan.");
            paper.Text($"Do not switch the fan off. Test the house for radon at least every {s.TestEvery}, and whenever it is sold or rebuilt.", PaperFace.Strong);
            paper.Rule();
            paper.Facts(Who(s), 80);
        });

    private static IEnumerable<(string, string)> Who(SystemPaper s)
    {
        yield return ("Installed by", s.Company);
        yield return ("Phone", s.Phone);
        yield return ("Certificate", s.CertificationNumber);
        yield return ("Radon help", s.Program);
    }
}
