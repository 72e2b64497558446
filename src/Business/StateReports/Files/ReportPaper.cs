using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports.Files;

/// <summary>The report as a list on paper, with its title block and its totals. Pure: the same record gives the same bytes.</summary>
public static class ReportPaper
{
    private const int MostColumns = 13;

    /// <summary>What a list has room for, the first that a profile has; its head and its share of the width.</summary>
    private static readonly (string From, string Head, double Share, bool Right)[] Shown =
    [
        ("row_kind", "Kind", 0.85, false), ("tag", "Tag", 1, false), ("street", "House", 2.1, false), ("city", "City", 1.1, false), ("zip", "ZIP", 0.75, false), ("customer", "Owner", 1.6, false),
        ("fan_activation_date", "Fan on", 0.95, false), ("completion_date", "Complete", 0.95, false), ("system_type", "System", 1.4, false), ("pre_test_pcil", "Before, pCi/L", 0.75, true),
        ("post_test_pcil", "After, pCi/L", 0.75, true), ("cost", "Price, $", 0.85, true), ("amends", "Amends", 1.25, false),
    ];

    public static byte[] Make(ReportTable table, IReadOnlyList<(string Words, string Value)> totals, string frozenBy, DateTime frozenAtUtc, TimeZoneInfo zone) =>
        Make(table, Columns(table), totals, frozenBy, frozenAtUtc, zone);

    private static byte[] Make(ReportTable table, IReadOnlyList<(PaperColumn Head, ProfileField? Field)> columns, IReadOnlyList<(string Words, string Value)> totals, string frozenBy, DateTime frozenAtUtc, TimeZoneInfo zone)
    {
        // The paper is written twice, its cells are made once.
        var rows = table.Rows.Select((r, i) => (IReadOnlyList<string>)[.. columns.Select(c => c.Field is { } field ? table.Cell(field, r) : (i + 1).ToString(CultureInfo.InvariantCulture))]).ToList();
        return Paper.Make(Head(table, frozenAtUtc, zone), p => Write(p, table, totals, q => q.Lines([.. columns.Select(c => c.Head)], rows), frozenBy, frozenAtUtc, zone));
    }

    private static PaperHead Head(ReportTable table, DateTime atUtc, TimeZoneInfo zone) => new($"State report {table.Period.Words}", table.Head["company"], atUtc)
    {
        Size = new PaperSize(792, 612, 24, 16),
        TextSize = 8,
        Boxes =
        [
            new("Company", table.Head["company"], 1.6), new("Certification", table.Head["company_certification"], 1), new("Report", table.Profile.Name, 1.8),
            new("Period", table.Period.Words, 1.5), new("Frozen", HouseTime.Show(HouseTime.DayOf(atUtc, zone)), 0.9),
        ],
    };

    private static void Write(Paper p, ReportTable table, IReadOnlyList<(string Words, string Value)> totals, Action<Paper> list, string frozenBy, DateTime atUtc, TimeZoneInfo zone)
    {
        p.Title($"{table.Profile.Name}: {table.Period.Words}");
        p.Text(table.Profile.Citation, soft: true);
        p.Facts(totals.Select(t => (t.Words, ReportTable.Number(t.Value) is { } number ? number.ToString(t.Value.Contains('.', StringComparison.Ordinal) ? "#,##0.00" : "#,##0", CultureInfo.InvariantCulture) : t.Value)), 170);
        if (table.Rows.Count == 0) p.Note("No work", $"No system was to report in {table.Period.Words}.");
        else list(p);
        if (table.Profile.Privacy.AddressesPrivate) p.Caution("Private", $"{table.Profile.Privacy.Words} {table.Profile.Privacy.Citation}".Trim());
        foreach (var words in table.AlsoPrivate) p.Caution("Private", words);
        p.Text($"Frozen {HouseTime.Show(atUtc, zone)} by {frozenBy}. Every value stands in the CSV and XLSX files of the same report. Confirm with your state program what it wants and by when.", small: true, soft: true);
        p.SignLine(table.Head["signed_by"].Length > 0 ? $"{table.Head["signed_by"]}, date" : "Name, date");
    }

    /// <summary>The row's number, which has no field, and what the list has room for.</summary>
    private static List<(PaperColumn Head, ProfileField? Field)> Columns(ReportTable table) =>
    [
        (new PaperColumn("Row", 0.6, Right: true), null),
        .. Shown.Select(s => (new PaperColumn(s.Head, s.Share, s.Right), Field: table.Profile.Fields.FirstOrDefault(f => f.From == s.From)))
            .Where(s => s.Field is { } field && table.Rows.Any(r => table.Raw(field, r).Length > 0)).Take(MostColumns),
    ];
}
