using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

/// <summary>What a person decides about a message that the program does not decide by itself.</summary>
public static class ResolveMail
{
    /// <summary>It was seen to have arrived.</summary>
    public static Task<bool> ArrivedAsync(OfficeDb db, int id, string by, DateTime nowUtc) => ChangeAsync(db, id, [DeliveryState.Uncertain], m =>
    {
        (m.State, m.SentAtUtc) = (DeliveryState.Sent, nowUtc);
        m.LastAnswer = $"{by} says that it arrived.";
    });

    /// <summary>Once more, with the same Message-ID.</summary>
    public static Task<bool> SendAgainAsync(OfficeDb db, int id, string by, DateTime nowUtc) => ChangeAsync(db, id, [DeliveryState.Uncertain, DeliveryState.Refused], m =>
    {
        if (m.State == DeliveryState.Uncertain) m.ResentAtUtc = nowUtc;
        (m.State, m.NextTryUtc, m.Attempts) = (DeliveryState.Waiting, nowUtc, 0);
        m.LastAnswer = $"{by} asked to send it again.";
    });

    /// <summary>It did not get there: the address is not written to any more.</summary>
    public static Task<bool> CameBackAsync(OfficeDb db, int id, string by, DateTime nowUtc) => ChangeAsync(db, id, [DeliveryState.Uncertain, DeliveryState.Sent], m =>
    {
        (m.State, m.LastAnswer) = (DeliveryState.Refused, $"{by} says that it came back.");
        db.Suppressions.Add(new Suppression { Address = m.ToAddress, AtUtc = nowUtc, Why = $"A message came back, says {by}." });
    });

    private static async Task<bool> ChangeAsync(OfficeDb db, int id, DeliveryState[] from, Action<OutboxMessage> change)
    {
        var message = await db.Outbox.SingleOrDefaultAsync(m => m.Id == id);
        if (message is null || !from.Contains(message.State)) return false;
        change(message);
        await db.SaveChangesAsync();
        return true;
    }
}
