using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests.Monitor;

namespace MitigationOffice.Business.Tests;

public enum TestReason
{
    PostMitigation,
    Retest,
    AfterChange,
    Sale,
}

public enum TestOutcome
{
    NotJudged,
    BelowTarget,
    BelowActionLevel,
    NotPassed,
    NotValid,
}

/// <summary>A radon test of the house, after the work or years later.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId))]
public sealed class RadonTest : Record
{
    public int HouseId { get; set; }
    public int? InstalledSystemId { get; set; }
    public TestReason Reason { get; set; }
    public DateTime? ClosedHouseFromUtc { get; set; }
    public DateTime StartedAtUtc { get; set; }

    /// <summary>Empty while the devices are out.</summary>
    public DateTime? EndedAtUtc { get; set; }
    public string MadeBy { get; set; } = "";
    public string MadeByNumber { get; set; } = "";
    public string Notes { get; set; } = "";

    /// <summary>False when windows or doors stood open during the test, beyond coming and going.</summary>
    public bool StayedClosed { get; set; } = true;

    /// <summary>The level the result was held against, pCi/L.</summary>
    public decimal? TargetPCiL { get; set; }
    public TestOutcome Outcome { get; set; }
    public decimal? DecidingPCiL { get; set; }

    /// <summary>The reasons of the verdict, a sentence a line.</summary>
    public string OutcomeWhy { get; set; } = "";
    public DateTime? JudgedAtUtc { get; set; }
    public int? LetterDocumentId { get; set; }
    public DateTime? LetterSentAtUtc { get; set; }
    public List<TestDevice> Devices { get; set; } = [];
}

public enum DeviceKind
{
    ContinuousMonitor,
    Electret,
    Charcoal,
    LiquidScintillation,
    AlphaTrack,
}

[Holds(Truth.Fact)]
public sealed class TestDevice : Record
{
    public int RadonTestId { get; set; }
    public DeviceKind Kind { get; set; }
    public string Serial { get; set; } = "";
    public required string Room { get; set; }

    /// <summary>Devices of one pair (at most 8 in apart) carry the same word here.</summary>
    public string Pair { get; set; } = "";

    /// <summary>Distance to the first device of the pair; empty on the first one, or where nobody measured it.</summary>
    public double? ApartM { get; set; }

    /// <summary>Hours somebody took out of the middle of a monitor's record; anything but 0 spoils the test.</summary>
    public int HoursTakenOut { get; set; }
    public DateOnly? CalibratedOn { get; set; }

    /// <summary>Typed from the laboratory's report; computed where a monitor's file is kept.</summary>
    public decimal? PCiL { get; set; }

    /// <summary>The office's own device, where the serial number is in its register.</summary>
    public int? InstrumentId { get; set; }

    /// <summary>The last day of the calibration that held when the test began.</summary>
    public DateOnly? CalibrationDueOn { get; set; }

    /// <summary>The hours of its file, where it is a monitor and the file is kept.</summary>
    public MonitorRecord? Monitor { get; set; }
}
