using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>A day that the office itself has to keep.</summary>
/// <param name="Key">What it belongs to, the same for ever ("l3"); the days of one key follow each other.</param>
/// <param name="Before">What is to be said until that day, a sentence.</param>
/// <param name="After">What is to be said when it is past.</param>
public sealed record OfficeDay(ReminderAnchor Anchor, string Key, DateOnly Day, string Before, string After)
{
    /// <summary>So long after its day it is still worth saying.</summary>
    private const int LastsDays = 60;

    public IEnumerable<Occasion> Occasions(ReminderRule rule, DateOnly today) => today > Day.AddDays(LastsDays)
        ? []
        : FollowUp.Occasions.After(rule, $"{rule.Code}:{Key}", null, null, Day, today, days => days > 0 ? After : Before);
}

/// <summary>Where days of the office come from. Subjects that use follow-up themselves bring their own.</summary>
public interface IOfficeDays
{
    /// <summary>The anchors it knows every day of.</summary>
    IReadOnlyList<ReminderAnchor> Anchors { get; }

    Task<IReadOnlyList<OfficeDay>> ReadAsync(OfficeDb db, DateOnly today, CancellationToken cancel);
}

/// <summary>Licences and calibrations, as they stand under Shop.</summary>
public sealed class ShopDays : IOfficeDays
{
    public IReadOnlyList<ReminderAnchor> Anchors { get; } = [ReminderAnchor.LicenceEnd, ReminderAnchor.CalibrationEnd];

    public async Task<IReadOnlyList<OfficeDay>> ReadAsync(OfficeDb db, DateOnly today, CancellationToken cancel)
    {
        var licences = await db.Licences.AsNoTracking().Where(l => l.ExpiresOn != null).Select(l => new { l.Id, l.Holder, l.Number, Ends = l.ExpiresOn!.Value }).ToListAsync(cancel);
        var instruments = await db.Instruments.AsNoTracking().Where(i => !i.Retired).Select(i => new
        {
            i.Id,
            i.Kind,
            i.Model,
            i.Serial,
            Ends = i.Calibrations.OrderByDescending(c => c.DoneOn).ThenByDescending(c => c.Id).Select(c => c.DueOn).FirstOrDefault(),
        }).ToListAsync(cancel);
        return
        [
            .. licences.Select(l => Day(ReminderAnchor.LicenceEnd, $"l{l.Id}", l.Ends, $"The licence {l.Number} of {l.Holder}")),
            .. instruments.Where(i => i.Ends is not null).Select(i => Day(ReminderAnchor.CalibrationEnd, $"i{i.Id}", i.Ends!.Value, $"The calibration of {Name(i.Model, i.Serial)}")),
        ];

        static OfficeDay Day(ReminderAnchor anchor, string key, DateOnly ends, string what) =>
            new(anchor, key, ends, $"{what} ends on {HouseTime.Show(ends)}.", $"{what} ended on {HouseTime.Show(ends)}.");

        static string Name(string model, string serial) => model.Length > 0 ? $"{model}, serial number {serial}," : $"the instrument with the serial number {serial}";
    }
}
