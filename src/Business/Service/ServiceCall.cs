using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Service;

/// <summary>What somebody sees or hears of a system.</summary>
public enum Sign
{
    /// <summary>Only the gauge was read.</summary>
    JustReading,
    GaugeLevel,
    GaugeLower,
    GaugeHigher,
    AlarmBeepsNowAndThen,
    AlarmSounds,
    FanSilent,
    FanLoud,
    WaterHeard,
    IceSeen,
    PartBroken,
    FumesOrCoAlarm,
    RadonHighAgain,
    Other,
}

/// <summary>What was found on the visit, and what the program thinks likely before it.</summary>
public enum Cause
{
    NothingWrong,
    FanSwitchedOff,
    FanFailed,
    FanWeak,
    FanBearing,
    IceAtMouth,
    HeatCableFailed,
    WaterInPipe,
    SoilWetOrBlocked,
    LeakInPipeOrSlab,
    MouthBlocked,
    GaugeFault,
    AlarmBattery,
    AlarmFault,
    LoosePart,
    Backdraft,
    HouseChanged,
    Other,
}

public enum CallState
{
    Open,
    Settled,
    CalledOff,
}

/// <summary>Who pays for a visit. Settled by a person; nothing is invoiced by itself.</summary>
public enum Cover
{
    NotDecided,
    Warranty,
    Billed,
    NoCharge,
}

/// <summary>Somebody asks for help with a system that stands in a house; and what came of it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Number), IsUnique = true)]
[Index(nameof(HouseId))]
[Index(nameof(State))]
[Index(nameof(SendingKey), IsUnique = true)]
public sealed class ServiceCall : Record
{
    /// <summary>"S-2026-0007".</summary>
    public required string Number { get; set; }
    public int HouseId { get; set; }
    public int? InstalledSystemId { get; set; }
    public CallState State { get; set; }
    public DateTime AskedAtUtc { get; set; }

    /// <summary>Asked on the system's own page and not by phone.</summary>
    public bool ByOwnPage { get; set; }
    public string CallerName { get; set; } = "";
    public string CallerPhone { get; set; } = "";
    public string CallerEmail { get; set; } = "";
    public Sign Sign { get; set; }
    public string Words { get; set; } = "";
    public double? GaugePa { get; set; }
    public string GaugeAsEntered { get; set; } = "";
    public double? OutdoorC { get; set; }

    /// <summary>What was found; empty while open.</summary>
    public Cause? Found { get; set; }
    public string Done { get; set; } = "";
    public double? GaugeAfterPa { get; set; }
    public DateOnly? SettledOn { get; set; }
    public string SettledBy { get; set; } = "";
    public Cover Cover { get; set; }
    public string CalledOffBecause { get; set; } = "";

    /// <summary>Key of the sending that made it, so that the same form makes one call.</summary>
    [NotAudited]
    public required string SendingKey { get; set; }
}

/// <summary>A maker's recall of a fan model: every house that has one is listed and written to once.</summary>
[Holds(Truth.Fact)]
public sealed class FanRecall : Record
{
    public required string Model { get; set; }

    /// <summary>Serial numbers it is about, first and last; both empty: all.</summary>
    public string SerialFrom { get; set; } = "";
    public string SerialTo { get; set; } = "";
    public required string Reason { get; set; }

    /// <summary>What the house owner should do until somebody comes.</summary>
    public required string Advice { get; set; }
    public DateTime OpenedAtUtc { get; set; }
    public string OpenedBy { get; set; } = "";
    public DateTime? ClosedAtUtc { get; set; }
}

/// <summary>That one house was written to about a recall, once: by mail or by a letter on paper.</summary>
[Holds(Truth.Fact)]
[Index(nameof(FanRecallId), nameof(SystemComponentId), IsUnique = true)]
public sealed class RecallNotice : Record
{
    public int FanRecallId { get; set; }
    public int SystemComponentId { get; set; }
    public int HouseId { get; set; }
    public int? OutboxMessageId { get; set; }
    public int? LetterDocumentId { get; set; }
    public DateTime AtUtc { get; set; }
    public string By { get; set; } = "";
}
