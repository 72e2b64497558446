using System.Data;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Puts planned reminders in: the first plan of many thousand houses has more than a hundred thousand of them.</summary>
internal static class InsertReminders
{
    private static readonly InsertRows Rows = new(
        nameof(OfficeDb.Reminders),
        [
            new(nameof(Reminder.HouseId), DbType.Int32), new(nameof(Reminder.InstalledSystemId), DbType.Int32), new(nameof(Reminder.RuleCode), DbType.String), new(nameof(Reminder.Key), DbType.String),
            new(nameof(Reminder.Because), DbType.String), new(nameof(Reminder.DueOn), DbType.Date), new(nameof(Reminder.SendOn), DbType.Date),
        ],
        (nameof(Reminder.State), $"'{nameof(ReminderState.Planned)}'"), (nameof(Reminder.Note), "''"), (nameof(Reminder.Version), "0"));

    /// <param name="fresh">Not on record yet.</param>
    public static Task RunAsync(OfficeDb db, IReadOnlyList<Occasion> fresh, CancellationToken cancel) => Rows.RunAsync(db, fresh, Fill, cancel);

    private static void Fill(Occasion o, object?[] row) =>
        (row[0], row[1], row[2], row[3], row[4], row[5], row[6]) = (o.HouseId, o.SystemId, o.RuleCode, o.Key, o.Because, o.DueOn, o.SendOn);
}
