using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>What the holder of a change order's link may see.</summary>
public enum ChangeLinkState
{
    Unknown,
    Live,
    Agreed,
    Declined,
    Replaced,
    Withdrawn,
    Expired,

    /// <summary>The link was ended by the office; a newer one may have been sent.</summary>
    Ended,

    /// <summary>The work is invoiced, called off or cancelled.</summary>
    Closed,
}

/// <summary>A link as it was found.</summary>
public sealed record FoundChange(ChangeLinkState State, int ChangeOrderId = 0, int LinkId = 0, string HandedBy = "");

/// <summary>The private link to a change order that was sent.</summary>
public static class FindChange
{
    public static async Task<FoundChange> ByLinkAsync(OfficeDb db, string? token, DateTime nowUtc)
    {
        if (token is not { Length: 43 }) return new(ChangeLinkState.Unknown);
        var hash = PrivateLink.HashOf(token);
        var found = await (from link in db.ChangeLinks.AsNoTracking()
                           where link.TokenHash == hash
                           join c in db.ChangeOrders.AsNoTracking() on link.ChangeOrderId equals c.Id
                           select new { link.Id, OrderId = c.Id, c.AcceptanceId, c.State, link.ExpiresAtUtc, link.RevokedAtUtc, link.HandedBy }).SingleOrDefaultAsync();
        if (found is null) return new(ChangeLinkState.Unknown);
        var state = StateOf(found.State, found.ExpiresAtUtc, found.RevokedAtUtc, nowUtc);
        if (state == ChangeLinkState.Live && await CheckChange.ClosedAsync(db, found.AcceptanceId) is not null) state = ChangeLinkState.Closed;
        return new(state, found.OrderId, found.Id, found.HandedBy);
    }

    public static ChangeLinkState StateOf(ChangeState state, DateTime expiresUtc, DateTime? revokedUtc, DateTime nowUtc) => state switch
    {
        ChangeState.Agreed => ChangeLinkState.Agreed,
        ChangeState.Declined => ChangeLinkState.Declined,
        ChangeState.Replaced => ChangeLinkState.Replaced,
        ChangeState.Withdrawn => ChangeLinkState.Withdrawn,
        ChangeState.Sent when revokedUtc is not null => ChangeLinkState.Ended,
        ChangeState.Sent => expiresUtc <= nowUtc ? ChangeLinkState.Expired : ChangeLinkState.Live,
        _ => ChangeLinkState.Unknown,
    };
}
