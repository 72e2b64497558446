using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>A field that cannot stay as it is, and what to do about it. An empty field means the whole form.</summary>
public sealed record Refusal(string Field, string Words);

/// <summary>Gives a job its day, hour and crew.</summary>
public static class PlanJob
{
    /// <param name="Days">One row a day, in any order; who goes there beside.</param>
    public sealed record Plan(IReadOnlyList<PlanDays.Row> Days, string Crew, string CancelWindowWaiver)
    {
        public DateOnly Day => Days.Min(d => d.Day);
    }

    /// <summary>Writes the plan onto the job and its days, to be saved by the caller in one save; or says why not.</summary>
    public static async Task<IReadOnlyList<Refusal>> WriteAsync(OfficeDb db, Job job, Plan plan, DateOnly acceptedOn, DateOnly cancelBy, IReadOnlyList<Bookable> all, DateTime nowUtc)
    {
        var refusals = Check(job, plan, acceptedOn, cancelBy).ToList();
        if (refusals.Count == 0) refusals.AddRange(await PlanDays.WriteAsync(db, PlanDays.Owner.OfJob(job.HouseId, job.Id), plan.Days, all, nowUtc));
        if (refusals.Count > 0) return refusals;
        var first = plan.Days.OrderBy(d => d.Day).ThenBy(d => d.Part == DayPart.Afternoon).First();
        (job.Day, job.ArriveAt, job.Crew, job.State) = (first.Day, first.ArriveAt, plan.Crew, JobState.Planned);
        job.CancelWindowWaiver = plan.Day <= cancelBy ? plan.CancelWindowWaiver : "";
        return refusals;
    }

    private static IEnumerable<Refusal> Check(Job job, Plan plan, DateOnly acceptedOn, DateOnly cancelBy)
    {
        if (job.State is JobState.Done or JobState.CalledOff)
            yield return new("", $"Job {job.Number} is {(job.State == JobState.Done ? "done" : "called off")}; its day no longer changes.");
        if (plan.Day < acceptedOn)
            yield return new(DayField(plan), $"The offer was accepted on {HouseTime.Show(acceptedOn)}; the work cannot come before it.");
        else if (plan.Day <= cancelBy && plan.CancelWindowWaiver.Length == 0)
            yield return new(nameof(Plan.CancelWindowWaiver),
                $"The buyer may cancel until the end of {HouseTime.Show(cancelBy)}. Choose a later day, or write why the work cannot wait and how the buyer agreed.");
    }

    private static string DayField(Plan plan) => $"Days[{plan.Days.ToList().FindIndex(d => d.Day == plan.Day)}].Day";

    /// <summary>What speaks against a planned day that is no refusal: permit, dig ticket, a hold.</summary>
    public static IEnumerable<string> Doubts(Job job, IReadOnlyCollection<DateOnly> days)
    {
        if (job.HoldBecause.Length > 0) yield return $"On hold since {HouseTime.Show(job.HeldOn)}: {job.HoldBecause}";
        if (job.PermitAskedOn is not null && job.PermitGrantedOn is null) yield return $"The permit was asked for on {HouseTime.Show(job.PermitAskedOn)} and is not granted yet.";
        foreach (var day in days.Order())
        {
            if (job.PermitGrantedOn is { } granted && day < granted) yield return $"{HouseTime.Show(day)} comes before the permit of {HouseTime.Show(granted)}.";
            if (job.PermitUntil is { } until && day > until) yield return $"The permit ends on {HouseTime.Show(until)}, before {HouseTime.Show(day)}.";
            if (job.DigFrom is { } from && day < from) yield return $"Dig ticket {job.DigTicket} holds from {HouseTime.Show(from)}; do not dig on {HouseTime.Show(day)}.";
            if (job.DigUntil is { } last && day > last) yield return $"Dig ticket {job.DigTicket} ends on {HouseTime.Show(last)}; have the lines marked again before digging on {HouseTime.Show(day)}.";
        }
    }

    /// <summary>Other jobs of the same crew on the same day: worth a warning, not a refusal.</summary>
    public static async Task<IReadOnlyList<string>> ClashesAsync(OfficeDb db, DateOnly? day, string crewName, int jobId)
    {
        var crew = SearchText.Of(crewName);
        if (day is null || crew.Length == 0) return [];
        var others = await db.Jobs.AsNoTracking().Where(j => j.Day == day && j.Id != jobId && j.State == JobState.Planned)
            .Join(db.Houses, j => j.HouseId, h => h.Id, (j, h) => new { j.Number, j.Crew, j.ArriveAt, h.Street, h.City }).ToListAsync();
        return [.. others.Where(o => SearchText.Of(o.Crew) == crew).OrderBy(o => o.ArriveAt)
            .Select(o => $"{o.Number}, {o.Street}, {o.City}{(o.ArriveAt is { } at ? $", {at:h:mm tt}" : "")}")];
    }
}
