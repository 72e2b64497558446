using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

public enum DayPart
{
    WholeDay,
    Morning,
    Afternoon,
}

/// <summary>One day of a job or one service visit. Moved, it stays the same row; taken off, it stays as a cancelled one, so that
/// calendars that hold it learn of it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Day))]
[Index(nameof(JobId))]
[Index(nameof(ServiceCallId))]
[Index(nameof(CalendarUid), IsUnique = true)]
public sealed class WorkDay : Record
{
    public int HouseId { get; set; }
    public int? JobId { get; set; }
    public int? ServiceCallId { get; set; }
    public DateOnly Day { get; set; }
    public DayPart Part { get; set; }
    public TimeOnly? ArriveAt { get; set; }
    public DateTime ChangedAtUtc { get; set; }
    public DateTime? CancelledAtUtc { get; set; }

    /// <summary>Counts the changes a calendar must learn of (RFC 5545, 3.8.7.4).</summary>
    public int Sequence { get; set; }
    public required string CalendarUid { get; set; }
    public List<Booking> Bookings { get; set; } = [];
}

public enum DayHalf
{
    Morning,
    Afternoon,
}

/// <summary>A person or a vehicle taken for half a day. The index over the row keeps anyone from being taken twice, whoever plans at
/// the same time; what is given back keeps its row under a number of its own.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Resource), nameof(Day), nameof(Half), nameof(GivenBack), IsUnique = true)]
[Index(nameof(PersonId))]
public sealed class Booking : Record
{
    public int WorkDayId { get; set; }

    /// <summary>"p3" for a person, "v2" for a vehicle.</summary>
    public required string Resource { get; set; }
    public int? PersonId { get; set; }
    public int? VehicleId { get; set; }
    public required string Name { get; set; }
    public DateOnly Day { get; set; }
    public DayHalf Half { get; set; }

    /// <summary>0 while it holds; the row's own number once it was given back.</summary>
    public int GivenBack { get; set; }
}

public enum AppointmentKind
{
    Electrician,
    Inspector,
    Other,
}

/// <summary>Somebody from outside comes to the job: the electrician, the building inspector.</summary>
[Holds(Truth.Fact)]
[Index(nameof(JobId))]
[Index(nameof(Day))]
[Index(nameof(CalendarUid), IsUnique = true)]
public sealed class Appointment : Record
{
    public int JobId { get; set; }
    public int HouseId { get; set; }
    public AppointmentKind Kind { get; set; }
    public string Who { get; set; } = "";
    public string Phone { get; set; } = "";
    public DateOnly Day { get; set; }
    public TimeOnly? At { get; set; }
    public string Words { get; set; } = "";
    public DateTime ChangedAtUtc { get; set; }
    public DateTime? CancelledAtUtc { get; set; }
    public int Sequence { get; set; }
    public required string CalendarUid { get; set; }
}

/// <summary>A private link to one person's calendar feed.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TokenHash), IsUnique = true)]
[Index(nameof(PersonId))]
public sealed class CalendarLink : Record
{
    public int PersonId { get; set; }

    [NotAudited]
    public required string TokenHash { get; set; }

    /// <summary>The whole office's days and appointments instead of the person's own.</summary>
    public bool Everything { get; set; }
    public DateTime CreatedAtUtc { get; set; }
    public DateTime? RevokedAtUtc { get; set; }
}

/// <summary>A line of the pick list and what was really used of it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(JobId))]
public sealed class MaterialUse : Record
{
    public int JobId { get; set; }
    public int Position { get; set; }
    public required string What { get; set; }
    public string Unit { get; set; } = "";

    /// <summary>From the design's take-off; empty: not on the list.</summary>
    public decimal? Planned { get; set; }
    public decimal? Used { get; set; }

    /// <summary>Of what was used, taken over from what already stood in the house.</summary>
    public decimal? TakenOver { get; set; }
    public string Note { get; set; } = "";
}

/// <summary>A step of the checklist in the company's own words, in place of the program's, for one kind of system.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Kind), nameof(Code), IsUnique = true)]
public sealed class StepText : Record
{
    public SystemKind Kind { get; set; }

    /// <summary>The program's step it replaces; "own-1" and so on for one of the company's own.</summary>
    public required string Code { get; set; }
    public string Words { get; set; } = "";
    public string Caution { get; set; } = "";
    public string Source { get; set; } = "";
    public bool LeftOut { get; set; }
}
