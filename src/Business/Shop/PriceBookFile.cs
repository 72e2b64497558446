using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop.Offers;
using MitigationOffice.Engineering.Piping;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Business.Shop;

/// <summary>The price book as a file: out, and in again all or nothing. Items are known by their code.</summary>
public static class PriceBookFile
{
    public static readonly string[] Columns =
        ["code", "name", "kind", "use", "unit", "cost", "rule", "markup_percent", "fixed_price", "labour_minutes", "taxable", "reason", "retired",
            "taken_by", "pipe_size", "fan_model", "from_tier", "offered_for", "recommended_from", "own_rule"];

    /// <summary>How a value on record is kept that a file has no column for. The code, name and kind stand in every file.</summary>
    private static readonly (string Column, Action<PriceItem, PriceItem> Keep)[] Keep =
    [
        ("use", (to, from) => to.Use = from.Use), ("unit", (to, from) => to.Unit = from.Unit), ("cost", (to, from) => to.Cost = from.Cost),
        ("rule", (to, from) => to.Rule = from.Rule), ("markup_percent", (to, from) => to.MarkupPercent = from.MarkupPercent),
        ("fixed_price", (to, from) => to.FixedPrice = from.FixedPrice), ("labour_minutes", (to, from) => to.LabourMinutes = from.LabourMinutes),
        ("taxable", (to, from) => to.Taxable = from.Taxable), ("reason", (to, from) => to.Reason = from.Reason), ("retired", (to, from) => to.Retired = from.Retired),
        ("taken_by", (to, from) => to.TakenBy = from.TakenBy), ("pipe_size", (to, from) => to.PipeSize = from.PipeSize), ("fan_model", (to, from) => to.FanModel = from.FanModel),
        ("from_tier", (to, from) => to.FromTier = from.FromTier), ("offered_for", (to, from) => to.OfferedFor = from.OfferedFor),
        ("recommended_from", (to, from) => to.RecommendedFrom = from.RecommendedFrom), ("own_rule", (to, from) => to.OwnRule = from.OwnRule),
    ];

    private static readonly string[] PipeSizes = [.. PipeSize.All.Select(s => s.Key)];

    public static string Write(IEnumerable<PriceItem> items) => Csv.Write(Columns, items.Select(i => (IReadOnlyList<string>)
    [
        i.Code, i.Name, i.Kind.ToString().ToLowerInvariant(), i.Use.ToString().ToLowerInvariant(), i.Unit, Plain(i.Cost), i.Rule.ToString().ToLowerInvariant(),
        Plain(i.MarkupPercent), Plain(i.FixedPrice), Plain((decimal)i.LabourMinutes), i.Taxable ? "yes" : "no", i.Reason, i.Retired ? "yes" : "no",
        i.TakenBy.ToString().ToLowerInvariant(), i.PipeSize, i.FanModel, Plain((decimal)i.FromTier), i.OfferedFor.ToString().ToLowerInvariant(), i.RecommendedFrom is { } from ? Plain(from) : "", i.OwnRule,
    ]));

    public static PriceFile Read(string text)
    {
        var content = Csv.Read(text, ["code", "name", "kind"], Columns);
        var problems = content.Problems.ToList();
        var items = content.Rows.Select(row => ReadRow(new RowReading(row, problems))).ToList();
        foreach (var twice in items.Where(i => i.Code.Length > 0).GroupBy(i => i.Code, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
            problems.Add($"The code {twice.Key} stands on {twice.Count()} lines.");
        return new(items, problems, content.Rows.SelectMany(r => r.Cells.Keys).ToHashSet(StringComparer.Ordinal));
    }

    private static PriceItem ReadRow(RowReading row)
    {
        var item = ReadBare(row);
        item.OfferedFor = row.Has("offered_for") ? row.Word<OfferReason>("offered_for", OfferReason.Always) : GuessTaking.ReasonOf(item);
        item.TakenBy = row.Has("taken_by") ? row.Word<TakenBy>("taken_by", TakenBy.Job) : GuessTaking.TakenByOf(item);
        item.FromTier = row.Has("from_tier") ? row.Whole("from_tier", 0, 3, item.Use == PriceUse.Part ? 1 : 0) : GuessTaking.FromTierOf(item);
        if (item.Rule == PriceRule.Margin && item.MarkupPercent > PriceItem.MostMarginPercent) row.Refuse($"“markup_percent” is a margin here, at most {Plain(PriceItem.MostMarginPercent)} %; not {Plain(item.MarkupPercent)}.");
        if (item.PipeSize.Length > 0 && !PipeSizes.Contains(item.PipeSize)) row.Refuse($"“pipe_size” must be one of {string.Join(", ", PipeSizes)}, or empty; not {item.PipeSize}.");
        if (row.Has("offered_for") && item.OfferedFor == OfferReason.LargerPipe && item.PipeSize.Length == 0) row.Refuse("“pipe_size” is empty; a larger pipe needs its size.");
        item.OwnRule = ShippedRules.Kept(row.Text("own_rule", most: ReadOfferRule.LongestText));
        if (item.OwnRule.Length > 0)
            foreach (var problem in ReadOfferRule.Of(item.OwnRule).Problems) row.Refuse($"“own_rule”: {problem}");
        return item;
    }

    private static PriceItem ReadBare(RowReading row) => new()
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
        PipeSize = row.Text("pipe_size", most: 20),
        FanModel = row.Text("fan_model", most: 100),
        RecommendedFrom = row.Has("recommended_from") ? row.NumberOrNone("recommended_from", -100, 10_000) : null,
    };

    /// <summary>Puts the lines into the price book: known codes are changed in what the file has a column for, new ones added, none removed.</summary>
    public static async Task<(int Added, int Changed)> ApplyAsync(OfficeDb db, PriceFile file)
    {
        var known = (await db.PriceItems.ToListAsync()).ToDictionary(i => i.Code, StringComparer.OrdinalIgnoreCase);
        var (added, changed) = (0, 0);
        foreach (var item in file.Items)
        {
            if (!known.TryGetValue(item.Code, out var kept))
            {
                db.PriceItems.Add(item);
                added++;
                continue;
            }

            foreach (var (column, keep) in Keep)
                if (!file.Columns.Contains(column)) keep(item, kept);
            kept.TakeFrom(item);
            if (db.Entry(kept).State == EntityState.Modified || db.Entry(kept).ComplexProperties.Any(c => c.IsModified)) changed++;
        }

        await db.SaveChangesAsync();
        return (added, changed);
    }
}

/// <param name="Columns">What the file has; a value that it has no column for stays as it is on record.</param>
public sealed record PriceFile(IReadOnlyList<PriceItem> Items, IReadOnlyList<string> Problems, IReadOnlySet<string> Columns)
{
    public void Deconstruct(out IReadOnlyList<PriceItem> items, out IReadOnlyList<string> problems) => (items, problems) = (Items, Problems);
}
