using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Papers;

namespace MitigationOffice.Business.Invoices.Papers;

/// <summary>Everything the paper of a cancellation says.</summary>
public sealed record NoticeOnPaper(
    Acceptance Acceptance, QuoteInFull Full, int LinkId, string TypedName, string Statement, DateTime AtUtc, TimeZoneInfo Zone, DateOnly Today, DateOnly OwedBackBy, string IpAddress, string UserAgent)
{
    public string Name => $"{Full.Quote.Number} {Full.Revision.Letter}";

    /// <summary>Whether the name is the one under the quote, its letters alone looked at.</summary>
    public bool SameName => SearchText.Of(TypedName) == SearchText.Of(Acceptance.TypedName);
}

/// <summary>The notice of cancellation as it was given by the private link. Pure: the same record gives the same bytes.</summary>
public static class CancelNoticePaper
{
    public static byte[] Make(NoticeOnPaper notice) =>
        Paper.Make(notice.Full.OnPaper(notice.AtUtc).Head("Notice of cancellation") with { MadeAtUtc = notice.AtUtc }, paper => Write(paper, notice));

    private static void Write(Paper paper, NoticeOnPaper n)
    {
        paper.Title("Notice of cancellation");
        paper.Text($"Given by the private link of quote {n.Name}.");
        paper.Facts(
        [
            ("Date of transaction", HouseTime.Show(HouseTime.DayOf(n.Acceptance.AtUtc, n.Zone))), ("Last day to cancel", $"{HouseTime.Show(n.Acceptance.CancelBy)}, until midnight"), ("House", n.Full.House.AddressLine),
        ]);
        paper.Text(n.Statement, PaperFace.Strong);
        paper.Facts(
        [
            ("Name, as typed", n.TypedName),
            ("When", $"{HouseTime.Show(n.AtUtc, n.Zone)} ({n.Zone.Id}; {n.AtUtc.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)} UTC)"),
            ("From the address", n.IpAddress), ("With the browser", n.UserAgent), ("Takes back the signature", n.Acceptance.Hash),
        ]);
        paper.Note("What follows", $"The contract is cancelled; nothing is owed for it. What was paid is given back by {HouseTime.Show(n.OwedBackBy)}, ten business days after the notice came.");
        paper.Heading("The notice that came with the contract");
        paper.Text(n.Full.Revision.CancellationNotice);
        paper.Heading("Seller");
        paper.Facts(QuotePaper.SellerOf(n.Full.Company).Take(3));
    }
}
