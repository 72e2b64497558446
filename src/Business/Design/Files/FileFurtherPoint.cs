using System.Text.Json.Serialization;

namespace MitigationOffice.Business.Design.Files;

/// <summary>A suction point beside the first, with its own test and its own pipe into the route.</summary>
public sealed record FileFurtherPoint
{
    public required string Name { get; init; }
    public required FileTest Test { get; init; }

    /// <summary>Pieces from its pit to where it joins, the tee's loss with them.</summary>
    [Within(1, 100, "pieces")]
    public required IReadOnlyList<FilePiece> Branch { get; init; }

    /// <summary>How many pieces of the line it joins lie before the junction.</summary>
    [Within(0, 100, "pieces")]
    public required int JoinsAfterPiece { get; init; }

    /// <summary>Name of the further point whose branch it joins; null for the route itself.</summary>
    public string? JoinsInto { get; init; }

    /// <summary>Where its pit is on the floor plan.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public FilePlace? At { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0.03, 0.6, "m")]
    public double? PitRadiusM { get; init; }
}
