namespace MitigationOffice.Engineering.Freezing.Weather;

/// <summary>One day's outdoor temperatures.</summary>
public sealed record WeatherDay
{
    /// <summary>The calendar day.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>Lowest outdoor temperature of the day, °C.</summary>
    public required double MinC { get; init; }

    /// <summary>Highest outdoor temperature of the day, °C.</summary>
    public required double MaxC { get; init; }

    /// <summary>Middle of lowest and highest, °C.</summary>
    public double MeanC => (MinC + MaxC) / 2;
}
