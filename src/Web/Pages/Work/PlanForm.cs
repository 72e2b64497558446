using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>The plan of a job as it is typed.</summary>
public sealed class PlanForm
{
    public string? Day { get; set; }
    public string? ArriveAt { get; set; }
    public string? Crew { get; set; }
    public string? CancelWindowWaiver { get; set; }

    public static PlanForm Of(JobView j) => new()
    {
        Day = TypedNumbers.Plain(j.Day),
        ArriveAt = j.ArriveAt?.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture),
        Crew = j.Crew,
        CancelWindowWaiver = j.CancelWindowWaiver,
    };

    /// <summary>Writes what was typed onto the job. A job may keep no day yet while its crew is noted.</summary>
    public void Write(Job job, FormReading read, DateOnly acceptedOn, DateOnly cancelBy)
    {
        var day = read.Day(Day, nameof(Day), "day of the work");
        var at = read.Time(ArriveAt, nameof(ArriveAt), "time of arrival");
        var crew = read.Text(Crew, nameof(Crew), "crew", most: 100);
        var waiver = read.Text(CancelWindowWaiver, nameof(CancelWindowWaiver), "reason", most: 1000);
        if (day is { } planned)
            foreach (var refusal in PlanJob.Write(job, new(planned, at, crew, waiver), acceptedOn, cancelBy)) read.Refuse(refusal.Field, refusal.Words);
        else if (string.IsNullOrWhiteSpace(Day) && job.State == JobState.Planned)
            read.Refuse(nameof(Day), "A planned job needs its day. To put it off, write a later day, or call it off.");
        else if (job.State == JobState.ToPlan) job.Crew = crew;
    }
}
