using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>What the office reminds itself of: licences that end. State reports have their own days, see StateReports.</summary>
public sealed record OfficeDuties(IReadOnlyList<(int Id, string Holder, string Number, DateOnly Ends)> Licences)
{
    public static async Task<OfficeDuties> ReadAsync(OfficeDb db, CancellationToken cancel)
    {
        var licences = await db.Licences.AsNoTracking().Where(l => l.ExpiresOn != null).Select(l => new { l.Id, l.Holder, l.Number, Ends = l.ExpiresOn!.Value }).ToListAsync(cancel);
        return new([.. licences.Select(l => (l.Id, l.Holder, l.Number, l.Ends))]);
    }

    public IEnumerable<Occasion> Occasions(IEnumerable<ReminderRule> rules, DateOnly today) => rules.SelectMany(rule => rule.Anchor switch
    {
        ReminderAnchor.LicenceEnd => LicenceEnds(rule, today),
        _ => [],
    });

    private IEnumerable<Occasion> LicenceEnds(ReminderRule rule, DateOnly today) => Licences.Where(l => today <= l.Ends.AddDays(60)).SelectMany(l => FollowUp.Occasions.After(
        rule, $"{rule.Code}:l{l.Id}", null, null, l.Ends, today, _ => $"The licence {l.Number} of {l.Holder} ends on {HouseTime.Show(l.Ends)}."));
}
