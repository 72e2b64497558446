namespace MitigationOffice.Engineering.Radon;

/// <summary>The settings of the post-mitigation verdict; the defaults are the published values.</summary>
public sealed record PostMitigationRules
{
    /// <summary>The published defaults.</summary>
    public static readonly PostMitigationRules Default = new();

    /// <summary>Shortest test, hours (48: 25 Pa. Code 240.310(a)(4)(ii)).</summary>
    public int ShortestTestHours { get; init; } = 48;

    /// <summary>
    /// Contiguous hours, h, a continuous monitor needs after both conditions are met when it was started before them
    /// (46: ANSI/AARST MAH 2019, 7.3.2(b); 44 in the older EPA practice).
    /// </summary>
    public int MonitorShortestHours { get; init; } = 46;

    /// <summary>
    /// Contiguous hours, h, a continuous monitor needs when it was started after both conditions were met
    /// (44: 48 h logged less the first 4, the older EPA practice, quoted; 48 h: 25 Pa. Code 240.310(a)(4)(ii)).
    /// </summary>
    public int MonitorShortestHoursInTime { get; init; } = 44;

    /// <summary>Hours, h, at the start of a continuous monitor's record that never count (4: ANSI/AARST MAH 2019, 8.5.3).</summary>
    public int MonitorWarmUpHours { get; init; } = 4;

    /// <summary>Tests longer than this many days are long-term and need no closed building (90; EPA 402-R-92-003, from memory).</summary>
    public int LongTermOverDays { get; init; } = 90;

    /// <summary>Devices no further apart than this many inches are collocated (8: ANSI/AARST MAH 2019, 8.5.2(d)).</summary>
    public decimal CollocatedWithinInches { get; init; } = 8m;

    /// <summary>A continuous monitor's calibration is good for this many months (12: from memory).</summary>
    public int CalibrationGoodForMonths { get; init; } = 12;

    /// <summary>
    /// True makes a start after the last day of the window invalid. The default only notes it:
    /// repeating a late test cannot make it earlier, and its reading of the house is as good (house rule).
    /// </summary>
    public bool LateStartInvalidates { get; init; }
}
