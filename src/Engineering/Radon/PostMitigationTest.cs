namespace MitigationOffice.Engineering.Radon;

/// <summary>The kinds of radon test device.</summary>
public enum DeviceKind
{
    /// <summary>Activated charcoal, read by gamma counting.</summary>
    ActivatedCharcoal,

    /// <summary>Charcoal read by liquid scintillation.</summary>
    CharcoalLiquidScintillation,

    /// <summary>Alpha track.</summary>
    AlphaTrack,

    /// <summary>Electret ion chamber.</summary>
    ElectretIonChamber,

    /// <summary>Continuous monitor: hourly readings.</summary>
    ContinuousMonitor,

    /// <summary>Any other approved passive device.</summary>
    OtherPassive,
}

/// <summary>One device of a post-mitigation test and what it showed.</summary>
public sealed record TestDevice
{
    /// <summary>What names the device on the page, for example its serial number.</summary>
    public required string Name { get; init; }

    /// <summary>The kind of device.</summary>
    public required DeviceKind Kind { get; init; }

    /// <summary>The room, in the words of the tester.</summary>
    public required string Room { get; init; }

    /// <summary>The result; pCi/L inside.</summary>
    public required RadonConcentration Result { get; init; }

    /// <summary>Devices meant as one collocated group carry the same word here; null stands alone.</summary>
    public string? CollocationGroup { get; init; }

    /// <summary>Distance to the first device of its group, inches; null on the first one, or where it was not measured.</summary>
    public decimal? DistanceToGroupInches { get; init; }

    /// <summary>The day of the last calibration; needed for a continuous monitor.</summary>
    public DateOnly? CalibratedOn { get; init; }

    /// <summary>
    /// Hours taken out of the inside of a continuous monitor's record, h; anything but 0 invalidates the test.
    /// Hours dropped at the beginning are not counted here.
    /// </summary>
    public int HoursCutFromInside { get; init; }

    /// <summary>The last day the calibration is good for, where its certificate says one.</summary>
    public DateOnly? CalibrationDueOn { get; init; }

    /// <summary>What the hourly record of a continuous monitor says; null where the record is not at hand.</summary>
    public MonitorFinding? Hourly { get; init; }

    /// <summary>True for a continuous monitor.</summary>
    public bool IsContinuousMonitor => Kind == DeviceKind.ContinuousMonitor;
}

/// <summary>A radon test after the system was switched on: what the verdict is drawn from.</summary>
public sealed record PostMitigationTest
{
    /// <summary>The instant the fan was switched on, or other work that ends the mitigation was finished.</summary>
    public required DateTimeOffset FanOn { get; init; }

    /// <summary>The instant the house was closed up; null when it was not written down.</summary>
    public DateTimeOffset? ClosedSince { get; init; }

    /// <summary>False when doors or windows stood open, beyond coming and going, during the test.</summary>
    public bool StayedClosed { get; init; } = true;

    /// <summary>Start of the test.</summary>
    public required DateTimeOffset Start { get; init; }

    /// <summary>End of the test.</summary>
    public required DateTimeOffset End { get; init; }

    /// <summary>The level promised for this house; pCi/L inside. The test passes below it, not at it.</summary>
    public required RadonConcentration Target { get; init; }

    /// <summary>The devices, at least one.</summary>
    public required IReadOnlyList<TestDevice> Devices { get; init; }

    /// <summary>The zone of the house, in whose clock time instants are told; null tells them by their own offset.</summary>
    public TimeZoneInfo? Zone { get; init; }

    /// <summary>Length of the test.</summary>
    public TimeSpan Length => End - Start;
}
