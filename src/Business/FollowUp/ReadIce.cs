using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Reads what is known of ice in the outdoor pipes: by the design that was built, else by the one that was accepted, and by
/// what was recommended against it and not taken.</summary>
internal static class ReadIce
{
    private sealed record Accepted(int HouseId, int? DesignId, string Taken, string Declined, bool CableInPrice);

    /// <returns>By house and design built (null: none on record); null where nothing is known, or where what was accepted keeps the ice away.</returns>
    public static async Task<Func<int, int?, HouseFacts.Ice?>> RunAsync(OfficeDb db, HouseRange range, CancellationToken cancel)
    {
        var (from, to) = (range.From, range.To);
        var days = await db.Designs.AsNoTracking().Where(d => d.HouseId >= from && d.HouseId <= to && d.FreezeDaysAtRisk != null)
            .Select(d => new { d.Id, d.FreezeDaysAtRisk }).ToDictionaryAsync(d => d.Id, d => d.FreezeDaysAtRisk, cancel);
        var revisions = db.QuoteRevisions.AsNoTracking().Where(r => r.Quote!.HouseId >= from && r.Quote.HouseId <= to);
        var accepted = (await db.Acceptances.AsNoTracking().Join(revisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => new { a, r.Quote!.HouseId }).OrderBy(x => x.a.Id)
            .Select(x => new Accepted(
                x.HouseId, x.a.SuctionDesignId, x.a.AddOnIds, x.a.DeclinedAddOnIds,
                db.Set<QuoteLine>().Any(l => l.QuoteTierId == x.a.QuoteTierId && l.OfferedFor == OfferReason.FreezeGuard))).ToListAsync(cancel)).ToLookup(a => a.HouseId);
        var warming = accepted.Count == 0 ? [] : (await db.Set<QuoteAddOn>().AsNoTracking().Where(o => o.OfferedFor == OfferReason.FreezeGuard || o.OfferedFor == OfferReason.Insulation)
            .Join(revisions, o => o.QuoteRevisionId, r => r.Id, (o, _) => o.Id).ToListAsync(cancel)).ConvertAll(id => id.ToString(CultureInfo.InvariantCulture)).ToHashSet(StringComparer.Ordinal);
        return Of;

        HouseFacts.Ice? Of(int houseId, int? built)
        {
            var signed = accepted[houseId].ToList();
            if (signed.Exists(a => a.CableInPrice || Any(a.Taken))) return null;
            var design = built ?? signed.FindLast(a => a.DesignId is not null)?.DesignId;
            var ice = new HouseFacts.Ice(design is { } id ? days.GetValueOrDefault(id) : null, signed.Exists(a => Any(a.Declined)));
            return ice is { DaysAtRisk: null, Declined: false } ? null : ice;
        }

        bool Any(string ids) => ids.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Any(warming.Contains);
    }
}
