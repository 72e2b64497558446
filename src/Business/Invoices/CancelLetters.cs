using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.Invoices;

/// <summary>What is mailed when the buyer has cancelled: the copy to the buyer, and word to the office.</summary>
internal static class CancelLetters
{
    public static IEnumerable<Letter> Of(NoticeOnPaper n, StoredDocument paper)
    {
        LetterAttachment[] copy = [new(paper.FileName, "application/pdf", paper.Bytes)];
        if (MailAddress.IsUsable(n.Full.Customer.Email))
            yield return new($"cancelled:{n.Acceptance.Id}", MailClass.Work, n.Full.Customer.Email, n.Full.Customer.Name, $"Cancelled: quote {n.Name}", ToBuyer(n)) { HouseId = n.Full.House.Id, Attachments = copy };
        if (MailAddress.IsUsable(n.Full.Company.Email))
            yield return new($"cancelled:{n.Acceptance.Id}:office", MailClass.Work, n.Full.Company.Email, n.Full.Company.Name, $"The buyer cancelled: quote {n.Name}", ToOffice(n)) { HouseId = n.Full.House.Id, Attachments = copy };
    }

    private static string ToBuyer(NoticeOnPaper n) => $"""
        Your notice of cancellation came on {HouseTime.Show(n.AtUtc, n.Zone)}. The contract from quote {n.Name} is cancelled; you owe nothing for it, and no work is done.

        If you paid something, we give it back by {HouseTime.Show(n.OwedBackBy)}. If something was delivered to you, keep it ready for us at the house.

        The notice is attached; please keep it. If you did not send it, call us today: {n.Full.Company.Phone}.
        """;

    private static string ToOffice(NoticeOnPaper n) => $"""
        {MailAddress.OneLine(n.TypedName)} cancelled quote {n.Name} for {n.Full.House.Street} by the private link, on {HouseTime.Show(n.AtUtc, n.Zone)}. The last day for it is {HouseTime.Show(n.Acceptance.CancelBy)}.{(n.SameName ? "" : $" The quote was signed by {MailAddress.OneLine(n.Acceptance.TypedName)}: call and ask.")}

        Invoices of the quote are taken back and a job that was not done is called off. What was paid is owed back by {HouseTime.Show(n.OwedBackBy)}; it stands on Today until it is given back.
        """;
}
