namespace MitigationOffice.Engineering.Freezing;

/// <summary>The bare outdoor run in steady weather.</summary>
public sealed record RunProfile
{
    /// <summary>Outdoor temperature, °C.</summary>
    public required double OutdoorC { get; init; }

    /// <summary>The cells from the foot of the run to the mouth.</summary>
    public required IReadOnlyList<RunStation> Stations { get; init; }

    /// <summary>Air temperature at the foot of the run, °C.</summary>
    public required double EntryC { get; init; }

    /// <summary>Air temperature at the mouth, °C.</summary>
    public required double ExitC { get; init; }

    /// <summary>Water brought in by the air, as vapour and fog, kg a day.</summary>
    public required double WaterInKgPerDay { get; init; }

    /// <summary>Water that leaves the mouth as vapour, kg a day.</summary>
    public required double VapourOutKgPerDay { get; init; }

    /// <summary>Water that leaves the mouth as fog, kg a day.</summary>
    public required double FogOutKgPerDay { get; init; }

    /// <summary>Water that condenses in the run and runs off, kg a day.</summary>
    public required double CondensateKgPerDay { get; init; }

    /// <summary>The part of the condensate that runs back to the foot of the run, kg a day.</summary>
    public required double BackToFootKgPerDay { get; init; }

    /// <summary>Frost laid down in the run, kg a day.</summary>
    public required double FrostKgPerDay { get; init; }

    /// <summary>Heat lost through the wall of the whole run, W.</summary>
    public required double HeatLostW { get; init; }

    /// <summary>Heat given up by the air: entry less exit enthalpy, less what the water that stays behind keeps, W.</summary>
    public required double HeatGivenW { get; init; }

    /// <summary>Distance at which condensate first forms, m; null when none does.</summary>
    public required double? FirstCondensateM { get; init; }

    /// <summary>Distance at which frost first forms, m; null when none does.</summary>
    public required double? FirstFrostM { get; init; }

    /// <summary>Coldest inner wall, °C.</summary>
    public double ColdestWallC => Stations.Min(station => station.WallC);
}
