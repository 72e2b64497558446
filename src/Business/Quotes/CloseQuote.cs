using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>Ends an offer that is out without an acceptance.</summary>
public static class CloseQuote
{
    /// <summary>The house owner says no, with or without a reason. Live when it was done now; otherwise the state found.</summary>
    public static async Task<OfferState> DeclineAsync(OfficeDb db, string? token, string reason, TimeProvider clock, LostBecause because = LostBecause.NotSaid)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var found = await OfferLink.FindAsync(db, token, now);
        if (found.State != OfferState.Live) return found.State;
        return await CloseAsync(db, found.RevisionId, RevisionState.Declined, because, reason, now) ? OfferState.Live : (await OfferLink.FindAsync(db, token, now)).State;
    }

    public static Task<bool> WithdrawAsync(OfficeDb db, int revisionId, TimeProvider clock) => LostAsync(db, revisionId, LostBecause.WeTookItBack, "", clock);

    /// <summary>The office closes its offer: declined by the customer, or taken back. False when it is not out any more.</summary>
    public static Task<bool> LostAsync(OfficeDb db, int revisionId, LostBecause because, string note, TimeProvider clock) =>
        CloseAsync(db, revisionId, because == LostBecause.WeTookItBack ? RevisionState.Withdrawn : RevisionState.Declined, because, note, clock.GetUtcNow().UtcDateTime);

    private static async Task<bool> CloseAsync(OfficeDb db, int revisionId, RevisionState to, LostBecause because, string reason, DateTime now)
    {
        try
        {
            return await db.WriteAsync(async () =>
            {
                var revision = await db.QuoteRevisions.SingleAsync(r => r.Id == revisionId);
                if (revision.State != RevisionState.Sent) return false;
                (revision.State, revision.LostBecause, revision.DeclineReason, revision.ClosedAtUtc) = (to, because, reason.Trim(), now);
                await db.SaveChangesAsync();
                return true;
            });
        }
        catch (DbUpdateConcurrencyException)
        {
            db.ChangeTracker.Clear();
            return false;
        }
    }
}
