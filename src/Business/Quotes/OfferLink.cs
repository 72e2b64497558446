using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>What the holder of a link may see.</summary>
public enum OfferState
{
    Unknown,
    Live,
    Accepted,
    Declined,
    Replaced,
    Withdrawn,
    Expired,

    /// <summary>The link was ended by the office; a newer one may have been sent.</summary>
    Ended,
}

/// <summary>A link as it was found.</summary>
public sealed record FoundOffer(OfferState State, int RevisionId = 0, int LinkId = 0);

/// <summary>The private link to a sent quote.</summary>
public static class OfferLink
{
    /// <summary>The end of the last day on which the quote holds, where the house stands.</summary>
    public static DateTime EndsUtc(QuoteRevision revision, TimeZoneInfo zone) =>
        HouseTime.ToUtc((revision.ValidUntil ?? DateOnly.FromDateTime(revision.CreatedAtUtc)).AddDays(1), TimeOnly.MinValue, zone);

    public static async Task<FoundOffer> FindAsync(OfficeDb db, string? token, DateTime nowUtc)
    {
        if (token is not { Length: 43 }) return new(OfferState.Unknown);
        var hash = PrivateLink.HashOf(token);
        var found = await (from link in db.QuoteLinks.AsNoTracking()
                           where link.TokenHash == hash
                           join r in db.QuoteRevisions.AsNoTracking() on link.QuoteRevisionId equals r.Id
                           select new { link.Id, RevisionId = r.Id, r.State, link.ExpiresAtUtc, link.RevokedAtUtc }).SingleOrDefaultAsync();
        if (found is null) return new(OfferState.Unknown);
        return new(StateOf(found.State, found.ExpiresAtUtc, found.RevokedAtUtc, nowUtc), found.RevisionId, found.Id);
    }

    public static OfferState StateOf(RevisionState state, DateTime expiresUtc, DateTime? revokedUtc, DateTime nowUtc) => state switch
    {
        RevisionState.Accepted => OfferState.Accepted,
        RevisionState.Declined => OfferState.Declined,
        RevisionState.Replaced => OfferState.Replaced,
        RevisionState.Withdrawn => OfferState.Withdrawn,
        RevisionState.Sent when revokedUtc is not null => OfferState.Ended,
        RevisionState.Sent => expiresUtc <= nowUtc ? OfferState.Expired : OfferState.Live,
        _ => OfferState.Unknown,
    };

    /// <summary>Ends all links of a revision. The caller saves.</summary>
    public static async Task RevokeAsync(OfficeDb db, int revisionId, DateTime nowUtc)
    {
        foreach (var link in await db.QuoteLinks.Where(l => l.QuoteRevisionId == revisionId && l.RevokedAtUtc == null).ToListAsync()) link.RevokedAtUtc = nowUtc;
    }
}
