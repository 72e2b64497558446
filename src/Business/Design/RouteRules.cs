namespace MitigationOffice.Business.Design;

/// <summary>What a route must have before it can be computed, in words that say what to do.</summary>
public static class RouteRules
{
    public static IEnumerable<string> Problems(IReadOnlyList<RoutePiece> pieces)
    {
        var fans = pieces.Count(p => p.Kind == PieceKind.Fan);
        if (fans == 0) yield return "The route has no fan. Add one piece “Fan” where the fan will stand.";
        if (fans > 1 || pieces.Any(p => p.Kind == PieceKind.Fan && p.Count > 1)) yield return "The route has more than one fan. Leave one piece “Fan”.";
        if (!pieces.Any(p => p.Kind == PieceKind.Pipe)) yield return "The route has no pipe. Add the pipe from the pit to the fan and from the fan to the mouth.";
    }
}
