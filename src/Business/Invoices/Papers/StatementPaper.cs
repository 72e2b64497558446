using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Invoices.Papers;

/// <summary>One customer's account as a letter of the company, on a day. Pure; made when asked for and not kept.</summary>
public static class StatementPaper
{
    /// <param name="to">The customer's name and, below it, where letters go.</param>
    public static byte[] Make(HouseAccount account, string to, string house, CompanyProfile company, DateOnly day, DateTime atUtc) =>
        Paper.Make(Head(account, house, company, day, atUtc), p => Write(p, account, to, company, day));

    private static PaperHead Head(HouseAccount account, string house, CompanyProfile company, DateOnly day, DateTime atUtc) => new($"Statement, {house}", company.Name, atUtc)
    {
        Boxes = [new("House", house, 2.3), new("For", account.Customer, 1.6), new("Paper", "Statement", 1.15), new("Date", HouseTime.Show(day), 0.95)],
    };

    private static void Write(Paper p, HouseAccount account, string to, CompanyProfile company, DateOnly day)
    {
        var age = account.Age;
        p.Title("Statement");
        p.Facts(Parties(to, company));
        p.Text($"What was charged and paid up to {HouseTime.Show(day)}.");
        p.Table(
            [new("Day", 1.05), new("What", 3.2), new("Charged", 1, Right: true), new("Paid", 1, Right: true), new("Owed after it", 1.1, Right: true)],
            account.Lines.Select(l => new PaperRow(HouseTime.Show(l.Day), l.Words + (l.DueOn is { } due ? $", due {HouseTime.Show(due)}" : ""), $"{l.Charged}", $"{l.Paid}", $"{l.Balance}")));
        if (age.Open > Money.Zero)
            p.Table(
                [new("Not due yet", 1, Right: true), new("1–30 days past due", 1, Right: true), new("31–60 days", 1, Right: true), new("61–90 days", 1, Right: true), new("Over 90 days", 1, Right: true)],
                [new PaperRow($"{age.NotYet}", $"{age.To30}", $"{age.To60}", $"{age.To90}", $"{age.Over90}")]);
        if (age.Credit > Money.Zero) p.Note($"Your credit: {age.Credit}", "Paid beyond what was charged. Ask us and we pay it back, or it is taken off the next invoice.");
        else if (age.Open > Money.Zero) p.Note($"Owed: {age.Open}", $"{(age.PastDue > Money.Zero ? $"{age.PastDue} of it is past due. " : "")}By check to {company.Name}, {Place(company)}, or as agreed with us. Questions: {Reach(company)}.");
        else p.Note("Nothing is owed", "Thank you.");
    }

    private static IEnumerable<(string, string)> Parties(string to, CompanyProfile company)
    {
        yield return ("To", to);
        yield return ("From", $"{company.Name}, {Place(company)}");
        yield return ("Phone, e-mail", Reach(company));
        if (company.CertificationNumber.Length > 0) yield return ("Certification number", company.CertificationNumber);
    }

    internal static string Place(CompanyProfile c) => $"{c.Street}, {c.City}, {c.State} {c.Zip}".Trim(' ', ',');

    internal static string Reach(CompanyProfile c) => string.Join(", ", new[] { c.Phone, c.Email }.Where(s => s.Length > 0));
}
