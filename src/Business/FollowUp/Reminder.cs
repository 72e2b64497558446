using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>When something is to be said, and in which words. Kept as data so that the owner can change it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Code), IsUnique = true)]
public sealed class ReminderRule : Record
{
    public required string Code { get; set; }
    public required string Name { get; set; }

    /// <summary>Sent by default this many days before it is due.</summary>
    public int LeadDays { get; set; }
    public bool Commercial { get; set; }
    public required string Subject { get; set; }
    public required string Body { get; set; }
    public bool Off { get; set; }
}

public enum ReminderState
{
    Planned,
    Queued,
    Sent,
    Dropped,
    DoneByHand,

    /// <summary>Planned once, then taken back by the plan because the facts changed.</summary>
    Replaced,
}

/// <summary>One thing to say to one house's owner, planned from facts. Its key makes it unique for ever.</summary>
[Holds(Truth.Plan)]
[Index(nameof(Key), IsUnique = true)]
[Index(nameof(State), nameof(SendOn))]
[Index(nameof(HouseId))]
public sealed class Reminder : Record
{
    public int HouseId { get; set; }
    public int? InstalledSystemId { get; set; }
    public required string RuleCode { get; set; }
    public required string Key { get; set; }

    /// <summary>The fact it hangs on, in words.</summary>
    public string Because { get; set; } = "";
    public DateOnly DueOn { get; set; }
    public DateOnly SendOn { get; set; }
    public ReminderState State { get; set; }
    public int? OutboxMessageId { get; set; }
    public string Note { get; set; } = "";
}
