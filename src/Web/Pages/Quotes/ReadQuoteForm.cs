using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>Reads a typed draft into its records; what cannot be read is refused at its field.</summary>
/// <param name="costs">Whether the person may see and write costs; otherwise the records keep theirs.</param>
public sealed class ReadQuoteForm(QuoteForm form, FormReading read, CompanyProfile company, IReadOnlyList<PriceItem> book, bool costs)
{
    public void Into(QuoteRevision r)
    {
        Texts(r);
        r.TaxPercent = read.Number(form.TaxPercent, nameof(form.TaxPercent), "sales tax", 0, 25) ?? 0;
        r.DepositPercent = read.Number(form.DepositPercent, nameof(form.DepositPercent), "deposit", 0, 100) ?? 0;
        r.ValidUntil = read.Day(form.ValidUntil, nameof(form.ValidUntil), "last day of the quote");
        r.ElectricityPerYear = read.Money(form.ElectricityPerYear, nameof(form.ElectricityPerYear), "cost of electricity") ?? Money.Zero;
        r.HeatCablePerYear = read.Money(form.HeatCablePerYear, nameof(form.HeatCablePerYear), "cost of the heat cable") ?? Money.Zero;
        r.HouseAirPerYear = read.Money(form.HouseAirPerYear, nameof(form.HouseAirPerYear), "cost of house air") ?? Money.Zero;
        r.FanReplacement = read.Money(form.FanReplacement, nameof(form.FanReplacement), "price of another fan") ?? Money.Zero;
        r.FanLifeYears = read.Whole(form.FanLifeYears, nameof(form.FanLifeYears), "life of a fan", 0, 100) ?? 0;
        r.OwningYears = read.Whole(form.OwningYears, nameof(form.OwningYears), "number of years", 1, CostOfOwning.MostYears) ?? CostOfOwning.UsualYears;
        r.RecommendedTier = read.Whole(form.RecommendedTier, nameof(form.RecommendedTier), "recommended choice", 1, 3) ?? r.RecommendedTier;
        for (var i = 0; i < form.Tiers.Count; i++)
            if (r.Tiers.FirstOrDefault(t => t.Id == form.Tiers[i].Id) is { } tier) Tier(form.Tiers[i], tier, i);
        AddOns(r);
        new ReadPromiseForm(form, read, costs).Into(r);
        if (PriceQuote.IsTooMuch(r)) read.Refuse("", $"A choice comes to more than {PriceQuote.Most}. Look at its quantities and prices.");
    }

    private void Texts(QuoteRevision r)
    {
        r.Answers = read.Text(form.Answers, nameof(form.Answers), "result this quote answers", most: 1000);
        r.Introduction = read.Text(form.Introduction, nameof(form.Introduction), "opening words");
        r.Scope = read.Text(form.Scope, nameof(form.Scope), "scope");
        r.TimeNeeded = read.Text(form.TimeNeeded, nameof(form.TimeNeeded), "time needed");
        r.Promise = read.Text(form.Promise, nameof(form.Promise), "promise");
        r.OwnersPart = read.Text(form.OwnersPart, nameof(form.OwnersPart), "owner's part");
        r.Cautions = read.Text(form.Cautions, nameof(form.Cautions), "cautions");
        r.Terms = read.Text(form.Terms, nameof(form.Terms), "terms");
        r.WhyRecommended = read.Text(form.WhyRecommended, nameof(form.WhyRecommended), "reason", most: 2000);
        r.CancellationNotice = read.Text(form.CancellationNotice, nameof(form.CancellationNotice), "notice");
        if (costs) r.NoCancelNoticeBecause = read.Text(form.NoCancelNoticeBecause, nameof(form.NoCancelNoticeBecause), "reason", most: 500);
    }

    private void Tier(QuoteForm.Tier typed, QuoteTier tier, int i)
    {
        tier.Name = read.Text(typed.Name, $"Tiers[{i}].Name", "name of this choice", needed: true, most: 60);
        tier.Summary = read.Text(typed.Summary, $"Tiers[{i}].Summary", "summary", most: 1000);
        (tier.DiscountPercent, tier.DiscountAmount, tier.DiscountReason) = ReadPromiseForm.Discount(read, $"Tiers[{i}].", typed.DiscountPercent, typed.DiscountAmount, typed.DiscountReason);
        if (tier.SuctionDesignId is not null) Running(typed, tier, $"Tiers[{i}].");
        var kept = Lines(typed, tier, i);
        if (Item(typed.AddItem) is { } item) kept.Add(ProposeTiers.LineOf(item, 1, company));
        for (var j = 0; j < kept.Count; j++) kept[j].Position = j + 1;
        var (stay, had) = (kept.ToHashSet(), tier.Lines.ToHashSet());
        tier.Lines.RemoveAll(l => !stay.Contains(l));
        tier.Lines.AddRange(kept.Where(l => !had.Contains(l)));
    }

