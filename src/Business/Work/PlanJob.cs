using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>A field that cannot stay as it is, and what to do about it. An empty field means the whole form.</summary>
public sealed record Refusal(string Field, string Words);

/// <summary>Gives a job its day, hour and crew.</summary>
public static class PlanJob
{
    public sealed record Plan(DateOnly Day, TimeOnly? ArriveAt, string Crew, string CancelWindowWaiver);

    /// <summary>Writes the plan onto the job, to be saved by the caller; or says why not.</summary>
    public static IReadOnlyList<Refusal> Write(Job job, Plan plan, DateOnly acceptedOn, DateOnly cancelBy)
    {
        var refusals = Check(job, plan, acceptedOn, cancelBy).ToList();
        if (refusals.Count > 0) return refusals;
        (job.Day, job.ArriveAt, job.Crew, job.State) = (plan.Day, plan.ArriveAt, plan.Crew, JobState.Planned);
        job.CancelWindowWaiver = plan.Day <= cancelBy ? plan.CancelWindowWaiver : "";
        return refusals;
    }

    private static IEnumerable<Refusal> Check(Job job, Plan plan, DateOnly acceptedOn, DateOnly cancelBy)
    {
        if (job.State is JobState.Done or JobState.CalledOff)
            yield return new("", $"Job {job.Number} is {(job.State == JobState.Done ? "done" : "called off")}; its day no longer changes.");
        if (plan.Day < acceptedOn)
            yield return new(nameof(Plan.Day), $"The offer was accepted on {HouseTime.Show(acceptedOn)}; the work cannot come before it.");
        else if (plan.Day <= cancelBy && plan.CancelWindowWaiver.Length == 0)
            yield return new(nameof(Plan.CancelWindowWaiver),
                $"The buyer may cancel until the end of {HouseTime.Show(cancelBy)}. Choose a later day, or write why the work cannot wait and how the buyer agreed.");
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
