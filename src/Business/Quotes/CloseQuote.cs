using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>Ends an offer that is out without an acceptance.</summary>
public static class CloseQuote
{
    /// <summary>The house owner says no, with or without a reason. Live when it was done now; otherwise the state found.</summary>
    public static async Task<OfferState> DeclineAsync(OfficeDb db, string? token, string reason, TimeProvider clock)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var found = await OfferLink.FindAsync(db, token, now);
        if (found.State != OfferState.Live) return found.State;
        return await CloseAsync(db, found.RevisionId, RevisionState.Declined, reason) ? OfferState.Live : (await OfferLink.FindAsync(db, token, now)).State;
    }

    /// <summary>The office takes its offer back. False when it is not out any more.</summary>
    public static Task<bool> WithdrawAsync(OfficeDb db, int revisionId) => CloseAsync(db, revisionId, RevisionState.Withdrawn, "");

    private static async Task<bool> CloseAsync(OfficeDb db, int revisionId, RevisionState to, string reason)
    {
        try
        {
            return await db.WriteAsync(async () =>
            {
                var revision = await db.QuoteRevisions.SingleAsync(r => r.Id == revisionId);
                if (revision.State != RevisionState.Sent) return false;
                (revision.State, revision.DeclineReason) = (to, reason.Trim());
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
