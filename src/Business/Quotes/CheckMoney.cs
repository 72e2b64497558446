using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>Sums and discounts that cannot be asked for.</summary>
internal static class CheckMoney
{
    /// <summary>An invoice of the signed quote has no room for more.</summary>
    public const int MostLines = 400;

    public static IEnumerable<QuoteGap> Gaps(QuoteRevision r)
    {
        if (PriceQuote.IsTooMuch(r)) return [new($"A choice comes to more than {PriceQuote.Most}. Look at the quantities and prices.", nameof(r.Tiers))];
        return [.. Lines(r), .. Discounts(r), .. Agreed(r)];
    }

    private static IEnumerable<QuoteGap> Lines(QuoteRevision r) => r.Tiers.Where(t => t.Lines.Count > MostLines)
        .Select(t => new QuoteGap($"“{t.Name}” has {t.Lines.Count} lines; at most {MostLines} fit on its invoice. Gather small parts in one line.", nameof(r.Tiers)));

    private static IEnumerable<QuoteGap> Discounts(QuoteRevision r)
    {
        var tiers = r.Tiers.OrderBy(t => t.Position).ToList();
        for (var i = 0; i < tiers.Count; i++)
        {
            var t = tiers[i];
            if (Problem(t.DiscountPercent, t.DiscountAmount, t.DiscountReason, t.Lines.Select(l => l.Amount).Sum(), $"on “{t.Name}”") is { } words) yield return new(words, $"Tiers_{i}__DiscountReason");
        }

        var least = tiers.Select(t => PriceQuote.Of(new QuoteRevision { Letter = "" }, t, []).Net).Order().FirstOrDefault();
        if (Problem(r.DiscountPercent, r.DiscountAmount, r.DiscountReason, least, "on the whole") is { } whole) yield return new(whole, nameof(r.DiscountReason));
    }

    private static string? Problem(decimal percent, Money amount, string reason, Money from, string where) =>
        percent == 0 && amount == Money.Zero ? null
        : percent is < 0 or > 100 ? $"The discount {where} must be between 0 and 100 %."
        : percent > 0 && amount > Money.Zero ? $"The discount {where} is a share and an amount at once; write one of them."
        : amount > from ? $"The discount {where}, {amount}, is more than the price of {from}."
        : string.IsNullOrWhiteSpace(reason) ? $"Say why there is a discount {where}."
        : null;

    private static IEnumerable<QuoteGap> Agreed(QuoteRevision r)
    {
        if (r.AgreedPrice <= Money.Zero) yield break;
        foreach (var (tier, net) in r.Tiers.OrderBy(t => t.Position).Select(t => (t, PriceQuote.Of(r, t, []).Net)).Where(x => x.Item2 > r.AgreedPrice))
            yield return new($"{r.AgreedPrice} before tax was agreed for this; “{tier.Name}” asks {net}.", nameof(r.Tiers));
    }
}
