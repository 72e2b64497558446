using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

/// <summary>One edition of a jurisdiction's siting rules that the office wrote itself. A later edition of the same key takes its
/// place; the earlier ones stay, so that what a design was once held against can be read again.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Key), nameof(Edition), IsUnique = true)]
public sealed class RuleSetEdition : Record
{
    /// <summary>The set's own id, as "us-pa".</summary>
    public required string Key { get; set; }

    /// <summary>1, 2, 3, … within its key.</summary>
    public int Edition { get; set; }
    public required string Jurisdiction { get; set; }
    public required string Citation { get; set; }
    public int Rules { get; set; }

    /// <summary>The set as it was given, JSON.</summary>
    public required string Text { get; set; }
    public required string Sha256 { get; set; }
    public DateTime AddedAtUtc { get; set; }
    public required string AddedBy { get; set; }

    /// <summary>No longer offered; designs judged by it keep their verdicts.</summary>
    public bool SetAside { get; set; }
}
