using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Documents;

/// <summary>A file as it was sent, signed, received or handed over: its bytes never change.</summary>
[Holds(Truth.Document)]
[Index(nameof(HouseId))]
public sealed class StoredDocument : Record
{
    public int? HouseId { get; set; }
    public required string Title { get; set; }
    public required string FileName { get; set; }
    public required string ContentType { get; set; }
    public PaperKind Kind { get; set; }
    public DateTime StoredAtUtc { get; set; }
    public required string StoredBy { get; set; }
    public required string Sha256 { get; set; }
    public int SizeBytes { get; set; }

    [NotAudited]
    public required byte[] Bytes { get; set; }

    public static StoredDocument Of(
        byte[] bytes, PaperKind kind, string title, string fileName, string contentType, int? houseId, DateTime atUtc, string by) =>
        new()
        {
            Bytes = bytes,
            SizeBytes = bytes.Length,
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes)),
            Kind = kind,
            Title = title,
            FileName = fileName,
            ContentType = contentType,
            HouseId = houseId,
            StoredAtUtc = atUtc,
            StoredBy = by,
        };
}

public enum PaperKind
{
    Attachment,
    Photo,
    Quote,
    SignedQuote,
    Label,
    Packet,
    ResultLetter,
    StateReport,
    Invoice,
    CreditNote,
    HandOver,
    RecallLetter,
    PlanPicture,
    CancelNotice,
    ChangeOrder,
    SignedChangeOrder,
    MonitorFile,
    Letters,
    AddressLabels,
}
