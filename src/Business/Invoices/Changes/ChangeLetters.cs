using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>The letters around a change order.</summary>
internal static class ChangeLetters
{
    public static Letter ToSign(ChangeOnPaper full, Uri link, string once) =>
        new($"change:{full.Order.Id}:{once}", MailClass.Work, full.Customer.Email, full.Customer.Name, full.Title, $"""
            Hello {MailAddress.OneLine(full.Customer.ContactName.Length > 0 ? full.Customer.ContactName : full.Customer.Name)},

            Something about the work at {full.House.Street} should change: {MailAddress.OneLine(full.Order.Reason)}

            The price so far is {full.Order.OldTotal}, the difference {full.DifferenceWords}, the new price {full.Order.NewTotal}, tax included. You can read it, and sign or decline it, on this page:

            {link}

            The link is yours alone; please do not pass it on. It opens until {HouseTime.Show(full.Order.ValidUntil)}. Opening it agrees to nothing, and without your signature the work stays as it was agreed.

            Questions? Answer this message or call us: {full.Company.Phone}.
            """)
        { HouseId = full.House.Id };

    public static Letter Signed(ChangeOnPaper full, ChangeSignature signature, StoredDocument copy) =>
        new($"change-signed:{full.Order.Id}", MailClass.Work, full.Customer.Email, full.Customer.Name, $"Signed: {full.Title.ToLowerInvariant()}", $"""
            Thank you. {MailAddress.OneLine(signature.TypedName)} signed change order {full.Order.Number} on {HouseTime.Show(signature.AtUtc, full.Zone)}.

            The price was {full.Order.OldTotal}, the difference is {full.DifferenceWords}, the new price {full.Order.NewTotal}, tax included.

            The signed copy is attached; please keep it.
            """)
        {
            HouseId = full.House.Id,
            Attachments = [new(copy.FileName, "application/pdf", copy.Bytes)],
        };
}
