using System.Text.Json;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Business.Systems;

/// <summary>What a design foresaw for the day of its readings, from its stored report: never computed afresh, so that
/// measured stands beside what was promised.</summary>
/// <param name="PitPa">Suction the gauge on the pipe would show; null where no report is stored.</param>
/// <param name="HolesPa">Suction by test hole, positive.</param>
public sealed record ForeseenSuction(double? PitPa, IReadOnlyDictionary<string, double> HolesPa)
{
    /// <summary>The fan it was foreseen for, and its power.</summary>
    public string Fan { get; init; } = "";
    public double? Watts { get; init; }

    public static readonly ForeseenSuction Nothing = new(null, new Dictionary<string, double>());

    public static ForeseenSuction Of(string? reportJson)
    {
        if (reportJson is null) return Nothing;
        try
        {
            return JsonSerializer.Deserialize<DesignReport>(reportJson, DesignFileText.Json)?.Shown is { OnCurve: true } fan
                ? new(fan.PitVacuumPa, fan.Holes.ToDictionary(h => h.Label, h => h.NowPa, StringComparer.OrdinalIgnoreCase)) { Fan = fan.Model, Watts = fan.Watts }
                : Nothing;
        }
        catch (JsonException)
        {
            // A report of an older engine that this version does not read: the column is left out.
            return Nothing;
        }
    }
}
