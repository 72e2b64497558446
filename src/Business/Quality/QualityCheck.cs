using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.Quality;

public enum CheckKind
{
    Blank,
    Spike,
    Pair,
}

/// <summary>A quality check that is no test of a house: a blank, a spiked device, or a pair exposed for comparison alone.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Day))]
public sealed class QualityCheck : Record
{
    public CheckKind Kind { get; set; }
    public DeviceKind DeviceKind { get; set; } = DeviceKind.Charcoal;
    public DateOnly Day { get; set; }
    public string Serial { get; set; } = "";
    public string SecondSerial { get; set; } = "";

    /// <summary>What the device showed; empty while it is at the laboratory.</summary>
    public decimal? PCiL { get; set; }

    /// <summary>A spike's known concentration, a blank's lower limit of detection, or the second device of a pair.</summary>
    public decimal? AgainstPCiL { get; set; }
    public string Notes { get; set; } = "";
}

/// <summary>What was found and done about a point outside the limits.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Point), IsUnique = true)]
public sealed class QualityAction : Record
{
    /// <summary>Which point: "test:12:A" for a pair of a test, "check:7" for a check.</summary>
    public required string Point { get; set; }
    public required string Words { get; set; }
    public DateTime AtUtc { get; set; }
    public string By { get; set; } = "";
}
