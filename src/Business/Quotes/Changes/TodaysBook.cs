using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes.Changes;

/// <summary>What the price book, the design and the tax say today, beside what a draft took over from the revision before.</summary>
/// <param name="Book">Every item, retired ones too.</param>
/// <param name="Newer">Items that came into the book after the version the draft's prices are from.</param>
/// <param name="LatestDesign">Of the house; null: none.</param>
public sealed record TodaysBook(IReadOnlyList<PriceItem> Book, IReadOnlySet<int> Newer, CompanyProfile Company, (int Id, string Letter)? LatestDesign, string? QuotedDesign)
{
    public IReadOnlyList<ChangeRow> Against(QuoteRevision r)
    {
        var rows = new List<ChangeRow>();
        var seen = new HashSet<int>();
        foreach (var tier in r.Tiers.OrderBy(t => t.Position))
            foreach (var line in tier.Lines.OrderBy(l => l.Position).Where(l => l.PriceItemId is not null && seen.Add(l.PriceItemId.Value)))
                Compare(rows, tier.Name, line.Words, line.PriceItemId!.Value, line.UnitPrice, PriceOf(tier, line), line.Unit);
        foreach (var a in r.AddOns.OrderBy(a => a.Position).Where(a => a.PriceItemId is not null))
            Compare(rows, "Additions", a.Words, a.PriceItemId!.Value, a.Price, PriceOf(a), "each");
        rows.AddRange(Book.Where(i => !i.Retired && Newer.Contains(i.Id) && !seen.Contains(i.Id) && r.AddOns.All(a => a.PriceItemId != i.Id)).OrderBy(i => i.Name, StringComparer.Ordinal)
            .Select(i => new ChangeRow("Price book", i.Name, "", $"new: {i.PriceAt(Company.LabourPricePerHour)} a {(i.Unit == "each" ? "piece" : i.Unit)}")));
        if (LatestDesign is { } latest && latest.Id != r.SuctionDesignId) rows.Add(new("Quote", "Design", QuotedDesign is null ? "by hand" : $"revision {QuotedDesign}", $"revision {latest.Letter}"));
        if (Company.TaxPercent != r.TaxPercent) rows.Add(new("Quote", "Sales tax", $"{TypedNumbers.Plain(r.TaxPercent)} %", $"{TypedNumbers.Plain(Company.TaxPercent)} %"));
        return rows;
    }

    /// <summary>Puts today's prices, costs and labor of the book into the draft, and the company's tax. What is no longer in the book stays.</summary>
    public void Into(QuoteRevision r, int version)
    {
        // Lines by the hour last: they are counted by the labor of the others.
        foreach (var (tier, line, item) in r.Tiers.SelectMany(t => t.Lines.Select(l => (t, l, Held(l.PriceItemId)))).OrderBy(x => x.Item3?.TakenBy == TakenBy.Hour).ToList())
            if (item is not null)
            {
                var times = TimesOf(tier, line, item);
                (line.UnitPrice, line.UnitCost, line.Taxable) = (item.PriceAt(Company.LabourPricePerHour).Times(times), item.CostAt(Company.LabourCostPerHour).Times(times), item.Taxable);
                if (times == 1) line.LabourMinutes = item.LabourMinutes;
            }

        foreach (var a in r.AddOns)
            if (Held(a.PriceItemId) is { } item)
                (a.Price, a.Cost, a.Taxable, a.LabourMinutes) = (item.PriceAt(Company.LabourPricePerHour).Times(a.Quantity), item.CostAt(Company.LabourCostPerHour).Times(a.Quantity), item.Taxable, (int)Math.Round(item.LabourMinutes * a.Quantity, MidpointRounding.AwayFromZero));
        (r.TaxPercent, r.PriceBookVersion) = (Company.TaxPercent, version);
    }

    private void Compare(List<ChangeRow> rows, string where, string words, int itemId, Money before, Money? after, string unit)
    {
        var per = unit == "each" ? "" : $" a {unit}";
        if (after is null || Held(itemId) is null) rows.Add(new(where, words, $"{before}{per}", "no longer in the book"));
        else if (after != before) rows.Add(new(where, words, $"{before}{per}", $"{after}{per}"));
    }

    private Money? PriceOf(QuoteTier tier, QuoteLine line) => Held(line.PriceItemId) is { } item ? item.PriceAt(Company.LabourPricePerHour).Times(TimesOf(tier, line, item)) : null;

    private Money? PriceOf(QuoteAddOn a) => Held(a.PriceItemId) is { } item ? item.PriceAt(Company.LabourPricePerHour).Times(a.Quantity) : null;

    private PriceItem? Held(int? id) => Book.FirstOrDefault(i => i.Id == id && !i.Retired);

    /// <summary>All hours of a job stand in one line of one piece; an item without labor of its own goes by the labor of the others, to the quarter of an hour.</summary>
    private decimal TimesOf(QuoteTier tier, QuoteLine line, PriceItem item)
    {
        if (item.TakenBy != TakenBy.Hour || line.Unit != "each") return 1;
        if (item.LabourMinutes > 0) return (decimal)line.LabourMinutes / item.LabourMinutes;
        var minutes = tier.Lines.Where(l => Held(l.PriceItemId)?.TakenBy != TakenBy.Hour).Sum(l => l.LabourMinutes * l.Quantity);
        return minutes > 0 ? Math.Ceiling(minutes / 15) / 4 : 1;
    }
}
