using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>A profile as the owner of the company added or changed it. A change is a new edition; the older ones stay.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(Code), nameof(Edition), IsUnique = true)]
public sealed class KeptProfile : Record
{
    public required string Code { get; set; }
    public int Edition { get; set; }
    public required string Json { get; set; }
    public DateTime SavedAtUtc { get; set; }
    public required string SavedBy { get; set; }
}
