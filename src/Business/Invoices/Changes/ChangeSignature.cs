using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>Evidence that a change order was signed: what was shown and agreed to, by whom, when, from where, on whose tablet.
/// Hash-chained to the one before it; never edited.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(ChangeOrderId), IsUnique = true)]
public sealed class ChangeSignature : Record
{
    public int ChangeOrderId { get; set; }
    public required string Number { get; set; }

    /// <summary>Hash of the signature under the quote that is changed.</summary>
    public required string AcceptanceHash { get; set; }

    /// <summary>SHA-256 over the lines, the reason and the sums as they were signed.</summary>
    public required string LinesSha256 { get; set; }
    public Money OldTotal { get; set; }
    public Money NewTotal { get; set; }
    public required string TypedName { get; set; }
    public required string ConsentText { get; set; }
    public required string IntentText { get; set; }
    public DateTime AtUtc { get; set; }
    public required string TimeZone { get; set; }
    public string IpAddress { get; set; } = "";
    public string UserAgent { get; set; } = "";
    public int ChangeLinkId { get; set; }
    public string HandedBy { get; set; } = "";

    /// <summary>The change order exactly as it was shown.</summary>
    public int PdfDocumentId { get; set; }
    public required string PdfSha256 { get; set; }

    /// <summary>The same with the sheet of the signature behind it.</summary>
    public int SignedDocumentId { get; set; }
    public required string SignedSha256 { get; set; }
    public required string PreviousHash { get; set; }
    public required string Hash { get; set; }

    /// <summary>Of the signature before it and everything in this one.</summary>
    public string ComputeHash() => HashOf(
        PreviousHash, Of(ChangeOrderId), Number, AcceptanceHash, LinesSha256, Of(OldTotal.Cents), Of(NewTotal.Cents), TypedName, ConsentText, IntentText,
        AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffff", CultureInfo.InvariantCulture), TimeZone, IpAddress, UserAgent, Of(ChangeLinkId), HandedBy, PdfSha256, SignedSha256);

    /// <summary>Over everything of a change order that the price and the work follow from.</summary>
    public static string LinesOf(ChangeOrder order)
    {
        var parts = new List<string> { order.Number, Of(order.AcceptanceId), order.Reason, order.TimeEffect, Of(order.OldTotal.Cents), Of(order.Net.Cents), Of(order.Tax.Cents), Of(order.NewTotal.Cents) };
        foreach (var l in order.Lines.OrderBy(l => l.Position))
            parts.AddRange([Of(l.Position), $"{l.Kind}", l.Of, l.WasWords, Of(l.WasAmount.Cents), l.Words, TypedNumbers.Plain(l.Quantity), l.Unit, Of(l.UnitPrice.Cents), $"{l.Taxable}"]);
        return HashOf([.. parts]);
    }

    private static string HashOf(params string[] parts) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\u001f', parts))));

    private static string Of(long number) => number.ToString(CultureInfo.InvariantCulture);
}
