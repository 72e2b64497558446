using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>What is to be said to the office itself.</summary>
internal static class OfficeOccasions
{
    public static IOfficeDays[] Sources(IEnumerable<IOfficeDays> elsewhere) => [new ShopDays(), .. elsewhere];

    public static async Task<List<Occasion>> ReadAsync(OfficeDb db, CompanyProfile company, List<ReminderRule> rules, DateTime nowUtc, IOfficeDays[] sources, CancellationToken cancel)
    {
        var today = HouseTime.DayOf(nowUtc, HouseTime.Zone(company.TimeZone));
        var wanted = new List<Occasion>();
        foreach (var source in sources)
        {
            var read = await source.ReadAsync(db, today, cancel);
            wanted.AddRange(rules.Where(r => !r.Off).SelectMany(rule => read.Where(d => d.Anchor == rule.Anchor).SelectMany(d => d.Occasions(rule, today))));
        }

        return wanted;
    }

    /// <summary>Rules about days that none of these sources knows: their reminders stay as they are.</summary>
    public static List<string> NotAsked(List<ReminderRule> rules, IOfficeDays[] sources) =>
        [.. rules.Where(r => r.Channel == ReminderChannel.Office && !sources.Any(d => d.Anchors.Contains(r.Anchor))).Select(r => r.Code)];
}
