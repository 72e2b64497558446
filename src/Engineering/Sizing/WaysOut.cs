using System.Globalization;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>What would do where no fan of the catalogue holds: tried with the numbers at hand, and said in sentences.</summary>
internal static class WaysOut
{
    internal static IReadOnlyList<string> Of(SizingInput input, SizingCase here, IReadOnlyList<FanResult> ranked)
    {
        var best = ranked.FirstOrDefault(result => result.Point is not null);
        return [.. LargerPipe(input), SecondPoint(input, here, best), Sealing(input, here)];
    }

    private static IEnumerable<string> LargerPipe(SizingInput input)
    {
        var wider = input with
        {
            Route = [.. input.Route.Select(Wider)],
            FurtherPoints = [.. input.FurtherPoints.Select(point => point with { Branch = [.. point.Branch.Select(Wider)] })],
        };
        if (Holding(input, new SizingCase(wider)) is { } holding)
            yield return Say($"One pipe size larger throughout: the {holding.Name} would then keep {holding.WeakestWinterPa:0.0} Pa at hole {holding.WeakestHole} in design winter.");
    }

    private static Piping.RoutePiece Wider(Piping.RoutePiece piece) => piece.Size.Larger() is { } larger ? piece with { Size = larger } : piece;

    private static string SecondPoint(SizingInput input, SizingCase here, FanResult? best)
    {
        if (best is null) return "A second suction point, which brings its own suction to the weak holes.";
        var hole = here.Grounds.SelectMany(ground => ground.Holes).Where(h => h.Label == best.WeakestHole).MaxBy(h => h.Ratio)!;
        var pit = best.Point!.PitVacuumPa;
        var needed = hole.Ratio + (input.Site.TargetPa - best.WeakestWinterPa) / pit;
        return needed <= 1
            ? Say($"A second suction point near hole {hole.Label}: {hole.Ratio * 100:0.0} % of the pit's suction arrives there now, and with the {best.Name} {needed * 100:0.0} % would have to.")
            : Say($"A second suction point alone would not do: with the {best.Name} the pit itself has {pit:0} Pa.");
    }

    /// <summary>The least sealing that would do, by halving between none and nine tenths of the leakage; shares are taken to stay, though sealing raises them too.</summary>
    private static string Sealing(SizingInput input, SizingCase here)
    {
        const string First = "Sealing joints, cracks and the sump first, then testing again: less leakage carries the suction further.";
        if (Holding(input, new SizingCase(input, 0.1)) is null) return First;
        var (enough, tooLittle) = (0.1, 1.0);
        while (tooLittle - enough > 0.005)
        {
            var middle = (enough + tooLittle) / 2;
            if (Holding(input, new SizingCase(input, middle)) is null) tooLittle = middle;
            else enough = middle;
        }

        return First + Say($" A cut of {(1 - enough) * 100:0} % in the air drawn would do for the {Holding(input, new SizingCase(input, enough))!.Name}.");
    }

    private static FanResult? Holding(SizingInput input, SizingCase changed) => SystemSizing.Rank(input.Fans.Select(changed.Judge)).FirstOrDefault(result => result.Holds);

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
