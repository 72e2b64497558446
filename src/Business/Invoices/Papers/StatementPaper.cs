using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Invoices.Papers;

/// <summary>One customer's account as a paper, on a day. Pure; made when asked for and not kept.</summary>
public static class StatementPaper
{
    public static byte[] Make(HouseAccount account, string house, CompanyProfile company, DateOnly day, DateTime atUtc) =>
        Paper.Make(Head(account, house, company, day, atUtc), p => Write(p, account, company, day));

    private static PaperHead Head(HouseAccount account, string house, CompanyProfile company, DateOnly day, DateTime atUtc) => new($"Statement, {house}", company.Name, atUtc)
    {
        Boxes = [new("House", house, 2.3), new("For", account.Customer, 1.6), new("Paper", "Statement", 1.15), new("Date", HouseTime.Show(day), 0.95)],
    };

    private static void Write(Paper p, HouseAccount account, CompanyProfile company, DateOnly day)
    {
        var age = account.Age;
        p.Title("Statement");
        p.Text($"What was charged and paid up to {HouseTime.Show(day)}.");
        p.Table(
            [new("Day", 1.05), new("What", 3.2), new("Charged", 1, Right: true), new("Paid", 1, Right: true), new("Owed after it", 1.1, Right: true)],
            account.Lines.Select(l => new PaperRow(HouseTime.Show(l.Day), l.Words + (l.DueOn is { } due ? $", due {HouseTime.Show(due)}" : ""), $"{l.Charged}", $"{l.Paid}", $"{l.Balance}")));
        if (age.Credit > Money.Zero) p.Note($"Your credit: {age.Credit}", "Paid beyond what was charged. Ask us and we pay it back, or it is taken off the next invoice.");
        else if (age.Open > Money.Zero) p.Note($"Owed: {age.Open}", $"{(age.PastDue > Money.Zero ? $"{age.PastDue} of it is past due. " : "")}By check to {company.Name}, or as agreed with us. Questions: {company.Phone}.");
        else p.Note("Nothing is owed", "Thank you.");
    }
}
