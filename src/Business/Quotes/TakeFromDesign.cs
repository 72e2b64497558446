using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>Takes one choice of a draft, or all of them, from a design of the house at today's prices: its lines, what can be added to
/// it and why, what it costs to run. Names, summaries and discounts stay; so do additions that were written by hand.</summary>
public static class TakeFromDesign
{
    /// <summary>The caller saves.</summary>
    /// <param name="position">Of the choice; 0: all of them, and the quote stands on that design.</param>
    /// <param name="computed">Of the design named.</param>
    public static async Task IntoAsync(OfficeDb db, QuoteRevision revision, int houseId, int position, int designId, ComputedDesign computed)
    {
        var (company, house) = (await db.Company.AsNoTracking().SingleAsync(), await QuoteBasis.HouseAsync(db, houseId));
        var book = await db.PriceItems.AsNoTracking().ToListAsync();
        var (basis, scope) = (QuoteBasis.Of(company, house, computed), DraftQuote.Scope(computed));
        if (position == 0)
        {
            (revision.SuctionDesignId, revision.Scope) = (designId, scope);
            RunningCost.From(basis, book).Into(revision);
            ProposeTiers.Recommend(revision, basis, book);
            revision.PriceBookVersion = await db.PriceBookVersions.MaxAsync(v => (int?)v.Number) ?? 0;
        }

        foreach (var tier in revision.Tiers.Where(t => position == 0 || t.Position == position).OrderBy(t => t.Position).ToList())
        {
            Retake(revision, tier, ProposeTiers.For(tier.Position, basis, book), book);
            var own = designId != revision.SuctionDesignId;
            (tier.SuctionDesignId, tier.Scope) = (own ? designId : null, own ? scope : "");
            (own ? RunningCost.From(basis, book) : RunningCost.None).Into(tier);
        }
    }

    private static void Retake(QuoteRevision revision, QuoteTier tier, ProposeTiers.OneTier proposed, List<PriceItem> book)
    {
        tier.Lines.Clear();
        tier.Lines.AddRange(proposed.Lines);
        var (bit, every) = (QuoteAddOn.Bit(tier.Position), revision.Tiers.Aggregate(0, (bits, t) => bits | QuoteAddOn.Bit(t.Position)));
        var reckoned = revision.AddOns.Where(a => book.Exists(i => i.Id == a.PriceItemId && i.Use == PriceUse.AddOn)).ToHashSet();
        foreach (var addOn in reckoned) addOn.Beside = (addOn.Beside == 0 ? every : addOn.Beside) & ~bit;
        revision.AddOns.RemoveAll(a => a.Beside == 0 && reckoned.Contains(a));
        foreach (var addOn in proposed.AddOns)
        {
            if (revision.AddOns.Find(a => IsSame(a, addOn)) is { } same)
            {
                if (same.Beside != 0) same.Beside |= bit;
                continue;
            }

            (addOn.Beside, addOn.Position) = (bit, revision.AddOns.Select(a => a.Position).DefaultIfEmpty().Max() + 1);
            revision.AddOns.Add(addOn);
        }

        foreach (var addOn in revision.AddOns.Where(a => a.Beside == every)) addOn.Beside = 0;
        var about = $"“{tier.Name}”: ";
        revision.NotOffered = string.Join('\n', revision.NotOffered.Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(l => !l.StartsWith(about, StringComparison.Ordinal)).Concat(proposed.NotOffered.Select(l => about + l)).Distinct(StringComparer.Ordinal));
    }

    private static bool IsSame(QuoteAddOn one, QuoteAddOn other) =>
        one.PriceItemId == other.PriceItemId && one.Words == other.Words && one.Price == other.Price && one.Reason == other.Reason && one.Recommended == other.Recommended && one.Taxable == other.Taxable;
}
