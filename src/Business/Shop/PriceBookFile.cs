using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Business.Shop;

/// <summary>The price book as a file: out, and in again all or nothing. Items are known by their code.</summary>
public static class PriceBookFile
{
    public static readonly string[] Columns =
        ["code", "name", "kind", "use", "unit", "cost", "rule", "markup_percent", "fixed_price", "labour_minutes", "taxable", "reason", "retired"];

    public static string Write(IEnumerable<PriceItem> items) => Csv.Write(Columns, items.Select(i => (IReadOnlyList<string>)
    [
        i.Code, i.Name, i.Kind.ToString().ToLowerInvariant(), i.Use.ToString().ToLowerInvariant(), i.Unit, Plain(i.Cost), i.Rule.ToString().ToLowerInvariant(),
        Plain(i.MarkupPercent), Plain(i.FixedPrice), Plain((decimal)i.LabourMinutes), i.Taxable ? "yes" : "no", i.Reason, i.Retired ? "yes" : "no",
    ]));

    public static (IReadOnlyList<PriceItem> Items, IReadOnlyList<string> Problems) Read(string text)
    {
        var content = Csv.Read(text, ["code", "name", "kind"], Columns);
        var problems = content.Problems.ToList();
        var items = content.Rows.Select(row => ReadRow(new RowReading(row, problems))).ToList();
        foreach (var twice in items.Where(i => i.Code.Length > 0).GroupBy(i => i.Code, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
            problems.Add($"The code {twice.Key} stands on {twice.Count()} lines.");
        return (items, problems);
    }

    private static PriceItem ReadRow(RowReading row) => new()
    {
        Code = row.Text("code", needed: true, most: 40),
        Name = row.Text("name", needed: true, most: 200),
        Kind = row.Word<PriceKind>("kind"),
        Use = row.Word<PriceUse>("use", PriceUse.Part),
        Unit = row.Text("unit", most: 20) is { Length: > 0 } unit ? unit : "each",
        Cost = row.Money("cost", Money.Zero),
        Rule = row.Word<PriceRule>("rule", PriceRule.Markup),
        MarkupPercent = row.Number("markup_percent", 0, 1000, 0),
        FixedPrice = row.Money("fixed_price", Money.Zero),
        LabourMinutes = row.Whole("labour_minutes", 0, 100_000, 0),
        Taxable = row.YesNo("taxable", false),
        Reason = row.Text("reason", most: 2000),
        Retired = row.YesNo("retired", false),
    };

    /// <summary>Puts the lines into the price book: known codes are changed, new ones added, none removed.</summary>
    public static async Task<(int Added, int Changed)> ApplyAsync(OfficeDb db, IReadOnlyList<PriceItem> items)
    {
        var known = (await db.PriceItems.ToListAsync()).ToDictionary(i => i.Code, StringComparer.OrdinalIgnoreCase);
        var (added, changed) = (0, 0);
        foreach (var item in items)
        {
            if (!known.TryGetValue(item.Code, out var kept))
            {
                db.PriceItems.Add(item);
                added++;
                continue;
            }

            kept.TakeFrom(item);
            if (db.Entry(kept).State == EntityState.Modified || db.Entry(kept).ComplexProperties.Any(c => c.IsModified)) changed++;
        }

        await db.SaveChangesAsync();
        return (added, changed);
    }
}
