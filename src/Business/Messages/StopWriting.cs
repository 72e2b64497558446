using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

public static class StopWriting
{
    /// <summary>What the secret of a link stands for; null when it was never given out.</summary>
    public static Task<UnsubscribeLink?> FindAsync(OfficeDb db, string token, CancellationToken cancel = default)
    {
        var hash = PrivateLink.HashOf(token);
        return db.UnsubscribeLinks.AsNoTracking().SingleOrDefaultAsync(l => l.TokenHash == hash, cancel);
    }

    /// <summary>No more messages of this class to this address, from now on; what waits is not sent. Who wants no upkeep messages
    /// wants no offers either. Doing it twice changes nothing.</summary>
    public static Task ForAsync(OfficeDb db, UnsubscribeLink link, DateTime nowUtc, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        MailClass[] classes = link.Class == MailClass.Upkeep ? [MailClass.Upkeep, MailClass.Commercial] : [link.Class];
        var known = await db.Suppressions.Where(s => s.Address == link.Address).Select(s => s.Class).ToListAsync(cancel);
        foreach (var kind in classes.Where(c => !known.Contains(c) && !known.Contains(null)))
            db.Suppressions.Add(new Suppression { Address = link.Address, Class = kind, AtUtc = nowUtc, Why = "Asked by the link in a message." });
        await db.SaveChangesAsync(cancel);
        await db.Outbox.Where(m => m.State == DeliveryState.Waiting && m.ToAddress == link.Address && classes.Contains(m.Class))
            .ExecuteUpdateAsync(s => s
                .SetProperty(m => m.State, DeliveryState.Suppressed)
                .SetProperty(m => m.LastAnswer, "Not sent: this address asked for no more.")
                .SetProperty(m => m.Version, m => m.Version + 1), cancel);
    }, cancel);
}
