using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>What the house owner says to an inspection by the state program.</summary>
public enum InspectionAnswer
{
    NotAsked,
    Agrees,
    Refuses,
}

/// <summary>That the system was shown and handed over, signed by the house owner. Evidence: never changed; signing again makes another.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(InstalledSystemId))]
public sealed class HandOver : Record
{
    public int InstalledSystemId { get; set; }
    public DateTime AtUtc { get; set; }

    /// <summary>Who walked the owner through.</summary>
    public required string By { get; set; }
    public required string TypedName { get; set; }
    public InspectionAnswer Inspection { get; set; }

    /// <summary>What was shown and what was not, a line each, "+" or "-" first.</summary>
    public required string Lines { get; set; }
    public string Notes { get; set; } = "";

    /// <summary>The drawn signature as strokes of "x,y" points; empty: typed only.</summary>
    [NotAudited]
    public string Strokes { get; set; } = "";
    public int DocumentId { get; set; }
    public required string DocumentSha256 { get; set; }
}
