using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.FollowUp;

/// <summary>What became of a reminder after its message left, or by a person's hand.</summary>
public static class SettleReminders
{
    /// <summary>Those whose message went out are sent; those whose message came back later are not, and wait for a letter or a call.</summary>
    public static Task<int> NoteSentAsync(OfficeDb db, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        var sent = await db.Reminders
            .Where(r => r.State == ReminderState.Queued && db.Outbox.Any(m => m.Id == r.OutboxMessageId && m.State == DeliveryState.Sent))
            .ExecuteUpdateAsync(s => s.SetProperty(r => r.State, ReminderState.Sent).SetProperty(r => r.Version, r => r.Version + 1), cancel);
        await db.Reminders
            .Where(r => r.State == ReminderState.Sent && db.Outbox.Where(m => m.State == DeliveryState.Refused).Select(m => (int?)m.Id).Contains(r.OutboxMessageId))
            .ExecuteUpdateAsync(s => s.SetProperty(r => r.State, ReminderState.Queued).SetProperty(r => r.Version, r => r.Version + 1), cancel);
        return sent;
    }, cancel);

    /// <summary>It was told by letter, phone or in person.</summary>
    public static Task<bool> DoneByHandAsync(OfficeDb db, int id, string by, string note) => SettleAsync(db, id, ReminderState.DoneByHand, $"{by}: {note}");

    public static Task<bool> DropAsync(OfficeDb db, int id, string by, string why) => SettleAsync(db, id, ReminderState.Dropped, $"{by}: {why}");

    private static Task<bool> SettleAsync(OfficeDb db, int id, ReminderState state, string note) => db.WriteAsync(async () =>
    {
        var reminder = await db.Reminders.SingleOrDefaultAsync(r => r.Id == id);
        if (reminder is null || !await MayBeSettledAsync(db, reminder)) return false;
        (reminder.State, reminder.Note) = (state, note);
        await db.SaveChangesAsync();
        return true;
    });

    private static async Task<bool> MayBeSettledAsync(OfficeDb db, Reminder reminder) => reminder.State switch
    {
        ReminderState.Planned or ReminderState.Printed => true,
        ReminderState.Queued => await db.Outbox.AnyAsync(m => m.Id == reminder.OutboxMessageId && (m.State == DeliveryState.Refused || m.State == DeliveryState.Suppressed)),
        _ => false,
    };
}
