using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports.Files;

/// <summary>What a report adds up to.</summary>
public static class ReportTotals
{
    public static IReadOnlyList<(string Words, string Value)> Of(ReportTable table, Money fee, DateOnly? dueOn)
    {
        var totals = new List<(string, string)>
        {
            ("Systems counted", Whole(table.Rows.Count(r => r.Kind is RowKind.New or RowKind.Late))),
            ("of these late from an earlier period", Whole(table.Rows.Count(r => r.Kind == RowKind.Late))),
            ("Corrections of earlier reports", Whole(table.Rows.Count(r => r.Kind == RowKind.Correction))),
            ("Withdrawn from earlier reports", Whole(table.Rows.Count(r => r.Kind == RowKind.Withdrawal))),
        };
        if (table.Profile.Fields.Any(f => f.From == "cost")) totals.Add(("Price of the systems counted, $", TypedNumbers.Plain(Cost(table))));
        if (table.Profile.Fee.Cents > 0) totals.Add(("Fee, $", TypedNumbers.Plain(fee)));
        if (table.Profile.Fee is { Cents: > 0, Deadline: var rule } && rule.DueOn(table.Period, null) is { } feeDue) totals.Add(("Fee due on", TypedNumbers.Plain(feeDue)));
        if (dueOn is { } due) totals.Add(("Due on", TypedNumbers.Plain(due)));
        return totals;
    }

    private static Money Cost(ReportTable table) => table.Rows.Where(r => r.Kind is RowKind.New or RowKind.Late)
        .Select(r => Money.FromDollars(ReportTable.Number(r.Values["cost"]) ?? 0)).Sum();

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);
}
