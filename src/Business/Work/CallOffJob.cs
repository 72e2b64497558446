namespace MitigationOffice.Business.Work;

/// <summary>Calls a job off, and takes that back.</summary>
public static class CallOffJob
{
    public static IReadOnlyList<Refusal> Write(Job job, string because)
    {
        if (job.State == JobState.Done) return [new("", $"Job {job.Number} is done; it cannot be called off.")];
        if (because.Length == 0) return [new(nameof(Job.CalledOffBecause), "Write why the job is called off.")];
        (job.State, job.CalledOffBecause) = (JobState.CalledOff, because);
        return [];
    }

    /// <summary>The job waits for a day again: its people were given back and may be elsewhere.</summary>
    public static void TakeBack(Job job)
    {
        if (job.State != JobState.CalledOff) return;
        (job.State, job.CalledOffBecause, job.Day, job.ArriveAt) = (JobState.ToPlan, "", null, null);
    }
}
