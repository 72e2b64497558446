using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>Ends a change order without a signature; the work stays as it was agreed.</summary>
public static class CloseChange
{
    /// <summary>The customer says no. Live when it was done now; otherwise the state found.</summary>
    public static async Task<ChangeLinkState> DeclineAsync(OfficeDb db, string? token, string reason, TimeProvider clock)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var found = await FindChange.ByLinkAsync(db, token, now);
        if (found.State != ChangeLinkState.Live) return found.State;
        return await EndAsync(db, found.ChangeOrderId, ChangeState.Declined, reason.Trim()) ? ChangeLinkState.Live : (await FindChange.ByLinkAsync(db, token, now)).State;
    }

    /// <summary>The office takes it back, sent or not. False when it is signed or ended already.</summary>
    public static Task<bool> WithdrawAsync(OfficeDb db, int id) => EndAsync(db, id, ChangeState.Withdrawn, "");

    private static async Task<bool> EndAsync(OfficeDb db, int id, ChangeState to, string reason) => (await DraftChange.AloneAsync(db, async () =>
    {
        var order = await db.ChangeOrders.SingleAsync(c => c.Id == id);
        if (order.State != ChangeState.Sent && !(order.State == ChangeState.Draft && to == ChangeState.Withdrawn)) return ChangeDone.No("");
        (order.State, order.DeclineReason) = (to, reason);
        await db.SaveChangesAsync();
        return new(id, null, []);
    })).Refusals.Count == 0;
}
