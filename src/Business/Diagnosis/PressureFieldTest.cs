using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Diagnosis;

/// <summary>A pressure field extension (PFE) test: one day's suction and what it did at the test holes.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId))]
public sealed class PressureFieldTest : Record
{
    public int HouseId { get; set; }
    public DateOnly Day { get; set; }
    public string MeasuredBy { get; set; } = "";
    public string Instrument { get; set; } = "";

    /// <summary>The instrument in the office's register that the words above name; empty: none of them.</summary>
    public int? InstrumentId { get; set; }
    public double OutdoorC { get; set; }
    public double IndoorC { get; set; } = 21.1;
    public string AppliancesRunning { get; set; } = "";
    public string Notes { get; set; } = "";
    public List<SuctionHole> SuctionHoles { get; set; } = [];
    public List<TestHole> TestHoles { get; set; } = [];
    public List<FanSetting> Settings { get; set; } = [];

    /// <summary>Metres from a test hole to the suction hole nearest to it: as typed, else by their places on the floor plan; null where neither is known.</summary>
    public double? FromPitM(TestHole hole) => hole.DistanceM ?? (hole.At is { } at ? SuctionHoles.Select(s => s.At?.DistanceM(at)).Min() : null);
}

/// <summary>Where suction was drawn.</summary>
[Holds(Truth.Fact)]
public sealed class SuctionHole : Record
{
    public int PressureFieldTestId { get; set; }
    public required string Label { get; set; }
    public string Place { get; set; } = "";

    /// <summary>Where it is on the house's floor plan, metres across and up; empty: not on the plan.</summary>
    public double? XM { get; set; }
    public double? YM { get; set; }

    public PlanPoint? At => XM is { } x && YM is { } y ? new(x, y) : null;
}

/// <summary>A drilled hole where the pressure under the slab was read, with the fan off and on.</summary>
[Holds(Truth.Fact)]
public sealed class TestHole : Record
{
    public int PressureFieldTestId { get; set; }
    public int Position { get; set; }
    public required string Label { get; set; }
    public string Place { get; set; } = "";
    public double? DistanceM { get; set; }

    /// <summary>Where it is on the house's floor plan, metres across and up; empty: not on the plan.</summary>
    public double? XM { get; set; }
    public double? YM { get; set; }

    public PlanPoint? At => XM is { } x && YM is { } y ? new(x, y) : null;

    /// <summary>Fan off; positive means the slab pushes into the house, negative means suction under the slab.</summary>
    public double? FanOffPa { get; set; }
    public List<HoleReading> Readings { get; set; } = [];
}

/// <summary>One fan or vacuum at one setting.</summary>
[Holds(Truth.Fact)]
public sealed class FanSetting : Record
{
    public int PressureFieldTestId { get; set; }
    public int Position { get; set; }

    /// <summary>The fan of the catalogue that was tried; empty for a vacuum or a borrowed fan.</summary>
    public int? FanId { get; set; }
    public required string Label { get; set; }

    /// <summary>Suction in the pipe above the pit, positive.</summary>
    public double PitVacuumPa { get; set; }
    public string PitVacuumAsEntered { get; set; } = "";
    public double? FlowM3PerS { get; set; }
    public double? Watts { get; set; }
}

/// <summary>What one hole showed at one setting. Suction under the slab is negative here, as the gauge shows it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TestHoleId), nameof(FanSettingId), IsUnique = true)]
public sealed class HoleReading : Record
{
    public int TestHoleId { get; set; }
    public int FanSettingId { get; set; }
    public double FanOnPa { get; set; }
    public string AsEntered { get; set; } = "";
}
