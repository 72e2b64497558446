namespace MitigationOffice.Business.Quotes;

/// <summary>One thing that is done, and the lines of each choice that do it.</summary>
public sealed record SideRow(string Words, IReadOnlyList<IReadOnlyList<QuoteLine>> ByTier);

/// <summary>The choices' lines beside each other, each word once.</summary>
public static class SideBySide
{
    /// <summary>More rows than this make no paper that is still read, or that stays light enough to be mailed.</summary>
    public const int MostRows = 250;

    public static IReadOnlyList<SideRow> Of(IReadOnlyList<QuoteTier> tiers)
    {
        var lines = tiers.Select(t => t.Lines.OrderBy(l => l.Position).ThenBy(l => l.Id).ToLookup(l => l.Words, StringComparer.Ordinal)).ToList();
        return [.. lines.SelectMany(l => l.Select(g => g.Key)).Distinct(StringComparer.Ordinal).Select(w => new SideRow(w, [.. lines.Select(l => (IReadOnlyList<QuoteLine>)[.. l[w]])]))];
    }
}
