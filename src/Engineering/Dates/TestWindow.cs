using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>When a short post-mitigation test may start.</summary>
/// <param name="EarliestStart">The first instant at which a passive test may start.</param>
/// <param name="LastDay">The last day on which it should start, in the offset of the fan-on instant.</param>
public sealed record TestWindow(DateTimeOffset EarliestStart, DateOnly LastDay)
{
    /// <summary>Wait after the fan is switched on, hours.</summary>
    public const int HoursAfterFanOn = 24;

    /// <summary>Closed-building time before a short test, hours.</summary>
    public const int ClosedBuildingHours = 12;

    /// <summary>The test should start within this many days of the fan being switched on.</summary>
    public const int DaysAfterFanOn = 30;

    /// <summary>Source of the earliest start.</summary>
    public static readonly Citation EarliestSource = new("ANSI/AARST MAH 2019, 7.3.2", Certainty.Published);

    /// <summary>Source of the last day.</summary>
    public static readonly Citation LastDaySource = new("EPA 402-R-93-078, section 17", Certainty.FromMemory);

    /// <summary>
    /// The window after the fan was switched on. Fan on 2024-03-01 10:00: from 2024-03-02 10:00 to the day 2024-03-31.
    /// Where the house was closed at 2024-03-02 18:00, from 2024-03-03 06:00: the later of the two.
    /// </summary>
    /// <param name="fanOn">The instant the fan was switched on, with the house's offset.</param>
    /// <param name="closedSince">The instant the house was closed up, where known.</param>
    /// <returns>The window.</returns>
    /// <remarks>Range: any instants. Source: ANSI/AARST MAH 2019, 7.3.2 (earliest); EPA 402-R-93-078, section 17, from memory (last day).</remarks>
    public static TestWindow After(DateTimeOffset fanOn, DateTimeOffset? closedSince = null)
    {
        var earliest = fanOn.AddHours(HoursAfterFanOn);
        if (closedSince?.AddHours(ClosedBuildingHours) is { } closedLongEnough && closedLongEnough > earliest)
            earliest = closedLongEnough.ToOffset(fanOn.Offset);
        return new(earliest, DateOnly.FromDateTime(fanOn.AddDays(DaysAfterFanOn).DateTime));
    }

    /// <summary>
    /// True when the instant lies after the last day. Fan on 2026-10-03: at 23:30 on November 2 it is not late, though
    /// by the summer offset of the fan-on instant it would be November 3.
    /// </summary>
    /// <param name="start">The start of a test, with the house's offset at that time.</param>
    /// <returns>Whether it is late.</returns>
    public bool IsLate(DateTimeOffset start) =>
        DateOnly.FromDateTime(start.DateTime) > LastDay;
}
