using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

public enum BackdraftCheck
{
    NotDone,
    NothingToCheck,
    Passed,
    Failed,
}

/// <summary>What stands in the house. A fan swap changes a component, not the system.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId))]
[Index(nameof(TagNumber), IsUnique = true)]
[Index(nameof(ActivatedAtUtc))]
public sealed class InstalledSystem : Record
{
    public int HouseId { get; set; }
    public int? JobId { get; set; }
    public int? SuctionDesignId { get; set; }
    public required string TagNumber { get; set; }

    /// <summary>The instant the fan was switched on to stay: test window and state deadlines run from here.</summary>
    public DateTime ActivatedAtUtc { get; set; }
    public DateOnly CompletedOn { get; set; }
    public string SystemType { get; set; } = "Sub-slab suction";
    public int SuctionPoints { get; set; } = 1;
    public string PipeSize { get; set; } = "4in";
    public string FanPlace { get; set; } = "";

    /// <summary>Static pressure the U-tube manometer showed at start-up, Pa.</summary>
    public double? StartUpGaugePa { get; set; }
    public string StartUpGaugeAsEntered { get; set; } = "";
    public double? StartUpWatts { get; set; }

    /// <summary>Outdoors when the last readings were taken, °C.</summary>
    public double? OutdoorC { get; set; }

    /// <summary>What the suction at the holes was read with, in words, and which of the office's register it is.</summary>
    public string Instrument { get; set; } = "";
    public int? InstrumentId { get; set; }

    /// <summary>What the checks of the single appliances come to.</summary>
    public BackdraftCheck Backdraft { get; set; }
    public string BackdraftNotes { get; set; } = "";
    public bool LeftRunning { get; set; } = true;
    public Money Price { get; set; }
    public string DifferencesFromDesign { get; set; } = "";

    /// <summary>What was left ready for a second suction point: a capped tee, where.</summary>
    public string SecondBranch { get; set; } = "";

    /// <summary>Parts that already stood in the house and were used again, and what the buyer is credited for them.</summary>
    public string TakenOverParts { get; set; } = "";
    public Money TakenOverCredit { get; set; }
    public string Electrician { get; set; } = "";
    public string ElectricianLicence { get; set; } = "";
    public DateOnly? WiringSignedOn { get; set; }
    public int? LabelDocumentId { get; set; }
    public int? PacketDocumentId { get; set; }
    public List<SystemComponent> Components { get; set; } = [];
    public List<FinalSuction> FinalSuctions { get; set; } = [];
    public List<DraftCheck> DraftChecks { get; set; } = [];
}

public enum ComponentKind
{
    Fan,
    Gauge,
    Alarm,
    HeatCable,
    CondensateBypass,
    SumpLid,
    Other,
}

/// <summary>A part with a life of its own: fitted, and one day taken out.</summary>
[Holds(Truth.Fact)]
[Index(nameof(InstalledSystemId))]
public sealed class SystemComponent : Record
{
    public int InstalledSystemId { get; set; }
    public ComponentKind Kind { get; set; }
    public required string Model { get; set; }
    public int? FanId { get; set; }
    public string Serial { get; set; } = "";
    public DateOnly FittedOn { get; set; }
    public DateOnly? RemovedOn { get; set; }
    public DateOnly? BatteryFittedOn { get; set; }
    public DateOnly? WarrantyUntil { get; set; }
}

/// <summary>Suction at a test hole with the finished system running, beside what was predicted.</summary>
[Holds(Truth.Fact)]
public sealed class FinalSuction : Record
{
    public int InstalledSystemId { get; set; }
    public required string HoleLabel { get; set; }
    public double SuctionPa { get; set; }

    /// <summary>The same hole with the fan off; negative: the soil pushes.</summary>
    public double? FanOffPa { get; set; }
    public double? PredictedPa { get; set; }
}

public enum DraftResult
{
    NotChecked,
    Draws,
    Spills,
}

/// <summary>The backdraft check of one appliance that draws by a chimney, with the system running.</summary>
[Holds(Truth.Fact)]
public sealed class DraftCheck : Record
{
    public int InstalledSystemId { get; set; }
    public required string Appliance { get; set; }
    public DraftResult Result { get; set; }

    /// <summary>How long it spilled after it was lit until it drew, or until the check was given up; empty: not timed.</summary>
    public decimal? SpilledMinutes { get; set; }
    public string Notes { get; set; } = "";

    /// <summary>"Water heater: draws, spilled for 1.5 min".</summary>
    public string InWords => $"{Appliance}: {Result switch { DraftResult.Draws => "draws", DraftResult.Spills => "spills", _ => "not checked" }}{(SpilledMinutes is { } m ? $", spilled for {TypedNumbers.Plain(m)} min" : "")}{(Notes.Length > 0 ? $" ({Notes})" : "")}";
}
