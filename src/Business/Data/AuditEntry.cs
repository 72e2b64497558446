using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Business.Data;

/// <summary>One change of one row: who, when, what from and to. Chained by hash so that a later edit shows.</summary>
[Holds(Truth.Document)]
[Index(nameof(Subject), nameof(SubjectId))]
[Index(nameof(HouseId))]
public sealed class AuditEntry
{
    public long Id { get; set; }
    public DateTime AtUtc { get; set; }
    public required string By { get; set; }
    public required string Subject { get; set; }
    public int SubjectId { get; set; }
    public required string Act { get; set; }

    /// <summary>The house the changed row belongs to, where it belongs to one. Finds a house's history; not part of the proof.</summary>
    public int? HouseId { get; set; }

    /// <summary>JSON: property name to [before, after].</summary>
    public required string Changes { get; set; }
    public required string PreviousHash { get; set; }
    public required string Hash { get; set; }

    public string ComputeHash() => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join(
        '\u001f',
        PreviousHash,
        AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffff", CultureInfo.InvariantCulture),
        By, Subject, SubjectId.ToString(CultureInfo.InvariantCulture), Act, Changes))));
}
