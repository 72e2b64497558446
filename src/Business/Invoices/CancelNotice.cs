using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>Evidence that the buyer gave notice of cancellation by the private link: what was typed and agreed to, when and
/// from where, for which signature. Hash-chained to the one before it; never edited.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(AcceptanceId), IsUnique = true)]
public sealed class CancelNotice : Record
{
    public int AcceptanceId { get; set; }
    public int HouseId { get; set; }

    /// <summary>Hash of the signature that is taken back.</summary>
    public required string AcceptanceHash { get; set; }
    public required string TypedName { get; set; }
    public required string Statement { get; set; }
    public DateTime AtUtc { get; set; }
    public required string TimeZone { get; set; }
    public DateOnly CancelBy { get; set; }
    public DateOnly OwedBackBy { get; set; }
    public string IpAddress { get; set; } = "";
    public string UserAgent { get; set; } = "";
    public int QuoteLinkId { get; set; }

    /// <summary>The notice as it was mailed to the buyer.</summary>
    public int PdfDocumentId { get; set; }
    public required string PdfSha256 { get; set; }
    public required string PreviousHash { get; set; }
    public required string Hash { get; set; }

    /// <summary>Of the notice before it and everything in this one.</summary>
    public string ComputeHash() => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\u001f',
        PreviousHash, Of(AcceptanceId), Of(HouseId), AcceptanceHash, TypedName, Statement, AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffff", CultureInfo.InvariantCulture), TimeZone,
        TypedNumbers.Plain(CancelBy), TypedNumbers.Plain(OwedBackBy), IpAddress, UserAgent, Of(QuoteLinkId), PdfSha256))));

    private static string Of(long number) => number.ToString(CultureInfo.InvariantCulture);
}
