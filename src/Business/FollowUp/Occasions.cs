using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>One day on which something is to be said, as the facts and the rules have it. Pure.</summary>
/// <param name="Series">What recurs: a rule about one house or one part.</param>
/// <param name="NearDays">A reminder of the same series that was sent so near to this day has said it.</param>
public sealed record Occasion(string Series, string RuleCode, int HouseId, int SystemId, DateOnly Anchor, DateOnly DueOn, DateOnly SendOn, string Because, int NearDays)
{
    public string Key => string.Create(CultureInfo.InvariantCulture, $"{Series}:{Anchor:yyyyMMdd}:{DueOn:yyyyMMdd}");
}

public static class Occasions
{
    public const int MonthsAhead = 24;
    public static readonly int[] NotBackDays = [14, 30];

    public static IEnumerable<Occasion> Of(HouseFacts house, IReadOnlyDictionary<string, ReminderRule> rules, CompanyProfile company, DateOnly today) =>
        Retests(house, rules, company, today).Concat(Batteries(house, rules, company, today)).Concat(TestsNotBack(house, rules, today));

    private static IEnumerable<Occasion> Retests(HouseFacts house, IReadOnlyDictionary<string, ReminderRule> rules, CompanyProfile company, DateOnly today)
    {
        if (!rules.TryGetValue(SeedReminderRules.Retest, out var rule) || house.Tests.LastOrDefault(t => t.Valid) is not { } last) return [];
        var because = $"The last valid test ended on {HouseTime.Show(last.EndedOn)}.";
        return Every(company.RetestMonths, last.EndedOn, rule.LeadDays, today).Select(due => new Occasion(
            $"retest:h{house.HouseId}", rule.Code, house.HouseId, house.Systems[^1].Id, last.EndedOn, due, due.AddDays(-rule.LeadDays), because, Near(company.RetestMonths)));
    }

    private static IEnumerable<Occasion> Batteries(HouseFacts house, IReadOnlyDictionary<string, ReminderRule> rules, CompanyProfile company, DateOnly today)
    {
        if (!rules.TryGetValue(SeedReminderRules.AlarmBattery, out var rule)) return [];
        return house.Batteries.SelectMany(b => Every(company.AlarmBatteryMonths, b.FittedOn, rule.LeadDays, today).Select(due => new Occasion(
            $"battery:c{b.ComponentId}", rule.Code, house.HouseId, b.SystemId, b.FittedOn, due, due.AddDays(-rule.LeadDays),
            $"The battery of the alarm {b.Model} was fitted on {HouseTime.Show(b.FittedOn)}.", Near(company.AlarmBatteryMonths))));
    }

    /// <summary>Only the later of the two days that has come, so that after a time off nobody gets both at once.</summary>
    private static IEnumerable<Occasion> TestsNotBack(HouseFacts house, IReadOnlyDictionary<string, ReminderRule> rules, DateOnly today)
    {
        if (!rules.TryGetValue(SeedReminderRules.TestNotBack, out var rule)) yield break;
        foreach (var unit in house.Systems.Where(u => !house.Tests.Any(t => t.EndedAtUtc > u.ActivatedAtUtc && !t.FoundInvalid)))
        {
            var days = NotBackDays.Select(d => (Days: d, Due: unit.ActivatedOn.AddDays(d))).ToList();
            var come = days.LastOrDefault(d => d.Due.AddDays(-rule.LeadDays) <= today);
            foreach (var (after, due) in days.Where(d => d.Due >= come.Due))
                yield return new Occasion(
                    $"test-not-back:s{unit.Id}:{after}", rule.Code, house.HouseId, unit.Id, unit.ActivatedOn, due, due.AddDays(-rule.LeadDays),
                    $"The fan was switched on {HouseTime.Show(unit.ActivatedOn)}; {after} days later no test result was here.", NearDays: 15);
        }
    }

    /// <summary>Every so many months after the anchor, counted from the anchor itself (so that 29 February comes back in leap years):
    /// the latest whose day to send has come, and those of the next two years.</summary>
    private static IEnumerable<DateOnly> Every(int months, DateOnly anchor, int leadDays, DateOnly today)
    {
        if (months < 1) yield break;
        var horizon = today.AddMonths(MonthsAhead);
        var whole = ((today.Year - anchor.Year) * 12 + today.Month - anchor.Month) / months;
        var from = Math.Max(1, whole - 1);
        var latest = Enumerable.Range(from, 5 + leadDays / (28 * months)).LastOrDefault(k => anchor.AddMonths(months * k).AddDays(-leadDays) <= today);
        if (latest > 0) yield return anchor.AddMonths(months * latest);
        for (var k = latest > 0 ? latest + 1 : from; anchor.AddMonths(months * k) <= horizon; k++)
            yield return anchor.AddMonths(months * k);
    }

    private static int Near(int months) => Math.Min(90, months * 15);
}
