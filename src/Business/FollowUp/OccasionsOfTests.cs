using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Business.FollowUp;

/// <summary>When a house's radon is to be measured.</summary>
public static class OccasionsOfTests
{
    /// <summary>From the last valid test; from the day the fan was switched on where there never was one.</summary>
    public static IEnumerable<Occasion> Retests(HouseFacts house, ReminderRule rule, CompanyProfile company, DateOnly today)
    {
        var last = house.Tests.LastOrDefault(t => t.Valid);
        var anchor = last?.EndedOn ?? house.Systems[0].ActivatedOn;
        var because = last is null ? $"No valid test is on record since the system began to run on {HouseTime.Show(anchor)}." : $"The last valid test ended on {HouseTime.Show(anchor)}.";
        var months = rule.EveryMonths ?? company.RetestMonths;
        return Occasions.Every(months, anchor, rule.LeadDays, today).Select(due => new Occasion(
            $"{rule.Code}:h{house.HouseId}", rule.Code, house.HouseId, house.Systems[^1].Id, anchor, due, due.AddDays(-rule.LeadDays), because, Occasions.Near(months)));
    }

    public static IEnumerable<Occasion> NotBack(HouseFacts house, ReminderRule rule, DateOnly today) =>
        house.Systems.Where(u => !house.Tests.Any(t => t.EndedAtUtc > u.ActivatedAtUtc && !t.FoundInvalid)).SelectMany(u => Occasions.After(
            rule, $"{rule.Code}:s{u.Id}", house.HouseId, u.Id, u.ActivatedOn, today,
            days => $"The system began to run on {HouseTime.Show(u.ActivatedOn)}; {days} days later we had no test result."));

    /// <summary>A system without a fan is tested in the heating and in the cooling season of its first year.</summary>
    public static IEnumerable<Occasion> BothSeasons(HouseFacts house, ReminderRule rule, DateOnly today)
    {
        foreach (var unit in house.Systems.Where(u => u.Passive))
            foreach (var heating in new[] { true, false })
            {
                var end = unit.ActivatedOn.AddYears(1);
                if (house.Tests.Any(t => t.Valid && t.EndedAtUtc > unit.ActivatedAtUtc && t.EndedOn <= end.AddMonths(2) && IsHeating(t.EndedOn) == heating)) continue;
                var due = NextMiddle(unit.ActivatedOn, heating);
                if (today > due.AddMonths(3)) continue;
                var (series, season) = heating ? ("heating", "heating season") : ("cooling", "cooling season");
                yield return new Occasion(
                    $"{rule.Code}:s{unit.Id}:{series}", rule.Code, house.HouseId, unit.Id, unit.ActivatedOn, due, due.AddDays(-rule.LeadDays),
                    $"A system without a fan is tested in both seasons of its first year, and there is no test of the {season} yet.", NearDays: 60);
            }
    }

    public static IEnumerable<Occasion> AfterSale(HouseFacts house, ReminderRule rule, DateOnly today) =>
        house.NewOwners.Where(o => o.Day >= house.Systems[0].CompletedOn && !TestedSince(house, o.Day) && !Over(rule, o.Day, today)).SelectMany(o => Occasions.After(
            rule, $"{rule.Code}:o{o.Id}", house.HouseId, house.Systems[^1].Id, o.Day, today, _ => $"The house changed hands on {HouseTime.Show(o.Day)}, and no test has been made since."));

    public static IEnumerable<Occasion> AfterChange(HouseFacts house, ReminderRule rule, DateOnly today) =>
        house.Changes.Where(c => !TestedSince(house, c.Day) && !Over(rule, c.Day, today)).SelectMany(c => Occasions.After(
            rule, $"{rule.Code}:x{c.Id}", house.HouseId, house.Systems[^1].Id, c.Day, today, _ => $"On {HouseTime.Show(c.Day)} this was done to the house: {c.Words.TrimEnd('.')}. No test has been made since."));

    /// <summary>A fan that was fitted after the system was finished.</summary>
    public static IEnumerable<Occasion> AfterFan(HouseFacts house, ReminderRule rule, DateOnly today) =>
        from part in house.Parts
        where part.Kind == ComponentKind.Fan && house.Systems.Any(s => s.Id == part.SystemId && part.FittedOn > s.CompletedOn)
        where !TestedSince(house, part.FittedOn) && !Over(rule, part.FittedOn, today)
        from occasion in Occasions.After(
            rule, $"{rule.Code}:c{part.ComponentId}", house.HouseId, part.SystemId, part.FittedOn, today, _ => $"The fan was replaced on {HouseTime.Show(part.FittedOn)}, and no test has been made since.")
        select occasion;

    private static bool TestedSince(HouseFacts house, DateOnly day) => house.Tests.Any(t => t.Valid && t.StartedOn >= day);

    private static bool Over(ReminderRule rule, DateOnly anchor, DateOnly today) => rule.StopAfterMonths is { } months && today > anchor.AddMonths(months);

    /// <summary>October to March: common practice for cold winters, no source.</summary>
    private static bool IsHeating(DateOnly day) => day.Month is >= 10 or <= 3;

    private static DateOnly NextMiddle(DateOnly from, bool heating)
    {
        var middle = new DateOnly(from.Year, heating ? 1 : 7, 15);
        return middle >= from.AddDays(14) ? middle : middle.AddYears(1);
    }
}
