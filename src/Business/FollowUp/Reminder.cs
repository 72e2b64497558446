using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The fact a rule counts from.</summary>
public enum ReminderAnchor
{
    LastValidTest,
    TestNotBack,
    FirstYearSeasons,
    NewOwner,
    HouseChanged,
    FanChanged,
    BatteryFitted,
    BeforeWinter,
    FreezeSeason,
    FanWarrantyEnd,
    LicenceEnd,
    CalibrationEnd,
    ReportDue,
    ReportFeeDue,
}

/// <summary>How the reader is reached first. What cannot go that way comes to the list of letters and calls.</summary>
public enum ReminderChannel
{
    Mail,
    Letter,
    Phone,

    /// <summary>Not a house owner but the office itself, by mail.</summary>
    Office,
}

/// <summary>When something is to be said, and in which words. Kept as data so that the owner can change it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Code), IsUnique = true)]
public sealed class ReminderRule : Record
{
    public required string Code { get; set; }
    public required string Name { get; set; }
    public ReminderAnchor Anchor { get; set; }

    /// <summary>Comes back so often after the anchor; empty: the company's own figure, or only once.</summary>
    public int? EveryMonths { get; set; }

    /// <summary>Due so many days after the anchor ("14, 30"); empty: on it.</summary>
    public string AfterDays { get; set; } = "";

    /// <summary>Due on this day of every year ("10-15"), for rules that go by the season.</summary>
    public string SeasonDay { get; set; } = "";

    /// <summary>Months by model where they differ, one a line ("Chime 9 = 24").</summary>
    public string ByModel { get; set; } = "";

    /// <summary>Not said any more so many months after the anchor; empty: as long as the system runs.</summary>
    public int? StopAfterMonths { get; set; }

    /// <summary>For the freeze season: said from so many days at risk in a winter; empty: from one.</summary>
    public int? AtRiskDays { get; set; }

    /// <summary>Sent by default this many days before it is due.</summary>
    public int LeadDays { get; set; }
    public ReminderChannel Channel { get; set; }
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

    /// <summary>Printed as a letter that is not yet posted.</summary>
    Printed,
}

/// <summary>One thing to say to one house's owner, or to the office itself, planned from facts. Its key makes it unique for ever.</summary>
[Holds(Truth.Plan)]
[Index(nameof(Key), IsUnique = true)]
[Index(nameof(State), nameof(SendOn))]
[Index(nameof(HouseId))]
public sealed class Reminder : Record
{
    /// <summary>Empty: for the office itself.</summary>
    public int? HouseId { get; set; }
    public int? InstalledSystemId { get; set; }
    public required string RuleCode { get; set; }
    public required string Key { get; set; }

    /// <summary>The fact it hangs on, in words.</summary>
    public string Because { get; set; } = "";
    public DateOnly DueOn { get; set; }
    public DateOnly SendOn { get; set; }
    public ReminderState State { get; set; }
    public int? OutboxMessageId { get; set; }
    public int? LetterRunId { get; set; }

    /// <summary>The printed letter as it is filed among the house's papers.</summary>
    public int? LetterDocumentId { get; set; }
    public string Note { get; set; } = "";
}
