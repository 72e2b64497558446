using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>A photo taken on a job: the picture is a document and never changes, what is written under it may.</summary>
[Holds(Truth.Fact)]
[Index(nameof(JobId))]
[Index(nameof(DocumentId), IsUnique = true)]
public sealed class JobPhoto : Record
{
    public int HouseId { get; set; }
    public int JobId { get; set; }
    public int DocumentId { get; set; }
    public string Caption { get; set; } = "";

    /// <summary>Printed in the owner's packet.</summary>
    public bool InPacket { get; set; }
    public DateTime TakenInAtUtc { get; set; }
    public string TakenInBy { get; set; } = "";
    public int WidthPx { get; set; }
    public int HeightPx { get; set; }

    /// <summary>The same picture small, for the sheet.</summary>
    [NotAudited]
    public required byte[] Small { get; set; }
}
