using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes.Phases;

public enum PhaseState
{
    /// <summary>No result yet.</summary>
    Waiting,

    /// <summary>The result reached the level.</summary>
    Due,

    /// <summary>The result stayed under it.</summary>
    Closed,

    /// <summary>Its last day passed first.</summary>
    Lapsed,

    /// <summary>Quoted by itself, at the price agreed.</summary>
    TakenUp,

    /// <summary>The sale it belongs to was cancelled.</summary>
    Cancelled,
}

/// <summary>What became of a second phase that was signed.</summary>
[Holds(Truth.Fact)]
[Index(nameof(AcceptanceId), IsUnique = true)]
[Index(nameof(HouseId))]
[Index(nameof(State), nameof(ValidUntil))]
public sealed class SecondPhase : Record
{
    public int HouseId { get; set; }
    public int AcceptanceId { get; set; }
    public int QuotePhaseId { get; set; }
    public PhaseState State { get; set; }
    public DateOnly? ValidUntil { get; set; }

    /// <summary>The test that made it due or closed it, and what it said.</summary>
    public int? RadonTestId { get; set; }
    public decimal? DecidingPCiL { get; set; }

    /// <summary>The day on which it came to its state.</summary>
    public DateOnly? Since { get; set; }

    /// <summary>The quote by which it was taken up.</summary>
    public int? NextQuoteId { get; set; }
}
