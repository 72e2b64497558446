using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>Everything a freeze forecast is computed from.</summary>
public sealed record FreezeInput
{
    /// <summary>The pipe outdoors and its flow.</summary>
    public required OutdoorRun Run { get; init; }

    /// <summary>What is assumed about the air and the weather.</summary>
    public StreamAssumptions Assumptions { get; init; } = new();

    /// <summary>Winter design temperature, °C (−50 to 5).</summary>
    public required double DesignC { get; init; }

    /// <summary>Mean temperature of January, °C (−30 to 15), at least 6 K above the design temperature.</summary>
    public required double JanuaryMeanC { get; init; }

    /// <summary>Length of the made-up winter, days (60 to 240).</summary>
    public int WinterDays { get; init; } = 150;

    /// <summary>Length of the cold spell at the design temperature, days (1 to 60).</summary>
    public int ColdSpellDays { get; init; } = 5;

    /// <summary>Daily swing within the cold spell above the design temperature, K (0 to 30).</summary>
    public double ColdSpellSwingK { get; init; } = 8;

    /// <summary>An imported daily record; when it holds whole winters they replace the made-up winter.</summary>
    public DailyRecord? Record { get; init; }

    /// <summary>Fan curve and gauge reading, when known: then the flow falls as ice closes, and the gauge is foretold.</summary>
    public SuctionSystem? System { get; init; }

    /// <summary>Price of electricity, dollars per kWh (0 to 2).</summary>
    public double DollarsPerKWh { get; init; } = 0.15;

    /// <summary>Heat cable sizes on offer, W per foot, rising; common sizes, common practice, no source.</summary>
    public IReadOnlyList<double> CableSizesWPerFt { get; init; } = [3, 5, 8, 10, 12];

    /// <summary>Outdoor temperature under which the cable's thermostat switches it on, °C (−10 to 10); common practice, no source.</summary>
    public double CableOnBelowC { get; init; } = 3;

    /// <summary>Water running back on the fan from which a bypass is advised, kg a day (house rule, not from a standard).</summary>
    public double BypassFromKgPerDay { get; init; } = 0.5;

    /// <summary>Number of repeated trials over the assumptions, a count, dimensionless (0 to 1000).</summary>
    public int Trials { get; init; } = 60;

    /// <summary>Seed of the trials and of the made-up winter; the same seed gives the same report, dimensionless.</summary>
    public ulong Seed { get; init; } = 1;
}
