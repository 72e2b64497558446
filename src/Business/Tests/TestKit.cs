using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Tests;

public enum KitState
{
    Out,
    Placed,
    AtLab,
    Read,
    Lost,
}

/// <summary>A passive test device on its way: out of the office, into a room, to the laboratory, and read.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId))]
[Index(nameof(SerialKey))]
public sealed class TestKit : Record
{
    public int HouseId { get; set; }
    public DeviceKind Kind { get; set; } = DeviceKind.Charcoal;
    public required string Serial { get; set; }
    public string SerialKey { get; set; } = "";
    public int? BatchId { get; set; }
    public DateOnly OutOn { get; set; }

    /// <summary>Who has it: the house owner by name, or the independent tester.</summary>
    public string HandedTo { get; set; } = "";
    public bool IndependentTester { get; set; }
    public string TesterNumber { get; set; } = "";

    /// <summary>The day by which it should be at the laboratory or back in the office.</summary>
    public DateOnly BackBy { get; set; }
    public DateOnly? AskedOn { get; set; }
    public DateOnly? SentToLabOn { get; set; }
    public string Lab { get; set; } = "";
    public DateOnly? LostOn { get; set; }
    public string Notes { get; set; } = "";

    /// <summary>The device of a radon test that this kit became when it was opened in a room.</summary>
    public int? TestDeviceId { get; set; }
    public bool HasResult { get; set; }

    public KitState State => LostOn is not null ? KitState.Lost : HasResult ? KitState.Read : SentToLabOn is not null ? KitState.AtLab : TestDeviceId is not null ? KitState.Placed : KitState.Out;
}
