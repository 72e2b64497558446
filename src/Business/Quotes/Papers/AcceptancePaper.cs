using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quotes.Phases;

namespace MitigationOffice.Business.Quotes.Papers;

/// <summary>What was chosen and signed, as a sheet behind the quote, with the cancellation form twice.</summary>
public sealed record AcceptanceOnPaper(
    QuoteOnPaper Quote, QuoteTier Tier, IReadOnlyList<QuoteAddOn> Chosen, IReadOnlyList<QuoteAddOn> Declined, QuoteTotals Totals,
    string TypedName, string ConsentText, string IntentText, string At, DateTime AtUtc, DateOnly SignedOn, string IpAddress, string QuoteSha256, DateOnly CancelBy);

public static class AcceptancePaper
{
    public static byte[] Make(AcceptanceOnPaper acceptance) =>
        Paper.Make(acceptance.Quote.Head("Acceptance of quote") with { MadeAtUtc = acceptance.AtUtc }, paper => Write(paper, acceptance));

    private static void Write(Paper paper, AcceptanceOnPaper s)
    {
        paper.Title("Acceptance");
        paper.Text($"{s.TypedName} accepted quote {s.Quote.Number} {s.Quote.Revision.Letter} for {s.Quote.House}.");
        paper.Heading($"Chosen: {s.Tier.Name}");
        foreach (var a in s.Chosen) paper.TickLine(true, a.Words, "", $"{a.Price}");
        foreach (var a in s.Declined) paper.TickLine(false, $"{a.Words}: recommended, and declined", a.Reason, $"{a.Price}");
        (string, string)[] listed = s.Totals.Discount == Money.Zero ? [] : [("Price as listed", $"{s.Totals.Listed}"), .. s.Totals.Discounts.Select(d => (d.Words, $"{Money.Zero - d.Amount}"))];
        paper.Facts(
        [
            .. listed, ("Price before tax", $"{s.Totals.Net}"), ("Sales tax", $"{s.Totals.Tax}"), ("Price, tax included", $"{s.Totals.Total}"), ("Deposit", $"{s.Totals.Deposit}"),
        ]);
        if (s.Quote.Revision.Phase is { } phase) paper.Note("Second phase, agreed to", PhaseTrigger.WordsOf(phase, s.Quote.Revision.TaxPercent));
        if (GuaranteeWords.IsGiven(s.Quote.Revision)) paper.Note("The guarantee", $"{GuaranteeWords.Of(s.Quote.Revision)}\nConditions: {s.Quote.Revision.GuaranteeConditions}");
        paper.Caution("Cautions", s.Quote.Revision.Cautions);
        paper.Heading("Signed");
        paper.Facts(
        [
            ("Name, as typed", s.TypedName), ("When", s.At), ("From the address", s.IpAddress), ("Agreed to", s.ConsentText), ("And to", s.IntentText),
            ("The quote's SHA-256", s.QuoteSha256),
        ]);
        if (s.Quote.Revision.NoCancelNoticeBecause.Length > 0) return;
        paper.Gap();
        paper.Text(QuoteTexts.CancelStatement, PaperFace.Strong);
        for (var copy = 1; copy <= 2; copy++) Form(paper, s, copy);
    }

    private static void Form(Paper paper, AcceptanceOnPaper s, int copy)
    {
        paper.NewSheet();
        paper.Title("Notice of cancellation");
        paper.Text($"Copy {copy} of 2", soft: true);
        paper.Facts([("Date of transaction", HouseTime.Show(s.SignedOn)), ("Last day to cancel", $"{HouseTime.Show(s.CancelBy)}, until midnight")]);
        paper.Text(s.Quote.Revision.CancellationNotice);
        paper.Heading("Seller");
        paper.Facts(QuotePaper.SellerOf(s.Quote.Company).Take(3));
        paper.Gap(10);
        paper.Text("I hereby cancel this transaction.", PaperFace.Strong);
        paper.SignLine("Date");
        paper.SignLine("Buyer's signature");
    }
}
