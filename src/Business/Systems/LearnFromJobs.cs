using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>One number of one started system: what its design foresaw and what was measured.</summary>
/// <param name="Where">The hole's label; empty for the gauge and the watts.</param>
public sealed record ForeseenAndMeasured(int HouseId, string House, DateOnly On, ForeseenNumber Of, string Where, double Foreseen, double Measured)
{
    public double Ratio => Measured / Foreseen;
}

/// <summary>Median and quartiles of measured over foreseen, and from how many readings at how many houses.</summary>
public sealed record Spread(ForeseenNumber Of, int Readings, int Houses, double Median, double LowerQuartile, double UpperQuartile)
{
    /// <summary>Fewer houses say too little to be offered as a correction: a house rule, not from a standard.</summary>
    public const int FewestHouses = 5;

    public bool MayCorrect => Houses >= FewestHouses;

    /// <summary>Quartiles by a straight line between the ordered values: definition 7 of Hyndman and Fan (1996).</summary>
    public static Spread? From(ForeseenNumber of, IEnumerable<ForeseenAndMeasured> all)
    {
        var mine = all.Where(c => c.Of == of).ToList();
        var ratios = mine.Select(c => c.Ratio).Order().ToList();
        return ratios.Count == 0 ? null : new Spread(of, ratios.Count, mine.Select(c => c.HouseId).Distinct().Count(), At(ratios, 0.5), At(ratios, 0.25), At(ratios, 0.75));
    }

    public static double At(IReadOnlyList<double> ordered, double share)
    {
        var place = (ordered.Count - 1) * share;
        var below = (int)place;
        return below + 1 >= ordered.Count ? ordered[^1] : ordered[below] + (place - below) * (ordered[below + 1] - ordered[below]);
    }
}

/// <summary>Sets side by side, over all started systems, what their designs foresaw and what was measured.</summary>
public static class LearnFromJobs
{
    /// <summary>Suctions under this, Pa, are noise of the gauge: their ratio says nothing.</summary>
    public const double LeastPa = 0.3;

    /// <summary>What can be compared, oldest first, and why some could not.</summary>
    public static async Task<(IReadOnlyList<ForeseenAndMeasured> Compared, IReadOnlyList<string> LeftOut)> LoadAsync(OfficeDb db)
    {
        var systems = await db.Systems.AsNoTracking().Where(s => s.SuctionDesignId != null).OrderBy(s => s.CompletedOn).ThenBy(s => s.Id).Select(s => new Started(
            s.HouseId, db.Houses.Where(h => h.Id == s.HouseId).Select(h => h.Street + ", " + h.City).First(), s.CompletedOn, s.StartUpGaugePa, s.StartUpWatts,
            s.Components.Where(c => c.Kind == ComponentKind.Fan).OrderBy(c => c.FittedOn).ThenBy(c => c.Id).Select(c => c.Model).FirstOrDefault(),
            db.Designs.Where(d => d.Id == s.SuctionDesignId).Select(d => d.ReportJson).FirstOrDefault(),
            s.FinalSuctions.OrderBy(f => f.Id).Select(f => new FinalReading(f.HoleLabel, f.SuctionPa, f.PredictedPa)).ToList())).AsSingleQuery().ToListAsync();
        var leftOut = new List<string>();
        return ([.. systems.SelectMany(s => Compare(s, leftOut))], leftOut);
    }

    private sealed record Started(int HouseId, string House, DateOnly On, double? GaugePa, double? Watts, string? Fan, string? ReportJson, List<FinalReading> Holes);

    private static IEnumerable<ForeseenAndMeasured> Compare(Started s, List<string> leftOut)
    {
        var foreseen = ForeseenSuction.Of(s.ReportJson);
        if (foreseen.PitPa is null) leftOut.Add($"{s.House}: no computed design stands behind it.");
        else if (!string.Equals(foreseen.Fan, s.Fan, StringComparison.OrdinalIgnoreCase)) leftOut.Add($"{s.House}: {(s.Fan is null ? "no fan is on record" : s.Fan + " was fitted")}, {foreseen.Fan} was foreseen.");
        else return Numbers(s, foreseen, leftOut);
        return [];
    }

    private static IEnumerable<ForeseenAndMeasured> Numbers(Started s, ForeseenSuction foreseen, List<string> leftOut)
    {
        if (s.GaugePa is > 0 and var gauge && foreseen.PitPa is > 0 and var pit) yield return new(s.HouseId, s.House, s.On, ForeseenNumber.StartUpSuction, "", pit, gauge);
        if (s.Watts is > 0 and var watts && foreseen.Watts is > 0 and var power) yield return new(s.HouseId, s.House, s.On, ForeseenNumber.Watts, "", power, watts);
        foreach (var hole in s.Holes)
        {
            if ((hole.PredictedPa ?? Known(foreseen, hole.HoleLabel)) is not { } wanted) continue;
            if (wanted >= LeastPa && hole.SuctionPa >= LeastPa) yield return new(s.HouseId, s.House, s.On, ForeseenNumber.HoleSuction, hole.HoleLabel, wanted, hole.SuctionPa);
            else leftOut.Add($"{s.House}, hole {hole.HoleLabel}: too little suction to compare.");
        }
    }

    private static double? Known(ForeseenSuction foreseen, string hole) => foreseen.HolesPa.TryGetValue(hole, out var pa) ? pa : null;
}
