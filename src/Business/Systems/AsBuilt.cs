using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>What was built and how it ran when it was handed over, read from the form.</summary>
public sealed record AsBuilt
{
    public required int HouseId { get; init; }
    public int? JobId { get; init; }
    public int? SuctionDesignId { get; init; }
    public required string TagNumber { get; init; }
    public required DateTime ActivatedAtUtc { get; init; }

    /// <summary>The day of the fan's start, where the house stands.</summary>
    public required DateOnly CompletedOn { get; init; }
    public string SystemType { get; init; } = "";
    public int SuctionPoints { get; init; } = 1;
    public string PipeSize { get; init; } = "";
    public string FanPlace { get; init; } = "";
    public double? StartUpGaugePa { get; init; }
    public string StartUpGaugeAsEntered { get; init; } = "";
    public double? StartUpWatts { get; init; }
    public double? OutdoorC { get; init; }

    /// <summary>What the suction at the holes was read with: name and serial number, as on the device.</summary>
    public string Instrument { get; init; } = "";

    /// <summary>Said by who was there: no appliance of this house draws by a chimney.</summary>
    public bool NothingDraws { get; init; }
    public IReadOnlyList<CheckedDraft> Drafts { get; init; } = [];
    public BackdraftCheck Backdraft => JudgeDraft.Of(Drafts, NothingDraws);
    public string BackdraftNotes { get; init; } = "";
    public bool LeftRunning { get; init; } = true;

    /// <summary>Empty: keep what is on record.</summary>
    public Money? Price { get; init; }
    public string DifferencesFromDesign { get; init; } = "";
    public string SecondBranch { get; init; } = "";
    public string TakenOverParts { get; init; } = "";

    /// <summary>Empty: keep what is on record.</summary>
    public Money? TakenOverCredit { get; init; }
    public string Electrician { get; init; } = "";
    public string ElectricianLicence { get; init; } = "";
    public DateOnly? WiringSignedOn { get; init; }

    /// <summary>Fan, gauge, alarm and whatever else was fitted; a part without a model was not fitted.</summary>
    public IReadOnlyList<FittedPart> Parts { get; init; } = [];
    public IReadOnlyList<FinalReading> Readings { get; init; } = [];
}

public sealed record FittedPart(ComponentKind Kind, string Model, string Serial = "")
{
    public int? FanId { get; init; }
    public DateOnly? BatteryFittedOn { get; init; }
    public DateOnly? WarrantyUntil { get; init; }
}

/// <param name="SuctionPa">Positive: suction under the slab.</param>
public sealed record FinalReading(string HoleLabel, double SuctionPa, double? PredictedPa = null)
{
    /// <summary>The same hole with the fan off; negative: the soil pushes.</summary>
    public double? FanOffPa { get; init; }
}

/// <summary>The draft of one appliance, checked with the system running.</summary>
public sealed record CheckedDraft(string Appliance, DraftResult Result, decimal? SpilledMinutes = null, string Notes = "");
