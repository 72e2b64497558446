using System.Text.Json.Serialization;

namespace MitigationOffice.Business.Design.Files;

/// <summary>All that goes into the computation of one design, in SI units: what the program stores a hash of, offers as a
/// file, and reads back with the verb <c>design</c>. docs/design-file.md describes every field. What is optional and left out is not
/// written, so that the hash of a file does not change when a later version knows more fields.</summary>
public sealed record DesignFile
{
    public const int CurrentFormat = 1;

    public required int Format { get; init; }
    public string House { get; init; } = "";
    public string Revision { get; init; } = "";
    public required FileSite Site { get; init; }
    public required FilePrices Prices { get; init; }

    /// <summary>Suction wanted at the weakest hole in design winter, Pa: a house rule.</summary>
    [Within(0, 100, "Pa")]
    public required double TargetPa { get; init; }
    public required FileTest Test { get; init; }

    [Within(0, 100, "pieces")]
    public required IReadOnlyList<FilePiece> Route { get; init; }

    [Within(0, 200, "fans")]
    public required IReadOnlyList<FileFan> Fans { get; init; }

    /// <summary>Model of the fan that was chosen; null takes the recommended one.</summary>
    public string? ChosenFan { get; init; }
    public FileDischarge? Discharge { get; init; }

    /// <summary>Suction points beside the first.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(1, 11, "further points")]
    public IReadOnlyList<FileFurtherPoint>? FurtherPoints { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public FileFloorPlan? FloorPlan { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public FileOutdoorRun? OutdoorRun { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public FileClimate? Climate { get; init; }
}

public sealed record FileSite
{
    [Within(-100, 4000, "m")]
    public required double ElevationM { get; init; }

    [Within(-60, 60, "°C")]
    public required double DesignWinterC { get; init; }

    [Within(-60, 60, "°C")]
    public required double JanuaryMeanC { get; init; }

    [Within(-40, 60, "°C")]
    public required double MeanAnnualC { get; init; }

    [Within(-60, 60, "°C")]
    public required double IndoorC { get; init; }

    [Within(1, 366, "days")]
    public required int WinterDays { get; init; }

    [Within(0, 12_000, "°C·days")]
    public required double HeatingDegreeDaysC { get; init; }

    /// <summary>Storeys above the ground; the stack's height follows from it.</summary>
    [Within(0, 20, "storeys")]
    public required double Storeys { get; init; }
    public required bool Basement { get; init; }

    /// <summary>Temperature of the soil gas; null takes the mean of the year.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(-5, 40, "°C")]
    public double? GroundC { get; init; }

    /// <summary>Height from the slab to the neutral plane; null takes half the heated height.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 60, "m")]
    public double? NeutralPlaneM { get; init; }
}

public sealed record FilePrices
{
    [Within(0, 500, "cents/kWh")]
    public required double ElectricityCentsPerKWh { get; init; }

    [Within(0, 1000, "dollars/therm")]
    public required double FuelDollarsPerTherm { get; init; }

    [Within(0.3, 5, "(efficiency)")]
    public required double HeatingEfficiency { get; init; }

    /// <summary>Share of the exhausted air that comes from the house, 0 to 1: an assumption.</summary>
    [Within(0, 1, "(share)")]
    public required double IndoorAirShare { get; init; }
}

public sealed record FileTest
{
    public required DateOnly Day { get; init; }

    [Within(-60, 60, "°C")]
    public required double OutdoorC { get; init; }

    [Within(-60, 60, "°C")]
    public required double IndoorC { get; init; }

    [Within(1, 50, "settings")]
    public required IReadOnlyList<FileSetting> Settings { get; init; }

    [Within(1, 200, "holes")]
    public required IReadOnlyList<FileHole> Holes { get; init; }

    /// <summary>Half the last digit of the gauge at the holes.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 50, "Pa")]
    public double? HoleResolutionPa { get; init; }

    /// <summary>Half the last mark of the gauge at the pit.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 100, "Pa")]
    public double? PitResolutionPa { get; init; }
}

public sealed record FileSetting
{
    public required string Label { get; init; }

    /// <summary>Model of the fan that was tried; null for a vacuum.</summary>
    public string? Fan { get; init; }

    /// <summary>Suction at the pit, positive.</summary>
    [Within(1, 20_000, "Pa")]
    public required double PitVacuumPa { get; init; }

    [Within(0, 5, "m³/s")]
    public double? FlowM3PerS { get; init; }

    [Within(0, 100_000, "W")]
    public double? Watts { get; init; }
}

public sealed record FileHole
{
    public required string Label { get; init; }

    [Within(0, 1000, "m")]
    public double? DistanceM { get; init; }

    [Within(-5000, 5000, "Pa")]
    public double? FanOffPa { get; init; }

    /// <summary>One for each setting, in the order of the settings; null where not read. Suction is negative.</summary>
    [Within(0, 50, "readings")]
    public required IReadOnlyList<double?> FanOnPa { get; init; }
}

public sealed record FilePiece
{
    public required PieceKind Kind { get; init; }
    public required string Size { get; init; }

    [Within(0, 300, "m")]
    public double LengthM { get; init; }

    [Within(-300, 300, "m")]
    public double RiseM { get; init; }
    public PiecePlace Place { get; init; }

    [Within(1, 100, "pieces")]
    public int Count { get; init; } = 1;

    [Within(0, 50, "(loss coefficient)")]
    public double? LossK { get; init; }

    /// <summary>Insulation round a pipe outdoors.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 0.15, "m")]
    public double? InsulationM { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0.015, 0.2, "W/(m·K)")]
    public double? InsulationWPerMK { get; init; }
}

public sealed record FileFan
{
    public required string Model { get; init; }

    [Within(0, 100_000, "dollars")]
    public double PriceDollars { get; init; }

    [Within(1, 100, "years")]
    public int ExpectedLifeYears { get; init; } = 8;

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 140, "dB(A)")]
    public double? NoiseDbA { get; init; }

    [Within(0, 500, "points")]
    public required IReadOnlyList<FileFanPoint> Points { get; init; }
}

public sealed record FileFanPoint(double FlowM3PerS, double StaticPressurePa, double Watts);
