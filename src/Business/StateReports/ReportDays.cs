using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Business.StateReports;

/// <summary>The days of reports and of the fees that go with them, for the office to be reminded of. Frozen, sent or paid, they are no more.</summary>
public sealed class ReportDays : IOfficeDays
{
    public IReadOnlyList<ReminderAnchor> Anchors { get; } = [ReminderAnchor.ReportDue, ReminderAnchor.ReportFeeDue];

    public async Task<IReadOnlyList<OfficeDay>> ReadAsync(OfficeDb db, DateOnly today, CancellationToken cancel) =>
        [.. (await DueReports.ReadAsync(db, today, cancel)).Where(d => d.DueOn is not null).Select(Day)];

    private static OfficeDay Day(DueReport due)
    {
        var day = HouseTime.Show(due.DueOn);
        return new(
            due.Kind == DueKind.Fee ? ReminderAnchor.ReportFeeDue : ReminderAnchor.ReportDue, $"{due.Profile.Code}-{due.Kind}", due.DueOn!.Value,
            $"{due.What}: due on {day}.", $"{due.What}: late, it was due on {day}.");
    }
}
