using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes.Papers;

/// <summary>A design that is quoted, drawn.</summary>
/// <param name="Of">The choices that stand on it; empty: all do.</param>
public sealed record QuotedDrawing(string Of, Picture Picture);

/// <summary>Everything a quote's paper says.</summary>
public sealed record QuoteOnPaper(
    QuoteRevision Revision, string Number, string House, string Customer, CompanyProfile Company, DateTime AtUtc, DateOnly Day)
{
    public IReadOnlyList<QuotedDrawing> Sections { get; init; } = [];

    public string FileName => $"{Number}-{Revision.Letter}.pdf";

    public IReadOnlyList<QuoteTier> Tiers { get; } = [.. Revision.Tiers.OrderBy(t => t.Position)];

    public PaperHead Head(string title) => new($"{title} {Number} {Revision.Letter}", Company.Name, AtUtc)
    {
        Boxes =
        [
            new("House", House, 2.3), new("For", Customer, 1.6), new("Quote", $"{Number} {Revision.Letter}", 1.15),
            new("Date", HouseTime.Show(Day), 0.95), new("Valid until", HouseTime.Show(Revision.ValidUntil), 0.95),
        ],
    };
}

/// <summary>The quote as a paper. Pure: the same record gives the same bytes.</summary>
public static class QuotePaper
{
    public static byte[] Make(QuoteOnPaper quote) => Paper.Make(quote.Head("Quote"), paper => Write(paper, quote));

    private static void Write(Paper paper, QuoteOnPaper quote)
    {
        var r = quote.Revision;
        paper.Title("Quote for a radon mitigation system");
        paper.Text($"Answers: {r.Answers} EPA advises fixing a house at 4 pCi/L or more.", soft: true);
        paper.Text(r.Introduction);
        foreach (var drawing in quote.Sections) Draw(paper, drawing, quote.Sections.Count);
        Choices(paper, quote);
        Owning(paper, quote);
        AddOns(paper, quote);
        SecondPhase(paper, r);
        if (r.WhyRecommended.Length > 0 && quote.Tiers.FirstOrDefault(t => t.Position == r.RecommendedTier) is { } tier)
            paper.Note($"Why we recommend “{tier.Name}”", r.WhyRecommended);
        Scope(paper, quote);
        Cancelling(paper, r);
    }

    private static void Draw(Paper paper, QuotedDrawing drawing, int drawings)
    {
        var picture = drawing.Picture;
        var height = Math.Min(drawings == 1 ? 250 : 190, paper.TextWidth * picture.Height / picture.Width);
        if (drawing.Of.Length > 0)
        {
            paper.Need(height + 40);
            paper.SubHeading($"How it is built in {drawing.Of}");
        }

        paper.Drawing($"{(drawing.Of.Length > 0 ? drawing.Of + ": " : "")}{picture.Title}. {picture.Description}", height, (g, area) => SectionDrawing.DrawOn(g, area, picture, PaperFonts.Family));
    }

    private static void Choices(Paper paper, QuoteOnPaper quote)
    {
        paper.Heading("What you can choose from");
        PaperColumn[] columns = [new("What is done", 2.3), .. quote.Tiers.Select(t => new PaperColumn(t.Name + (t.Position == quote.Revision.RecommendedTier ? " (recommended)" : ""), 1.05, Right: true))];
        paper.Table(columns, [.. Works(quote), .. Sums(quote)]);
        foreach (var tier in quote.Tiers.Where(t => t.Summary.Length > 0)) paper.Text($"{tier.Name}: {tier.Summary}");
        foreach (var tier in quote.Tiers.Where(t => t.SuctionDesignId is not null)) paper.Text($"“{tier.Name}” is built otherwise: {tier.Scope}");
        foreach (var words in DiscountsOf(quote)) paper.Text(words);
    }

    private static IEnumerable<PaperRow> Works(QuoteOnPaper quote) => SideBySide.Of(quote.Tiers).Select(row => new PaperRow([row.Words, .. row.ByTier.Select(Share)]));

    private static string Share(IReadOnlyList<QuoteLine> all)
    {
        if (all.Count == 0) return "–";
        var quantity = all.Sum(l => l.Quantity);
        return quantity == 1 ? "●" : $"{TypedNumbers.Plain(quantity)} {(all[0].Unit == "each" ? "" : all[0].Unit)}".Trim();
    }

    private static IEnumerable<PaperRow> Sums(QuoteOnPaper quote)
    {
        var r = quote.Revision;
        var sums = quote.Tiers.Select(t => PriceQuote.Of(r, t, [])).ToList();
        if (sums.Any(s => s.Discount > Money.Zero))
        {
            yield return new PaperRow(["Price as listed", .. sums.Select(s => $"{s.Listed}")]);
            yield return new PaperRow(["Discount", .. sums.Select(s => s.Discount == Money.Zero ? "–" : $"{Money.Zero - s.Discount}")]);
        }

        yield return new PaperRow(["Price before tax", .. sums.Select(s => $"{s.Net}")]);
        yield return new PaperRow([$"Sales tax, {TypedNumbers.Plain(r.TaxPercent)} % of what is taxed", .. sums.Select(s => $"{s.Tax}")]);
        yield return new PaperRow(["Price, tax included", .. sums.Select(s => $"{s.Total}")]) { Strong = true, Band = true };
        yield return new PaperRow([$"Deposit, {TypedNumbers.Plain(r.DepositPercent)} %", .. sums.Select(s => $"{s.Deposit}")]);
        yield return new PaperRow(["Electricity for the fan, a year (estimate)", .. quote.Tiers.Select(t => $"{RunningCost.Of(r, t).Electricity}")]);
    }

