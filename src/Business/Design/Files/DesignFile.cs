namespace MitigationOffice.Business.Design.Files;

/// <summary>All that goes into the computation of one design, in SI units: what the program stores a hash of, offers as a
/// file, and reads back with the verb <c>design</c>. docs/design-file.md describes every field.</summary>
public sealed record DesignFile
{
    public const int CurrentFormat = 1;

    public required int Format { get; init; }
    public string House { get; init; } = "";
    public string Revision { get; init; } = "";
    public required FileSite Site { get; init; }
    public required FilePrices Prices { get; init; }

    /// <summary>Suction wanted at the weakest hole in design winter, Pa: a house rule.</summary>
    public required double TargetPa { get; init; }
    public required FileTest Test { get; init; }
    public required IReadOnlyList<FilePiece> Route { get; init; }
    public required IReadOnlyList<FileFan> Fans { get; init; }

    /// <summary>Model of the fan that was chosen; null takes the recommended one.</summary>
    public string? ChosenFan { get; init; }
    public FileDischarge? Discharge { get; init; }
}

public sealed record FileSite
{
    public required double ElevationM { get; init; }
    public required double DesignWinterC { get; init; }
    public required double JanuaryMeanC { get; init; }
    public required double MeanAnnualC { get; init; }
    public required double IndoorC { get; init; }
    public required int WinterDays { get; init; }
    public required double HeatingDegreeDaysC { get; init; }

    /// <summary>Storeys above the ground; the stack's height follows from it.</summary>
    public required double Storeys { get; init; }
    public required bool Basement { get; init; }
}

public sealed record FilePrices
{
    public required double ElectricityCentsPerKWh { get; init; }
    public required double FuelDollarsPerTherm { get; init; }
    public required double HeatingEfficiency { get; init; }

    /// <summary>Share of the exhausted air that comes from the house, 0 to 1: an assumption.</summary>
    public required double IndoorAirShare { get; init; }
}

public sealed record FileTest
{
    public required DateOnly Day { get; init; }
    public required double OutdoorC { get; init; }
    public required double IndoorC { get; init; }
    public required IReadOnlyList<FileSetting> Settings { get; init; }
    public required IReadOnlyList<FileHole> Holes { get; init; }
}

public sealed record FileSetting
{
    public required string Label { get; init; }

    /// <summary>Model of the fan that was tried; null for a vacuum.</summary>
    public string? Fan { get; init; }

    /// <summary>Suction at the pit, positive.</summary>
    public required double PitVacuumPa { get; init; }
    public double? FlowM3PerS { get; init; }
    public double? Watts { get; init; }
}

public sealed record FileHole
{
    public required string Label { get; init; }
    public double? DistanceM { get; init; }
    public double? FanOffPa { get; init; }

    /// <summary>One for each setting, in the order of the settings; null where not read. Suction is negative.</summary>
    public required IReadOnlyList<double?> FanOnPa { get; init; }
}

public sealed record FilePiece
{
    public required PieceKind Kind { get; init; }
    public required string Size { get; init; }
    public double LengthM { get; init; }
    public double RiseM { get; init; }
    public PiecePlace Place { get; init; }
    public int Count { get; init; } = 1;
    public double? LossK { get; init; }
}

public sealed record FileFan
{
    public required string Model { get; init; }
    public double PriceDollars { get; init; }
    public int ExpectedLifeYears { get; init; } = 8;
    public required IReadOnlyList<FileFanPoint> Points { get; init; }
}

public sealed record FileFanPoint(double FlowM3PerS, double StaticPressurePa, double Watts);

public sealed record FileDischarge
{
    public double? AboveGradeM { get; init; }
    public double? OpeningDistanceM { get; init; }
    public double? AboveOpeningTopM { get; init; }
    public double? AboveRoofM { get; init; }
    public double? AdjacentBuildingM { get; init; }
    public bool RainCap { get; init; }
    public double FromVerticalDeg { get; init; }

    /// <summary>Key of the siting rules.</summary>
    public required string Rules { get; init; }
}
