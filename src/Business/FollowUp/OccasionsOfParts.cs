using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Business.FollowUp;

/// <summary>When a part of the system wants a hand or an eye.</summary>
public static class OccasionsOfParts
{
    /// <summary>By the alarm's model where the rule knows it.</summary>
    public static IEnumerable<Occasion> Batteries(HouseFacts house, ReminderRule rule, CompanyProfile company, DateOnly today)
    {
        var models = ReminderDays.Models(rule.ByModel);
        var alarms = house.Parts.Where(p => p.Kind == ComponentKind.Alarm).ToList();
        foreach (var part in alarms)
        {
            if (part.BatteryFittedOn is not { } fitted) continue;
            var months = models.TryGetValue(part.Model.Trim(), out var own) ? own : rule.EveryMonths ?? company.AlarmBatteryMonths;
            foreach (var due in Occasions.Every(months, fitted, rule.LeadDays, today))
                yield return new Occasion(
                    $"{rule.Code}:c{part.ComponentId}", rule.Code, house.HouseId, part.SystemId, fitted, due, due.AddDays(-rule.LeadDays),
                    $"The battery of {(alarms.Count > 1 && part.Model.Length > 0 ? $"the alarm “{part.Model}”" : "the alarm")} was fitted on {HouseTime.Show(fitted)}.", Occasions.Near(months));
        }
    }

    /// <summary>On a day of every year, from the first that is two months after the system was switched on; not when the season is over.</summary>
    /// <param name="reason">Why it concerns a system; null: it does not.</param>
    public static IEnumerable<Occasion> Seasonal(HouseFacts house, ReminderRule rule, DateOnly today, Func<HouseFacts.Unit, string?> reason)
    {
        if (ReminderDays.Season(rule.SeasonDay) is not { } day || house.Systems.FirstOrDefault(u => reason(u) is not null) is not { } unit) yield break;
        var because = reason(unit)!;
        var (first, horizon) = (unit.ActivatedOn.AddMonths(2), today.AddMonths(Occasions.MonthsAhead));
        for (var due = new DateOnly(today.Year - 1, day.Month, day.Day); due <= horizon; due = due.AddYears(1))
            if (due >= first && today <= due.AddDays(Occasions.SeasonLastsDays))
                yield return new Occasion($"{rule.Code}:h{house.HouseId}", rule.Code, house.HouseId, unit.Id, due, due, due.AddDays(-rule.LeadDays), because, NearDays: 120);
    }

    public static IEnumerable<Occasion> Warranties(HouseFacts house, ReminderRule rule, DateOnly today) =>
        from part in house.Parts
        where part.Kind == ComponentKind.Fan && part.WarrantyUntil >= today
        let end = part.WarrantyUntil!.Value
        select new Occasion(
            $"{rule.Code}:c{part.ComponentId}", rule.Code, house.HouseId, part.SystemId, end, end, end.AddDays(-rule.LeadDays),
            $"The maker's warranty on the fan{(part.Model.Length > 0 ? $" {part.Model}" : "")} ends on {HouseTime.Show(end)}.", NearDays: 60);
}