    /// <summary>Each discount with its reason, once.</summary>
    private static IEnumerable<string> DiscountsOf(QuoteOnPaper quote)
    {
        var r = quote.Revision;
        foreach (var (tier, own) in quote.Tiers.Select(t => (t, PriceQuote.Of(new QuoteRevision { Letter = "" }, t, []).Discounts)).Where(x => x.Discounts.Count > 0))
            yield return $"{own[0].Words}. It is in the price of “{tier.Name}”.";
        if (r.DiscountPercent > 0) yield return $"Discount on the whole, additions included, {TypedNumbers.Plain(r.DiscountPercent)} %: {r.DiscountReason}. It is in the prices above.";
        else if (r.DiscountAmount > Money.Zero) yield return $"Discount on the whole, {r.DiscountAmount}: {r.DiscountReason}. It is in the prices above.";
    }

    private static void SecondPhase(Paper paper, QuoteRevision r)
    {
        if (r.Phase is not { } phase) return;
        paper.Heading("A second phase, only if the test asks for it");
        paper.Text(PhaseTrigger.WordsOf(phase, r.TaxPercent));
    }

    /// <summary>Price and running cost side by side; what they rest on beneath.</summary>
    private static void Owning(Paper paper, QuoteOnPaper quote)
    {
        var r = quote.Revision;
        var owning = quote.Tiers.Select(t => CostOfOwning.Of(r, t, [])).ToList();
        if (owning.Count == 0) return;
        paper.Heading($"What it costs to own over {owning[0].Years} years");
        PaperColumn[] columns = [new("Estimate", 2.3), .. quote.Tiers.Select(t => new PaperColumn(t.Name, 1.05, Right: true))];
        paper.Table(columns, [.. CostOfOwning.Rows(owning).Select(row => new PaperRow([row.Words, .. row.Amounts.Select(a => $"{a}")]) { Strong = row.IsTotal, Band = row.IsTotal })]);
        paper.Text(string.Join(' ', CostOfOwning.Assumptions(r)), soft: true);
    }

    private static void AddOns(Paper paper, QuoteOnPaper quote)
    {
        var addOns = quote.Revision.AddOns.OrderBy(a => a.Position).ThenBy(a => a.Id).Where(a => quote.Tiers.Any(t => PriceQuote.IsOpenTo(t, a))).ToList();
        if (addOns.Count == 0) return;
        paper.Heading("What you can add");
        foreach (var a in addOns)
            paper.TickLine(false, a.Words + (a.Recommended ? " (recommended)" : ""), a.Reason + Beside(quote, a) + Held(quote, a), $"{a.Price}{(a.Taxable && quote.Revision.TaxPercent > 0 ? " + tax" : "")}");
    }

    private static string Beside(QuoteOnPaper quote, QuoteAddOn addOn)
    {
        var names = quote.Tiers.Where(t => PriceQuote.IsBeside(t, addOn)).Select(t => $"“{t.Name}”").ToList();
        return names.Count == quote.Tiers.Count ? "" : $" For {string.Join(" and ", names)} only.";
    }

    private static string Held(QuoteOnPaper quote, QuoteAddOn addOn)
    {
        var names = quote.Tiers.Where(t => PriceQuote.IsBeside(t, addOn) && PriceQuote.Holds(t, addOn)).Select(t => $"“{t.Name}”").ToList();
        return names.Count == 0 ? "" : $" Already part of {string.Join(" and ", names)}.";
    }

    private static void Scope(Paper paper, QuoteOnPaper quote)
    {
        var r = quote.Revision;
        Words(paper, "What we do", r.Scope);
        Words(paper, "How long it takes", r.TimeNeeded);
        Words(paper, "By which rules", QuoteTexts.Compliance);
        Words(paper, "What is promised, and on which conditions", r.Promise);
        if (GuaranteeWords.IsGiven(r)) paper.Note("The guarantee", $"{GuaranteeWords.Of(r)}\nConditions: {r.GuaranteeConditions}");
        Words(paper, "What you look after", r.OwnersPart);
        paper.Caution("Cautions", r.Cautions);
        Words(paper, "Terms", r.Terms);
        paper.Heading("Who we are");
        paper.Facts(SellerOf(quote.Company));
    }

    internal static IEnumerable<(string, string)> SellerOf(CompanyProfile c)
    {
        yield return ("Company", c.Name);
        yield return ("Address", $"{c.Street}, {c.City}, {c.State} {c.Zip}");
        yield return ("Phone, e-mail", string.Join(", ", new[] { c.Phone, c.Email }.Where(s => s.Length > 0)));
        yield return ("Certification number", c.CertificationNumber);
        if (c.StateProgram.Length > 0) yield return ("State radon program", $"{c.StateProgram} {c.StateProgramPhone}".Trim());
    }

    private static void Words(Paper paper, string heading, string words)
    {
        if (string.IsNullOrWhiteSpace(words)) return;
        paper.Heading(heading);
        paper.Text(words);
    }

    private static void Cancelling(Paper paper, QuoteRevision r)
    {
        if (r.NoCancelNoticeBecause.Length > 0) return;
        paper.Heading("Your right to cancel");
        paper.Text(QuoteTexts.CancelStatement, PaperFace.Strong);
        paper.Text("The form comes twice with your copy of the signed quote, with the last day to cancel filled in.");
        paper.Text(r.CancellationNotice);
    }
}
