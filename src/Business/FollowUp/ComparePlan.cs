namespace MitigationOffice.Business.FollowUp;

/// <summary>A reminder on record as far as the plan looks at it.</summary>
public sealed record KnownReminder(int Id, int? HouseId, string Key, ReminderState State, DateOnly DueOn, DateOnly SendOn, string Because)
{
    public bool Open => State is ReminderState.Planned or ReminderState.Replaced;

    /// <summary>A key is its series and two days of eight digits.</summary>
    public bool IsOf(string series) => Key.Length == series.Length + Occasion.DaysInKey && Key.StartsWith(series, StringComparison.Ordinal);
}

/// <summary>What keeps the plan on record from being the one that is wanted.</summary>
public sealed class PlanDifference
{
    public List<Occasion> Fresh { get; } = [];
    public List<int> Gone { get; } = [];
    public List<(int Id, Occasion Occasion)> Moved { get; } = [];
}

/// <summary>Compares what is wanted with what is on record. Pure. O(wanted + known) for each house; what was said is looked for among
/// that house's own.</summary>
public static class ComparePlan
{
    /// <param name="wanted">Of one house, or of the office itself.</param>
    /// <param name="known">Of the same.</param>
    public static void Of(IEnumerable<Occasion> wanted, IReadOnlyList<KnownReminder> known, PlanDifference difference)
    {
        if (known.Count == 0)
        {
            difference.Fresh.AddRange(wanted);
            return;
        }

        var byKey = known.ToDictionary(k => k.Key, StringComparer.Ordinal);
        var said = known.Where(k => !k.Open).ToList();
        var kept = new HashSet<int>();
        foreach (var occasion in wanted.Where(o => !IsSaid(said, o)))
        {
            if (!byKey.TryGetValue(occasion.Key, out var one)) difference.Fresh.Add(occasion);
            else if (one.Open) Keep(one, occasion);
        }

        difference.Gone.AddRange(known.Where(k => k.State == ReminderState.Planned && !kept.Contains(k.Id)).Select(k => k.Id));

        void Keep(KnownReminder one, Occasion occasion)
        {
            kept.Add(one.Id);
            if (one.State == ReminderState.Replaced || one.SendOn != occasion.SendOn || one.Because != occasion.Because) difference.Moved.Add((one.Id, occasion));
        }
    }

    private static bool IsSaid(List<KnownReminder> said, Occasion occasion) =>
        said.Exists(k => Math.Abs(k.DueOn.DayNumber - occasion.DueOn.DayNumber) <= occasion.NearDays && k.IsOf(occasion.Series));
}