    /// <summary>Lines that the page did not show stay as they are; new ones come behind the last that it showed.</summary>
    private List<QuoteLine> Lines(QuoteForm.Tier typed, QuoteTier tier, int i)
    {
        var (known, kept, last) = (tier.Lines.Where(l => l.Id != 0).ToDictionary(l => l.Id), new List<QuoteLine>(), 0);
        var read = typed.Lines.Select((l, j) => (l.Id, Line: Line(l, known, $"Tiers[{i}].Lines[{j}]"))).ToList();
        var shown = read.Where(x => known.ContainsKey(x.Id)).GroupBy(x => x.Id).ToDictionary(g => g.Key, g => g.First().Line);
        foreach (var line in tier.Lines.OrderBy(l => l.Position).ThenBy(l => l.Id))
        {
            var isShown = shown.TryGetValue(line.Id, out var now);
            if (!isShown) kept.Add(line);
            else if (now is not null) kept.Add(now);
            if (isShown) last = kept.Count;
        }

        kept.InsertRange(shown.Count == 0 ? kept.Count : last, read.Where(x => !known.ContainsKey(x.Id)).Select(x => x.Line).OfType<QuoteLine>());
        return kept;
    }

    private void Running(QuoteForm.Tier typed, QuoteTier tier, string at)
    {
        tier.Scope = read.Text(typed.Scope, $"{at}Scope", "scope");
        tier.ElectricityPerYear = read.Money(typed.ElectricityPerYear, $"{at}ElectricityPerYear", "cost of electricity") ?? Money.Zero;
        tier.HeatCablePerYear = read.Money(typed.HeatCablePerYear, $"{at}HeatCablePerYear", "cost of the heat cable") ?? Money.Zero;
        tier.HouseAirPerYear = read.Money(typed.HouseAirPerYear, $"{at}HouseAirPerYear", "cost of house air") ?? Money.Zero;
        tier.FanReplacement = read.Money(typed.FanReplacement, $"{at}FanReplacement", "price of another fan") ?? Money.Zero;
        tier.FanLifeYears = read.Whole(typed.FanLifeYears, $"{at}FanLifeYears", "life of a fan", 0, 100) ?? 0;
    }

    private QuoteLine? Line(QuoteForm.Line typed, Dictionary<int, QuoteLine> known, string at)
    {
        if (string.IsNullOrWhiteSpace(typed.Words))
        {
            if (typed.Id == 0 && Typed(typed.Quantity, typed.Price)) read.Refuse($"{at}.Words", "Say what this line is, or empty it.");
            return null;
        }

        var line = known.GetValueOrDefault(typed.Id) ?? new QuoteLine { Words = "" };
        line.Words = read.Text(typed.Words, $"{at}.Words", "line", most: 300);
        line.Quantity = string.IsNullOrWhiteSpace(typed.Quantity) ? 1 : read.Number(typed.Quantity, $"{at}.Quantity", "quantity", 0, 100_000) ?? line.Quantity;
        line.Unit = string.IsNullOrWhiteSpace(typed.Unit) ? "each" : read.Text(typed.Unit, $"{at}.Unit", "unit", most: 20);
        line.UnitPrice = read.Money(typed.Price, $"{at}.Price", "price", needed: true) ?? line.UnitPrice;
        if (costs) line.UnitCost = read.Money(typed.Cost, $"{at}.Cost", "cost") ?? Money.Zero;
        line.Taxable = typed.Taxable;
        return line;
    }

    private void AddOns(QuoteRevision r)
    {
        var kept = new List<QuoteAddOn>();
        for (var i = 0; i < form.AddOns.Count; i++)
            if (AddOn(form.AddOns[i], r, $"AddOns[{i}]", kept.Count + 1) is { } addOn) kept.Add(addOn);
        if (Item(form.AddAddOn) is { } item) kept.Add(ProposeTiers.AddOnOf(item, 1, company, kept.Count + 1, recommended: false));
        r.AddOns.RemoveAll(a => !kept.Contains(a));
        r.AddOns.AddRange(kept.Where(a => !r.AddOns.Contains(a)));
    }

    private QuoteAddOn? AddOn(QuoteForm.AddOn typed, QuoteRevision r, string at, int position)
    {
        if (string.IsNullOrWhiteSpace(typed.Words))
        {
            if (typed.Id == 0 && Typed(typed.Reason, typed.Price)) read.Refuse($"{at}.Words", "Say what this addition is, or empty it.");
            return null;
        }

        var addOn = r.AddOns.FirstOrDefault(a => a.Id == typed.Id && a.Id != 0) ?? new QuoteAddOn { Words = "" };
        addOn.Position = position;
        addOn.Words = read.Text(typed.Words, $"{at}.Words", "addition", most: 300);
        addOn.Reason = read.Text(typed.Reason, $"{at}.Reason", "reason", most: 2000);
        addOn.Price = read.Money(typed.Price, $"{at}.Price", "price", needed: true) ?? addOn.Price;
        if (costs) addOn.Cost = read.Money(typed.Cost, $"{at}.Cost", "cost") ?? Money.Zero;
        (addOn.Taxable, addOn.Recommended) = (typed.Taxable, typed.Recommended);
        addOn.Beside = Beside(typed.Beside, r, at) ?? addOn.Beside;
        return addOn;
    }

    private int? Beside(string? typed, QuoteRevision r, string at)
    {
        if (string.IsNullOrWhiteSpace(typed)) return null;
        var every = r.Tiers.Aggregate(0, (bits, t) => bits | QuoteAddOn.Bit(t.Position));
        var bits = read.Whole(typed, $"{at}.Beside", "choices it stands beside", 0, every);
        return bits == every ? 0 : bits & every;
    }

    private PriceItem? Item(string? id) => book.FirstOrDefault(i => $"{i.Id}" == id);

    private static bool Typed(params string?[] fields) => fields.Any(f => !string.IsNullOrWhiteSpace(f));
}
