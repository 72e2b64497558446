using System.Globalization;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Design;

/// <summary>Finds which part of a design file made the engine refuse it, so that the refusal names the path to it.</summary>
internal static class FindFault
{
    /// <summary>The first part that is refused by itself; the engine's own words without a path where each part alone is sound.</summary>
    public static DesignRefused Of(DesignFile file, ArgumentException refused) =>
        Parts(file).Select(part => (part.Path, Words: WhyNot(part.Try))).FirstOrDefault(p => p.Words is not null) is { Words: { } words } found
            ? new DesignRefused(words, refused) { Path = found.Path } : new DesignRefused(Plain(refused), refused) { Path = Whole(file, refused) };

    private static IEnumerable<(string Path, Action Try)> Parts(DesignFile file)
    {
        var points = file.FurtherPoints ?? [];
        foreach (var size in Sizes(file.Route, "route")) yield return size;
        if (file.Route is [.., { Kind: PieceKind.Fan }]) yield return (Say($"route[{file.Route.Count - 1}]"), () => throw new ArgumentException("The route ends at the fan. Add the pipe from the fan to the mouth."));
        for (var i = 0; i < points.Count; i++)
        {
            var (point, path) = (points[i], Say($"furtherPoints[{i}]"));
            foreach (var size in Sizes(point.Branch, path + ".branch")) yield return size;
            foreach (var fault in Joins(file, point, path)) yield return fault;
        }

        foreach (var (test, path) in points.Select((p, i) => (p.Test, Say($"furtherPoints[{i}].test"))).Prepend((file.Test, "test")))
            yield return (path, () => PfeAnalysis.Of(ComputeReport.Test(test, ComputeReport.Curves(file).Curves), Air(file).DensityKgPerM3));
        yield return ("site", () => Air(file));
    }

    private static MoistAir Air(DesignFile file) => MoistAir.At(file.Site.GroundC ?? file.Site.MeanAnnualC, 1, file.Site.ElevationM);

    private static IEnumerable<(string Path, Action Try)> Sizes(IReadOnlyList<FilePiece> pieces, string path) =>
        pieces.Select<FilePiece, (string, Action)>((p, i) => (Say($"{path}[{i}].size"), () => PipeSize.Of(p.Size)));

    private static IEnumerable<(string Path, Action Try)> Joins(DesignFile file, FileFurtherPoint point, string path)
    {
        var fan = file.Route.ToList().FindIndex(p => p.Kind == PieceKind.Fan);
        var own = point.Branch.ToList().FindIndex(p => p.Kind == PieceKind.Fan);
        var most = point.JoinsInto is { } line ? file.FurtherPoints!.FirstOrDefault(p => p.Name == line)?.Branch.Count : fan;
        if (string.IsNullOrWhiteSpace(point.Name)) yield return (path + ".name", () => throw new ArgumentException("Every further suction point needs a name."));
        if (own >= 0) yield return (Say($"{path}.branch[{own}].kind"), () => throw new ArgumentException($"The branch of suction point {point.Name} has a fan; the one fan stands in the route."));
        if (most is null) yield return (path + ".joinsInto", () => throw new ArgumentException($"Suction point {point.Name} joins {point.JoinsInto}, which is no suction point of this design."));
        if (IsRing(file, point)) yield return (path + ".joinsInto", () => throw new ArgumentException($"The branch of suction point {point.Name} leads round in a ring and never reaches the fan."));
        if (most is { } last && (point.JoinsAfterPiece < 0 || point.JoinsAfterPiece > last))
            yield return (path + ".joinsAfterPiece", () => throw new ArgumentException(Say($"{path}.joinsAfterPiece is {point.JoinsAfterPiece}; the line it joins has {last} pieces before {(point.JoinsInto is null ? "the fan" : "its end")}.")));
    }

    private static bool IsRing(DesignFile file, FileFurtherPoint point)
    {
        var at = point.JoinsInto;
        for (var i = 0; at is not null && i <= file.FurtherPoints!.Count; i++) at = file.FurtherPoints.FirstOrDefault(p => p.Name == at)?.JoinsInto;
        return at is not null;
    }

    private static string? WhyNot(Action part)
    {
        try
        {
            part();
            return null;
        }
        catch (ArgumentException e)
        {
            return Plain(e);
        }
    }

    /// <summary>What only shows when the parts are put together.</summary>
    private static string Whole(DesignFile file, ArgumentException refused) =>
        refused.Message.Contains("No test hole has a reading", StringComparison.Ordinal) ? "test.holes"
        : refused.Message.Contains("There is no fan to compare", StringComparison.Ordinal) ? "fans"
        : refused.Message.Contains("The route has no pipe", StringComparison.Ordinal) ? "route"
        : refused.Message.Contains("neutralPlaneM", StringComparison.Ordinal) ? file.Site.NeutralPlaneM is null ? "site.storeys" : "site.neutralPlaneM" : "";

    private static string Plain(ArgumentException e) => e.Message.Split(" (Parameter", 2)[0];

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
