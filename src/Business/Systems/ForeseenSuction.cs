using MitigationOffice.Business.Design;
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

    /// <summary>From a hole's share of the pit's suction as the day's readings leave it open: lowest and highest, by hole.</summary>
    public IReadOnlyDictionary<string, (double LowPa, double HighPa)> BandsPa { get; init; } = new Dictionary<string, (double, double)>();

    public static ForeseenSuction Of(string? reportJson)
    {
        if (ComputeDesign.Stored(reportJson) is not { Shown: { OnCurve: true } fan } report) return Nothing;
        var bands = report.Soil.Holes.Where(h => h.Ratio > 0).ToDictionary(h => h.Label, h => (h.Low / h.Ratio, h.High / h.Ratio), StringComparer.OrdinalIgnoreCase);
        return new(fan.PitVacuumPa, fan.Holes.ToDictionary(h => h.Label, h => h.NowPa, StringComparer.OrdinalIgnoreCase))
        {
            Fan = fan.Model, Watts = fan.Watts,
            BandsPa = fan.Holes.Where(h => bands.ContainsKey(h.Label)).ToDictionary(h => h.Label, h => (h.NowPa * bands[h.Label].Item1, h.NowPa * bands[h.Label].Item2), StringComparer.OrdinalIgnoreCase),
        };
    }

    /// <summary>The freeze forecast in a stored report.</summary>
    public static FreezeResult? WinterOf(string? reportJson) => ComputeDesign.Stored(reportJson)?.Freeze;
}
