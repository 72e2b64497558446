using System.Globalization;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>One day on which something is to be said, as the facts and the rules have it. Pure.</summary>
/// <param name="Series">What recurs: a rule about one house or one part.</param>
/// <param name="HouseId">Empty: for the office itself.</param>
/// <param name="NearDays">A reminder of the same series that was sent so near to this day has said it.</param>
public sealed record Occasion(string Series, string RuleCode, int? HouseId, int? SystemId, DateOnly Anchor, DateOnly DueOn, DateOnly SendOn, string Because, int NearDays)
{
    /// <summary>The two days at the end of a key, with their colons.</summary>
    public const int DaysInKey = 18;

    public string Key { get; } = string.Create(CultureInfo.InvariantCulture, $"{Series}:{Digits(Anchor):D8}:{Digits(DueOn):D8}");

    private static int Digits(DateOnly day) => (day.Year * 100 + day.Month) * 100 + day.Day;
}

public static class Occasions
{
    public const int MonthsAhead = 24;

    /// <summary>So long after its day a note that belongs to a season is still worth saying.</summary>
    public const int SeasonLastsDays = 45;

    /// <summary>What is to be said about one house. Nothing once the building is not expected to stand any longer.</summary>
    public static IEnumerable<Occasion> Of(HouseFacts house, IEnumerable<ReminderRule> rules, CompanyProfile company, DateOnly today) =>
        rules.SelectMany(rule => Of(house, rule, company, today).Where(o =>
            (house.StandsUntil is not { } end || o.DueOn <= end) && (rule.StopAfterMonths is not { } months || o.DueOn <= o.Anchor.AddMonths(months))));

    private static IEnumerable<Occasion> Of(HouseFacts house, ReminderRule rule, CompanyProfile company, DateOnly today) => rule.Anchor switch
    {
        ReminderAnchor.LastValidTest => OccasionsOfTests.Retests(house, rule, company, today),
        ReminderAnchor.TestNotBack => OccasionsOfTests.NotBack(house, rule, today),
        ReminderAnchor.FirstYearSeasons => OccasionsOfTests.BothSeasons(house, rule, today),
        ReminderAnchor.NewOwner => OccasionsOfTests.AfterSale(house, rule, today),
        ReminderAnchor.HouseChanged => OccasionsOfTests.AfterChange(house, rule, today),
        ReminderAnchor.FanChanged => OccasionsOfTests.AfterFan(house, rule, today),
        ReminderAnchor.BatteryFitted => OccasionsOfParts.Batteries(house, rule, company, today),
        ReminderAnchor.BeforeWinter => OccasionsOfParts.Seasonal(house, rule, today, u => u.HasGauge && !u.Passive ? "Winter is near, and cold makes ice and stronger draught." : null),
        ReminderAnchor.FreezeSeason => OccasionsOfParts.Seasonal(house, rule, today, u => u.Freeze?.Because(rule.AtRiskDays ?? 1)),
        ReminderAnchor.FanWarrantyEnd => OccasionsOfParts.Warranties(house, rule, today),
        _ => [],
    };

    /// <summary>Every so many months after the anchor, counted from the anchor itself (so that 29 February comes back in leap years):
    /// the latest whose day to send has come, and those of the next two years.</summary>
    public static IEnumerable<DateOnly> Every(int months, DateOnly anchor, int leadDays, DateOnly today)
    {
        if (months < 1) yield break;
        var horizon = today.AddMonths(MonthsAhead);
        var whole = ((today.Year - anchor.Year) * 12 + today.Month - anchor.Month) / months;
        var from = Math.Max(1, whole - 1);
        var (latest, tried) = (0, 5 + leadDays / (28 * months));
        for (var k = from; k < from + tried && anchor.AddMonths(months * k).AddDays(-leadDays) <= today; k++) latest = k;
        if (latest > 0) yield return anchor.AddMonths(months * latest);
        for (var k = latest > 0 ? latest + 1 : from; anchor.AddMonths(months * k) <= horizon; k++)
            yield return anchor.AddMonths(months * k);
    }

    public static int Near(int months) => Math.Min(90, months * 15);

    /// <summary>Some days after the anchor. Of those whose day to send has come only the latest, so that after a time off nobody gets
    /// several at once.</summary>
    public static IEnumerable<Occasion> After(ReminderRule rule, string series, int? houseId, int? systemId, DateOnly anchor, DateOnly today, Func<int, string> because)
    {
        var days = ReminderDays.Read(rule.AfterDays).Select(d => (Days: d, Due: anchor.AddDays(d))).ToList();
        var come = days.LastOrDefault(d => d.Due.AddDays(-rule.LeadDays) <= today);
        return days.Where(d => d.Due >= come.Due).Select(d => new Occasion(
            string.Create(CultureInfo.InvariantCulture, $"{series}:{d.Days}"), rule.Code, houseId, systemId, anchor, d.Due, d.Due.AddDays(-rule.LeadDays), because(d.Days), NearDays: 15));
    }
}
