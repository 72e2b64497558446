using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Service;

/// <summary>What a house owner is written about a recalled fan, in a message or on paper.</summary>
public static class RecallLetter
{
    public static string Words(FanRecall recall, RecallList.Row row, CompanyProfile company) => string.Join("\n\n", Paragraphs(recall, row, company).Prepend($"Hello {(row.For.Length > 0 ? row.For : "house owner")},"));

    private static IEnumerable<string> Paragraphs(FanRecall recall, RecallList.Row row, CompanyProfile company)
    {
        yield return $"The fan of your radon system at {row.House}, {row.City} (model {recall.Model}{(row.Serial.Length > 0 ? $", serial {row.Serial}" : "")}, tag {row.Tag}, fitted {HouseTime.Show(row.FittedOn)}) is called back by its maker.";
        yield return recall.Reason;
        yield return $"Until we have been there: {recall.Advice}";
        yield return "Do not open the fan, the pipe or the wiring, and do not climb. While a fan stands still the radon comes back within hours; air the rooms you live in.";
        yield return $"We call you for a day. Or call us: {(company.Phone.Length > 0 ? company.Phone : company.Email)}.";
    }

    public static byte[] Paper(FanRecall recall, RecallList.Row row, CompanyProfile company, DateTime nowUtc) => Documents.Paper.Make(
        new PaperHead($"Your radon fan, {row.House}", company.Name, nowUtc)
        {
            Boxes = [new("House", $"{row.House}, {row.City}", 2), new("For", row.For, 1.4), new("Paper", "About your radon fan", 1.2), new("Date", HouseTime.Show(HouseTime.DayOf(nowUtc, HouseTime.Zone(company.TimeZone))), 1)],
        },
        paper =>
        {
            paper.Title("About the fan of your radon system");
            paper.Text(string.Join('\n', new[] { row.For, row.MailingAddress.Length > 0 ? row.MailingAddress : $"{row.House}\n{row.City}, {row.State} {row.Zip}" }.Where(l => l.Length > 0)));
            foreach (var words in Paragraphs(recall, row, company)) paper.Text(char.ToUpperInvariant(words[0]) + words[1..]);
            paper.Text(company.Name);
        });
}
