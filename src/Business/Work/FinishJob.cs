using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>Closes a job when what it asks for stands and runs.</summary>
public static class FinishJob
{
    /// <summary>Marks the job done, to be saved by the caller; or says what is still open.</summary>
    /// <param name="asBuiltRecorded">Whether what was built is on record.</param>
    public static IReadOnlyList<Refusal> Write(Job job, DateOnly doneOn, DateOnly today, bool asBuiltRecorded)
    {
        var refusals = Check(job, doneOn, today, asBuiltRecorded).ToList();
        if (refusals.Count == 0) (job.State, job.DoneOn) = (JobState.Done, doneOn);
        return refusals;
    }

    private static IEnumerable<Refusal> Check(Job job, DateOnly doneOn, DateOnly today, bool asBuiltRecorded)
    {
        if (job.State == JobState.Done) yield return new("", $"Job {job.Number} is already done ({HouseTime.Show(job.DoneOn)}).");
        if (job.State == JobState.CalledOff) yield return new("", $"Job {job.Number} was called off. Take that back first.");
        if (!asBuiltRecorded) yield return new("", "Record what was built first: fan, gauge, readings and tag.");
        var open = job.Steps.Where(s => s.DoneAtUtc is null && s.NotNeededBecause.Length == 0).OrderBy(s => s.Position).ToList();
        if (open.Count > 0)
            yield return new("", $"Still open on the checklist: {string.Join("; ", open.Take(3).Select(s => $"{s.Position} {s.Words.TrimEnd('.')}"))}{(open.Count > 3 ? $"; and {open.Count - 3} more" : "")}. Tick them, or write why a step is not needed.");
        if (doneOn > today) yield return new(nameof(Job.DoneOn), $"{HouseTime.Show(doneOn)} has not come yet; today is {HouseTime.Show(today)}.");
    }
}
