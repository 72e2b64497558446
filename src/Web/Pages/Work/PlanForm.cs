using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>The plan of a job as it is typed.</summary>
public sealed class PlanForm
{
    public List<DayRow> Days { get; set; } = [];
    public string? Crew { get; set; }
    public string? CancelWindowWaiver { get; set; }

    public static PlanForm Of(JobView j) => new()
    {
        Days = [.. j.Days.Select(DayRow.Of)],
        Crew = j.Crew,
        CancelWindowWaiver = j.CancelWindowWaiver,
    };

    /// <summary>One empty row at the end; two for a job without a day.</summary>
    public void AddSpareDays()
    {
        for (var i = Days.Count(d => string.IsNullOrWhiteSpace(d.Day) && d.Id is null); i < (Days.Any(d => d.Id is not null) ? 1 : 2); i++) Days.Add(new());
    }

    /// <summary>Writes what was typed onto the job. A job may keep no day yet while its crew is noted.</summary>
    public async Task WriteAsync(OfficeDb db, Job job, FormReading read, DateOnly acceptedOn, DateOnly cancelBy, IReadOnlyList<Bookable> all, DateTime nowUtc)
    {
        var days = DayRows.Read(Days, read);
        var crew = read.Text(Crew, nameof(Crew), "crew", most: 100);
        var waiver = read.Text(CancelWindowWaiver, nameof(CancelWindowWaiver), "reason", most: 1000);
        if (days.Count > 0)
            foreach (var refusal in await PlanJob.WriteAsync(db, job, new([.. days.Select(d => d.Row)], crew, waiver), acceptedOn, cancelBy, all, nowUtc))
                read.Refuse(DayRows.AtRow(refusal, days).Field, refusal.Words);
        else if (Days.All(d => string.IsNullOrWhiteSpace(d.Day)) && job.State == JobState.Planned)
            read.Refuse("Days[0].Day", "A planned job needs its day. To put it off, write a later day, or call it off.");
        else if (job.State == JobState.ToPlan) job.Crew = crew;
    }
}

/// <summary>Permit, dig ticket and hold of a job as they are typed.</summary>
public sealed class PermitForm
{
    public string? PermitNumber { get; set; }
    public string? PermitAskedOn { get; set; }
    public string? PermitGrantedOn { get; set; }
    public string? PermitUntil { get; set; }
    public string? DigTicket { get; set; }
    public string? DigFrom { get; set; }
    public string? DigUntil { get; set; }
    public string? HoldBecause { get; set; }

    public static PermitForm Of(Job j) => new()
    {
        PermitNumber = j.PermitNumber, PermitAskedOn = TypedNumbers.Plain(j.PermitAskedOn), PermitGrantedOn = TypedNumbers.Plain(j.PermitGrantedOn), PermitUntil = TypedNumbers.Plain(j.PermitUntil),
        DigTicket = j.DigTicket, DigFrom = TypedNumbers.Plain(j.DigFrom), DigUntil = TypedNumbers.Plain(j.DigUntil), HoldBecause = j.HoldBecause,
    };

    public void Write(Job job, FormReading read, DateOnly today)
    {
        (job.PermitNumber, job.DigTicket) = (read.Text(PermitNumber, nameof(PermitNumber), "permit number", most: 60), read.Text(DigTicket, nameof(DigTicket), "dig ticket", most: 60));
        (job.PermitAskedOn, job.PermitGrantedOn) = (read.Day(PermitAskedOn, nameof(PermitAskedOn), "day it was asked for"), read.Day(PermitGrantedOn, nameof(PermitGrantedOn), "day it was granted"));
        job.PermitUntil = read.Day(PermitUntil, nameof(PermitUntil), "last day of the permit");
        (job.DigFrom, job.DigUntil) = (read.Day(DigFrom, nameof(DigFrom), "first day of the ticket"), read.Day(DigUntil, nameof(DigUntil), "last day of the ticket"));
        if (job.PermitGrantedOn < job.PermitAskedOn) read.Refuse(nameof(PermitGrantedOn), "The permit cannot have been granted before it was asked for.");
        if (job.PermitUntil < job.PermitGrantedOn) read.Refuse(nameof(PermitUntil), "The permit ends before it was granted.");
        if (job.DigUntil < job.DigFrom) read.Refuse(nameof(DigUntil), "The ticket ends before it begins.");
        if ((job.DigFrom ?? job.DigUntil) is not null && job.DigTicket.Length == 0) read.Refuse(nameof(DigTicket), "Write the number of the dig ticket.");
        var hold = read.Text(HoldBecause, nameof(HoldBecause), "reason", most: 300);
        if (hold != job.HoldBecause) (job.HoldBecause, job.HeldOn) = (hold, hold.Length == 0 ? null : job.HeldOn ?? today);
    }
}

/// <summary>An appointment with somebody from outside as it is typed.</summary>
public sealed class AppointmentForm
{
    public int? Id { get; set; }
    public string? Kind { get; set; }
    public string? Who { get; set; }
    public string? Phone { get; set; }
    public string? Day { get; set; }
    public string? At { get; set; }
    public string? Words { get; set; }

    public void Write(Appointment a, FormReading read, DateTime nowUtc)
    {
        var day = read.Day(Day, nameof(Day), "day", needed: true);
        var now = (Kind: Enum.TryParse<AppointmentKind>(Kind, out var kind) ? kind : AppointmentKind.Other, Who: read.Text(Who, nameof(Who), "name", needed: true, most: 120), Phone: read.Text(Phone, nameof(Phone), "phone", most: 60),
            Day: day ?? a.Day, At: read.Time(At, nameof(At), "time"), Words: read.Text(Words, nameof(Words), "note", most: 500));
        if (now == (a.Kind, a.Who, a.Phone, a.Day, a.At, a.Words)) return;
        if (a.Id != 0) a.Sequence++;
        (a.Kind, a.Who, a.Phone, a.Day, a.At, a.Words) = now;
        a.ChangedAtUtc = nowUtc;
    }
}
