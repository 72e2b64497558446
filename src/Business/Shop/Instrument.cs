using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

public enum InstrumentKind
{
    ContinuousMonitor,
    Manometer,
    Anemometer,
    ElectretReader,
    ElectretBatch,
    CharcoalBatch,
    AlphaTrackBatch,
    CombustionMeter,
    Other,
}

/// <summary>A measuring device, or a batch of passive ones, that the office owns or borrows.</summary>
[Holds(Truth.Fact)]
[Index(nameof(SerialKey), nameof(Kind), IsUnique = true)]
public sealed class Instrument : Record
{
    public InstrumentKind Kind { get; set; }
    public required string Serial { get; set; }

    /// <summary>The serial number as it is compared: letters and digits only, in capitals.</summary>
    public string SerialKey { get; set; } = "";
    public string Model { get; set; } = "";
    public string KeptBy { get; set; } = "";

    /// <summary>The last day a batch may be opened.</summary>
    public DateOnly? UseBy { get; set; }
    public bool Retired { get; set; }
    public string Notes { get; set; } = "";

    /// <summary>How this monitor writes its files, as last confirmed; empty until a file was kept.</summary>
    public string FileHabit { get; set; } = "";
    public List<Calibration> Calibrations { get; set; } = [];

    public static string KeyOf(string? serial) =>
        new([.. (serial ?? "").ToUpperInvariant().Where(char.IsLetterOrDigit)]);

    /// <summary>The calibration that held on a day: the newest one not after it.</summary>
    public Calibration? OnDay(DateOnly day) => Calibrations.Where(c => c.DoneOn <= day).MaxBy(c => c.DoneOn);
}

[Holds(Truth.Fact)]
public sealed class Calibration : Record
{
    /// <summary>Continuous monitors are calibrated every twelve months (from memory; see docs/calculations/radon.md).</summary>
    public const int UsualMonths = 12;

    public int InstrumentId { get; set; }
    public DateOnly DoneOn { get; set; }

    /// <summary>Not good after this day; empty where nothing is due.</summary>
    public DateOnly? DueOn { get; set; }
    public string DoneBy { get; set; } = "";
    public string Certificate { get; set; } = "";
}
