namespace MitigationOffice.Engineering.Radon;

/// <summary>One hour of a continuous monitor.</summary>
/// <param name="Result">What it showed for the hour; null where it recorded nothing.</param>
/// <param name="TakenOut">True when a person took the hour out.</param>
public sealed record MonitorHour(RadonConcentration? Result, bool TakenOut = false);

/// <summary>The settings for a continuous monitor's record; the defaults are the published values.</summary>
public sealed record MonitorRules
{
    /// <summary>Hours dropped at the start, h: 4 at least; 12 for closed-building time, 24 after the fan (ANSI/AARST MAH 2019, 8.5.3).</summary>
    public int DropFirstHours { get; init; } = 4;

    /// <summary>True when the device itself corrects its first hours, so that none has to be dropped (ANSI/AARST MAH 2019, 8.5.3).</summary>
    public bool DeviceCorrectsStart { get; init; }

    /// <summary>Contiguous hours, h, needed: 46 (ANSI/AARST MAH 2019, 7.3.2(b)); 44 in the older EPA practice.</summary>
    public int ShortestHours { get; init; } = 46;

    /// <summary>Hours that begin before this instant are dropped too: when the test's conditions were met. Null where they were met from the start.</summary>
    public DateTimeOffset? NotBefore { get; init; }
}

/// <summary>What a continuous monitor's record says.</summary>
/// <param name="IsValid">True when the average may be reported.</param>
/// <param name="Average">The average of the hours used; pCi/L inside; null where there are none.</param>
/// <param name="HoursUsed">Contiguous hours behind the average, h.</param>
/// <param name="HoursDroppedFirst">Hours dropped at the start, h.</param>
/// <param name="UsedFrom">Start of the first hour used; null where there is none.</param>
/// <param name="UsedTo">End of the last hour used; null where there is none.</param>
/// <param name="Reasons">Every reason and remark.</param>
public sealed record MonitorFinding(
    bool IsValid,
    RadonConcentration? Average,
    int HoursUsed,
    int HoursDroppedFirst,
    DateTimeOffset? UsedFrom,
    DateTimeOffset? UsedTo,
    IReadOnlyList<TestReason> Reasons);

/// <summary>
/// The hourly record of a continuous monitor. Hours may be dropped at its beginning; an hour taken out of its inside
/// invalidates it; where the device itself recorded nothing, the longest contiguous stretch counts, the earlier of two.
/// </summary>
/// <param name="Start">Start of the first hour.</param>
/// <param name="Hours">The hours in order, one after the other.</param>
public sealed record MonitorSeries(DateTimeOffset Start, IReadOnlyList<MonitorHour> Hours)
{
    /// <summary>The fewest hours dropped at the start unless the device corrects them, h.</summary>
    public const int FewestDroppedHours = 4;

    /// <summary>
    /// Judges the record. 4 h of 9.9, 22 h of 2.0 and 22 h of 3.0 pCi/L with 4 dropped and 44 needed: valid, 2.50 over 44 h.
    /// </summary>
    /// <param name="rules">The settings; the published defaults where left out.</param>
    /// <returns>The finding.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 4 h dropped where the device does not correct them, or a setting outside 0 to 2 160 h.</exception>
    /// <remarks>Range: any number of hours. Source: ANSI/AARST MAH 2019, 8.5.3 and 7.3.2(b); the longest stretch after a fault of the device is a house rule.</remarks>
    public MonitorFinding Judge(MonitorRules? rules = null)
    {
        rules ??= new MonitorRules();
        Refuse(rules);
        var first = FirstHour(rules);
        var reasons = new List<TestReason>();
        var cut = Inside(first).Count(hour => hour.TakenOut);
        if (cut > 0)
            reasons.Add(new(ReasonKind.Invalidates, $"{cut} h were taken out of the inside of the record.", RadonSources.HourlyData));
        var (from, count) = LongestStretch(first);
        if (HasGapInside(first))
            reasons.Add(new(ReasonKind.Notes,
                $"The monitor recorded nothing for some hours; the longest unbroken stretch, {count} h, is used.", RadonSources.HouseRule));
        if (count < rules.ShortestHours)
            reasons.Add(new(ReasonKind.Invalidates,
                $"{count} contiguous hours are left; {rules.ShortestHours} are needed.", RadonSources.PostMitigationTesting));
        return Found(from, count, first, reasons);
    }

    private static void Refuse(MonitorRules rules)
    {
        var fewest = rules.DeviceCorrectsStart ? 0 : FewestDroppedHours;
        Require.InRange(rules.DropFirstHours, fewest, 2160, "h", "Hours dropped at the start");
        Require.InRange(rules.ShortestHours, 1, 2160, "h", "Contiguous hours needed");
    }

    private MonitorFinding Found(int from, int count, int droppedFirst, List<TestReason> reasons)
    {
        var valid = !reasons.Exists(reason => reason.Kind == ReasonKind.Invalidates);
        if (count == 0)
            return new(valid, null, 0, droppedFirst, null, null, reasons);
        var average = RadonConcentration.Average([.. Hours.Skip(from).Take(count).Select(hour => hour.Result).OfType<RadonConcentration>()]);
        return new(valid, average, count, droppedFirst, Start.AddHours(from), Start.AddHours(from + count), reasons);
    }

    private int FirstHour(MonitorRules rules)
    {
        var first = Math.Min(rules.DropFirstHours, Hours.Count);
        while (first < Hours.Count && (Hours[first].TakenOut || Start.AddHours(first) < rules.NotBefore))
            first++;
        return first;
    }

    private bool HasGapInside(int first) => Inside(first).Any(hour => hour is { TakenOut: false, Result: null });

    private IEnumerable<MonitorHour> Inside(int first) => Hours.Take(LastRecorded() + 1).Skip(first);

    private int LastRecorded()
    {
        var last = Hours.Count - 1;
        while (last >= 0 && !Counts(last))
            last--;
        return last;
    }

    private (int From, int Count) LongestStretch(int first)
    {
        var (bestFrom, bestCount, from) = (first, 0, first);
        for (var hour = first; hour < Hours.Count; hour++)
        {
            if (!Counts(hour))
                from = hour + 1;
            else if (hour - from + 1 > bestCount)
                (bestFrom, bestCount) = (from, hour - from + 1);
        }

        return (bestFrom, bestCount);
    }

    private bool Counts(int hour) => Hours[hour] is { TakenOut: false, Result: not null };
}
