using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>What the office reminds itself of: licences that end and months not yet reported.</summary>
public sealed record OfficeDuties(IReadOnlyList<(int Id, string Holder, string Number, DateOnly Ends)> Licences, DateOnly? FirstSystemOn, IReadOnlySet<DateOnly> Reported)
{
    public static async Task<OfficeDuties> ReadAsync(OfficeDb db, TimeZoneInfo zone, CancellationToken cancel)
    {
        var licences = await db.Licences.AsNoTracking().Where(l => l.ExpiresOn != null).Select(l => new { l.Id, l.Holder, l.Number, Ends = l.ExpiresOn!.Value }).ToListAsync(cancel);
        var first = await db.Systems.MinAsync(s => (DateTime?)s.ActivatedAtUtc, cancel);
        return new([.. licences.Select(l => (l.Id, l.Holder, l.Number, l.Ends))], first is { } utc ? HouseTime.DayOf(utc, zone) : null, (await ReportedMonths(db).ToListAsync(cancel)).ToHashSet());
    }

    /// <summary>By name and not by type: the state reports stand after the follow-up and may use it, not the other way.</summary>
    private static IQueryable<DateOnly> ReportedMonths(OfficeDb db) => db.Database.SqlQuery<DateOnly>($"""SELECT "Month" AS "Value" FROM "ReportRuns" """);

    public IEnumerable<Occasion> Occasions(IEnumerable<ReminderRule> rules, DateOnly today) => rules.SelectMany(rule => rule.Anchor switch
    {
        ReminderAnchor.LicenceEnd => LicenceEnds(rule, today),
        ReminderAnchor.MonthReport => MonthsToReport(rule, today),
        _ => [],
    });

    private IEnumerable<Occasion> LicenceEnds(ReminderRule rule, DateOnly today) => Licences.Where(l => today <= l.Ends.AddDays(60)).SelectMany(l => FollowUp.Occasions.After(
        rule, $"{rule.Code}:l{l.Id}", null, null, l.Ends, today, _ => $"The licence {l.Number} of {l.Holder} ends on {HouseTime.Show(l.Ends)}."));

    /// <summary>The month that ended last, while its report is not frozen.</summary>
    private IEnumerable<Occasion> MonthsToReport(ReminderRule rule, DateOnly today)
    {
        var month = today.AddDays(1 - today.Day).AddMonths(-1);
        if (FirstSystemOn is not { } first || first >= month.AddMonths(1) || Reported.Contains(month)) return [];
        return FollowUp.Occasions.After(
            rule, $"{rule.Code}:m", null, null, month.AddMonths(1).AddDays(-1), today, _ => $"{month.ToString("MMMM yyyy", CultureInfo.InvariantCulture)} is over, and its state report is not frozen.");
    }
}
