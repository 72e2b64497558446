using System.Text.Json.Serialization;
using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Business.Design.Files;

/// <summary>A daily weather record that takes the place of the made-up winter: as days, or as the text of a CSV file.</summary>
public sealed record FileClimate
{
    public required RecordUnit Unit { get; init; }

    [Within(1, 40_000, "days")]
    public IReadOnlyList<FileDay>? Days { get; init; }

    /// <summary>Header with DATE, TMIN and TMAX, then one line a day.</summary>
    public string? Csv { get; init; }

    /// <summary>Goes on without the lines and winters at fault; they are then named as warnings.</summary>
    public bool AcceptFaults { get; init; }
}

public sealed record FileDay
{
    [JsonPropertyName("DATE")]
    public required DateOnly Date { get; init; }

    [JsonPropertyName("TMIN")]
    public required double TMin { get; init; }

    [JsonPropertyName("TMAX")]
    public required double TMax { get; init; }
}
