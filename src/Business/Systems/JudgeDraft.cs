using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Systems;

/// <summary>What the checks of the single appliances come to, and what is wrong with them as they were written down.</summary>
public static class JudgeDraft
{
    /// <summary>An appliance that still spills after its burner ran this long has failed: common practice, from memory; local code may be stricter.</summary>
    public const decimal LongestSpillMinutes = 5;

    public static BackdraftCheck Of(IReadOnlyList<CheckedDraft> drafts, bool nothingDraws)
    {
        if (drafts.Any(d => d.Result == DraftResult.Spills)) return BackdraftCheck.Failed;
        if (drafts.Any(d => d.Result == DraftResult.NotChecked)) return BackdraftCheck.NotDone;
        return drafts.Count > 0 ? BackdraftCheck.Passed : nothingDraws ? BackdraftCheck.NothingToCheck : BackdraftCheck.NotDone;
    }

    /// <param name="onRecord">The natural-draft appliances of the house.</param>
    public static IEnumerable<Refusal> Check(AsBuilt built, IReadOnlyList<string> onRecord)
    {
        for (var i = 0; i < built.Drafts.Count; i++)
        {
            var draft = built.Drafts[i];
            if (built.Drafts.Take(i).Any(d => Same(d.Appliance, draft.Appliance))) yield return new($"Drafts[{i}].Appliance", $"{draft.Appliance} stands here twice; give two of a kind names that tell them apart.");
            if (draft is { Result: DraftResult.Draws, SpilledMinutes: > LongestSpillMinutes })
                yield return new($"Drafts[{i}].Result", $"{draft.Appliance} spilled for more than {LongestSpillMinutes:0} minutes: that is spilling, not drawing.");
        }

        var spilling = string.Join(", ", built.Drafts.Where(d => d.Result == DraftResult.Spills).Select(d => d.Appliance));
        if (spilling.Length > 0 && built.LeftRunning) yield return new(nameof(AsBuilt.LeftRunning), $"{spilling}: the backdraft check failed, this system must not be left running. {Commission.BackdraftDoThis}");
        if (spilling.Length > 0 && built.BackdraftNotes.Length == 0) yield return new(nameof(AsBuilt.BackdraftNotes), $"Write what was said to the owner about {spilling}.");
        if (built.NothingDraws && (built.Drafts.Count > 0 || onRecord.Count > 0))
            yield return new(nameof(AsBuilt.NothingDraws), $"There is something to check: {string.Join(", ", built.Drafts.Select(d => d.Appliance).Concat(onRecord).Distinct(StringComparer.OrdinalIgnoreCase))}. Make the backdraft check, or correct sheet 1 if the appliance is gone.");
        var open = built.Drafts.Where(d => d.Result == DraftResult.NotChecked).Select(d => d.Appliance).Concat(onRecord.Where(a => !built.Drafts.Any(d => Same(d.Appliance, a)))).ToList();
        if (open.Count > 0 && built.LeftRunning && !built.NothingDraws)
            yield return new(nameof(AsBuilt.LeftRunning), $"Make the backdraft check ({string.Join(", ", open)}) before the system is left running, or switch it off and say so here.");
    }

    private static bool Same(string one, string other) => string.Equals(one.Trim(), other.Trim(), StringComparison.OrdinalIgnoreCase);
}
