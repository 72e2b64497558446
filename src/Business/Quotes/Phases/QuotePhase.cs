using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes.Phases;

/// <summary>In which unit a level was agreed.</summary>
public enum RadonUnit
{
    PCiPerL,
    BqPerM3,
}

/// <summary>Work that is agreed now and done only when the test after the work asks for it. Part of a revision: once sent it
/// never changes.</summary>
[Holds(Truth.Fact)]
[Index(nameof(QuoteRevisionId), IsUnique = true)]
public sealed class QuotePhase : Record
{
    public int QuoteRevisionId { get; set; }

    /// <summary>The result at or over which it becomes due, in the unit beside it and as results are reported: tenths of a pCi/L,
    /// whole Bq/m³.</summary>
    public decimal Level { get; set; }
    public RadonUnit Unit { get; set; }
    public string Scope { get; set; } = "";
    public Money Price { get; set; }
    public Money Cost { get; set; }
    public int LabourMinutes { get; set; }
    public bool Taxable { get; set; }

    /// <summary>The last day on which its price holds and a result can make it due.</summary>
    public DateOnly? ValidUntil { get; set; }
}
