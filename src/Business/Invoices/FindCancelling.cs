using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;

namespace MitigationOffice.Business.Invoices;

/// <summary>Whether the holder of a quote's private link may take the signature back.</summary>
public enum CancelState
{
    Unknown,

    /// <summary>Nothing was signed under this link.</summary>
    NotSigned,
    Open,

    /// <summary>The last day is past.</summary>
    Late,

    /// <summary>The contract was made without the form of cancellation, for a reason on record.</summary>
    WithoutNotice,
    Cancelled,
}

/// <summary>A signed quote as its link shows it for cancelling: no name, no address, no price.</summary>
public sealed record FoundSale(CancelState State, int AcceptanceId = 0, int LinkId = 0, string Quote = "", DateOnly SignedOn = default, DateOnly CancelBy = default)
{
    public DateOnly? CancelledOn { get; init; }
    public DateOnly? OwedBackBy { get; init; }
}

/// <summary>Reads what a link says about cancelling; changes nothing.</summary>
public static class FindCancelling
{
    public static async Task<FoundSale> ByLinkAsync(OfficeDb db, string? token, DateTime nowUtc)
    {
        var found = await OfferLink.FindAsync(db, token, nowUtc);
        if (found.State == OfferState.Unknown) return new(CancelState.Unknown);
        if (found.State != OfferState.Accepted) return new(CancelState.NotSigned);
        var a = await (from x in db.Acceptances.AsNoTracking()
                       where x.QuoteRevisionId == found.RevisionId
                       join r in db.QuoteRevisions on x.QuoteRevisionId equals r.Id
                       select new
                       {
                           x.Id, x.AtUtc, x.TimeZone, x.CancelBy, r.NoCancelNoticeBecause, r.Letter, r.Quote!.Number,
                           Ended = db.QuoteLinks.Any(l => l.Id == found.LinkId && l.RevokedAtUtc != null),
                           Cancelled = db.CancelledSales.Where(c => c.AcceptanceId == x.Id).Select(c => new { c.ReceivedOn, c.OwedBackBy }).FirstOrDefault(),
                       }).SingleOrDefaultAsync();
        if (a is null || a.Ended) return new(CancelState.NotSigned);
        var zone = HouseTime.Zone(a.TimeZone);
        var state = a.Cancelled is not null ? CancelState.Cancelled
            : a.NoCancelNoticeBecause.Length > 0 ? CancelState.WithoutNotice
            : HouseTime.DayOf(nowUtc, zone) > a.CancelBy ? CancelState.Late : CancelState.Open;
        return new(state, a.Id, found.LinkId, $"{a.Number} {a.Letter}", HouseTime.DayOf(a.AtUtc, zone), a.CancelBy) { CancelledOn = a.Cancelled?.ReceivedOn, OwedBackBy = a.Cancelled?.OwedBackBy };
    }
}
