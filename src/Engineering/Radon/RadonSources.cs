using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>The sources the radon rules cite.</summary>
public static class RadonSources
{
    /// <summary>When a post-mitigation test may start, and the extended run of a continuous monitor.</summary>
    public static readonly Citation PostMitigationTesting = new("ANSI/AARST MAH 2019, 7.3.2", Certainty.Published);

    /// <summary>The shortest short-term test.</summary>
    public static readonly Citation ShortestTest = new("25 Pa. Code 240.310(a)(4)(ii)", Certainty.Published);

    /// <summary>Collocated and separate devices, averages and rounding.</summary>
    public static readonly Citation Averages = new("ANSI/AARST MAH 2019, 8.5.2", Certainty.Published);

    /// <summary>Hourly data of continuous monitors.</summary>
    public static readonly Citation HourlyData = new("ANSI/AARST MAH 2019, 8.5.3", Certainty.Published);

    /// <summary>The calibration date belongs on the report.</summary>
    public static readonly Citation CalibrationReported = new("ANSI/AARST MAH 2019, 8.5.3(b)", Certainty.Published);

    /// <summary>How long a calibration is good for.</summary>
    public static readonly Citation CalibrationInterval = new("12-month calibration of continuous monitors", Certainty.FromMemory);

    /// <summary>Results at or above the action level after mitigation.</summary>
    public static readonly Citation NotPassed = new("EPA 402-R-93-078, section 17", Certainty.FromMemory);

    /// <summary>Two results on the same side of the action level.</summary>
    public static readonly Citation TwoSameSide = new("ANSI/AARST MAH 2019, 7.2.1", Certainty.Published);

    /// <summary>Two results on either side of the action level.</summary>
    public static readonly Citation TwoEitherSide = new("EPA 402-R-92-003, 3.2.2", Certainty.FromMemory);

    /// <summary>Limits for pairs of devices.</summary>
    public static readonly Citation PairLimits = new("ANSI/AARST MS-QA 2019, 3.5 and Table 7.1", Certainty.Published);

    /// <summary>Limits for spiked devices.</summary>
    public static readonly Citation SpikeLimits = new("ANSI/AARST MS-QA 2019, 5.3.3", Certainty.Published);

    /// <summary>How many spiked devices are owed.</summary>
    public static readonly Citation SpikeCounts = new("ANSI/AARST MS-QA 2019, 5.3.1", Certainty.Published);

    /// <summary>How many comparisons of a continuous monitor are owed.</summary>
    public static readonly Citation MonitorComparisons = new("ANSI/AARST MS-QA 2019, 4.2", Certainty.Published);

    /// <summary>How many duplicates and blanks are owed, and when a blank is looked into.</summary>
    public static readonly Citation DuplicatesAndBlanks = new("EPA 402-R-92-004", Certainty.FromMemory);

    /// <summary>Limits from the company's own pairs.</summary>
    public static readonly Citation OwnLimits = new("mean with two and three standard deviations, as on any control chart", Certainty.FromMemory);

    /// <summary>A promise of the company's own, or a rule of this library that no standard gives.</summary>
    public static readonly Citation HouseRule = new("house rule, not from a standard", Certainty.CommonPractice);
}
