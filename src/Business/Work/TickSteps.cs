using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>Saves what was ticked on a checklist. Only what this person changed is written, so that two people can tick
/// the same list at the same time.</summary>
public static class TickSteps
{
    /// <param name="Was">Whether the step showed as done when the list was opened.</param>
    public sealed record Tick(int StepId, bool Was, bool Done, string NotNeededWas, string NotNeededBecause);

    public static Task<IReadOnlyList<Refusal>> RunAsync(OfficeDb db, int jobId, IReadOnlyList<Tick> ticks, string notesWas, string notes, string by, DateTime nowUtc) =>
        db.WriteAsync<IReadOnlyList<Refusal>>(async () =>
        {
            var job = await db.Jobs.Include(j => j.Steps).SingleAsync(j => j.Id == jobId);
            if (job.State == JobState.CalledOff) return [new("", $"Job {job.Number} was called off. Take that back first.")];
            var refusals = WriteNotes(job, notesWas, notes).ToList();
            if (refusals.Count > 0) return refusals;
            foreach (var tick in ticks)
                if (job.Steps.Find(s => s.Id == tick.StepId) is { } step) Write(step, tick, by, nowUtc);
            await db.SaveChangesAsync();
            return [];
        });

    /// <summary>One more step at the end, in the crew's own words.</summary>
    public static Task AddAsync(OfficeDb db, int jobId, string words) => db.WriteAsync(async () =>
    {
        var job = await db.Jobs.Include(j => j.Steps).SingleAsync(j => j.Id == jobId);
        job.Steps.Add(new ChecklistStep { Position = job.Steps.Count == 0 ? 1 : job.Steps.Max(s => s.Position) + 1, Words = words });
        await db.SaveChangesAsync();
    });

    private static IEnumerable<Refusal> WriteNotes(Job job, string notesWas, string notes)
    {
        if (Same(notes, notesWas) || Same(notes, job.Notes)) yield break;
        if (Same(notesWas, job.Notes)) job.Notes = notes;
        else yield return new(nameof(Job.Notes), $"Someone else wrote notes meanwhile: “{job.Notes}”. Put yours together with theirs and save again.");
    }

    private static void Write(ChecklistStep step, Tick tick, string by, DateTime nowUtc)
    {
        if (tick.Done != tick.Was && tick.Done != (step.DoneAtUtc is not null))
            (step.DoneAtUtc, step.DoneBy) = tick.Done ? ((DateTime?)nowUtc, by) : (null, "");
        if (!Same(tick.NotNeededBecause, tick.NotNeededWas)) step.NotNeededBecause = tick.NotNeededBecause;
    }

    private static bool Same(string a, string b) => a.ReplaceLineEndings("\n").Trim() == b.ReplaceLineEndings("\n").Trim();
}
