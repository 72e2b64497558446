using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Business.Service;

/// <summary>What is known when somebody looks at a system: what they see, and what was promised and measured before.</summary>
public sealed record Look(Sign Sign, DateOnly Day)
{
    /// <summary>Suction that the gauge shows today.</summary>
    public double? GaugePa { get; init; }
    public double? OutdoorC { get; init; }

    /// <summary>Suction that it showed at the start.</summary>
    public double? StartPa { get; init; }

    /// <summary>The design's freeze forecast; null where there is none.</summary>
    public FreezeResult? Winter { get; init; }
    public bool HasHeatCable { get; init; }
    public bool HasAlarm { get; init; }
    public bool HasSump { get; init; }
    public DateOnly? BatteryOn { get; init; }
    public int BatteryMonths { get; init; } = 12;
    public DateOnly? FanFittedOn { get; init; }
    public int? FanLifeYears { get; init; }
    public bool NaturalDraft { get; init; }

    /// <summary>False where the system was left switched off, for fumes came back or nobody had made sure that they do not.</summary>
    public bool LeftRunning { get; init; } = true;

    /// <summary>True in frost, false above it, null where nobody said how cold it is outdoors.</summary>
    public bool? Freezing => OutdoorC is { } c ? c <= 0 : null;

    /// <summary>Cold enough for ice, or not known and in the half of the year that has frost.</summary>
    public bool MayBeIce => Freezing ?? (Day.Month is >= 11 or <= 4);
}
