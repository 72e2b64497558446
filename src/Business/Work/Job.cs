using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>How the soil gas is drawn: decides which steps the day has.</summary>
public enum SystemKind
{
    SubSlabSuction,
    SumpOrDrainTileSuction,
    SubMembraneSuction,
}

public enum JobState
{
    ToPlan,
    Planned,
    Done,
    CalledOff,
}

/// <summary>The work that an acceptance asks for.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Number), IsUnique = true)]
[Index(nameof(HouseId))]
[Index(nameof(AcceptanceId), IsUnique = true)]
public sealed class Job : Record
{
    /// <summary>"J-2026-0042".</summary>
    public required string Number { get; set; }
    public int HouseId { get; set; }
    public int AcceptanceId { get; set; }
    public JobState State { get; set; }
    public SystemKind Kind { get; set; }
    public DateTime CreatedAtUtc { get; set; }
    public DateOnly? Day { get; set; }
    public TimeOnly? ArriveAt { get; set; }
    public string Crew { get; set; } = "";
    public DateOnly? DoneOn { get; set; }

    /// <summary>Why work was planned inside the time in which the buyer may still cancel.</summary>
    public string CancelWindowWaiver { get; set; } = "";
    public string Notes { get; set; } = "";
    public string CalledOffBecause { get; set; } = "";

    /// <summary>Building permit: its number, asked for, granted, valid until.</summary>
    public string PermitNumber { get; set; } = "";
    public DateOnly? PermitAskedOn { get; set; }
    public DateOnly? PermitGrantedOn { get; set; }
    public DateOnly? PermitUntil { get; set; }

    /// <summary>Ticket of the utility locate, and the days between which one may dig by it.</summary>
    public string DigTicket { get; set; } = "";
    public DateOnly? DigFrom { get; set; }
    public DateOnly? DigUntil { get; set; }

    /// <summary>Why the work waits (weather, material); empty: it does not.</summary>
    public string HoldBecause { get; set; } = "";
    public DateOnly? HeldOn { get; set; }
    public List<ChecklistStep> Steps { get; set; } = [];
}

/// <summary>One step of the day, with the caution that stands beside it.</summary>
[Holds(Truth.Fact)]
public sealed class ChecklistStep : Record
{
    public int JobId { get; set; }
    public int Position { get; set; }
    public required string Words { get; set; }
    public string Caution { get; set; } = "";
    public string CautionSource { get; set; } = "";
    public DateTime? DoneAtUtc { get; set; }
    public string DoneBy { get; set; } = "";

    /// <summary>Why this step has no place in this house; empty where it has.</summary>
    public string NotNeededBecause { get; set; } = "";
}
