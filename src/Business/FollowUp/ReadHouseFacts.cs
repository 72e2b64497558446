using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Reads the facts of the houses with a running system, one statement for each kind.</summary>
public static class ReadHouseFacts
{
    public static async Task<List<HouseFacts>> RunAsync(OfficeDb db, string companyZone, HouseRange range, CancellationToken cancel)
    {
        var (from, to) = (range.From, range.To);
        var running = db.Systems.AsNoTracking().Where(s => s.LeftRunning && s.HouseId >= from && s.HouseId <= to);
        var systems = await running.Join(db.Houses, s => s.HouseId, h => h.Id, (s, h) => new
        {
            s.HouseId,
            h.TimeZone,
            h.YearsInUse,
            h.AskedAtUtc,
            s.Id,
            s.TagNumber,
            s.ActivatedAtUtc,
            s.CompletedOn,
            s.SystemType,
            s.SuctionDesignId,
        }).ToListAsync(cancel);
        var tests = (await db.RadonTests.AsNoTracking().Where(t => t.EndedAtUtc != null && t.HouseId >= from && t.HouseId <= to)
            .Select(t => new { t.HouseId, t.StartedAtUtc, EndedAtUtc = t.EndedAtUtc!.Value, t.Outcome }).ToListAsync(cancel)).ToLookup(t => t.HouseId);
        var parts = (await running.SelectMany(s => s.Components).Where(c => c.RemovedOn == null)
            .Select(c => new HouseFacts.Part(c.Id, c.InstalledSystemId, c.Kind, c.Model, c.FittedOn, c.BatteryFittedOn, c.WarrantyUntil)).ToListAsync(cancel)).ToLookup(c => c.SystemId);
        var owners = (await db.HouseOwners.AsNoTracking().Where(o => o.HouseId >= from && o.HouseId <= to)
            .Where(o => db.HouseOwners.Any(e => e.HouseId == o.HouseId && (e.FromDay < o.FromDay || (e.FromDay == o.FromDay && e.Id < o.Id))))
            .Select(o => new { o.HouseId, o.Id, o.FromDay }).ToListAsync(cancel)).ToLookup(o => o.HouseId);
        var changes = (await db.HouseChanges.AsNoTracking().Where(c => c.HouseId >= from && c.HouseId <= to)
            .Select(c => new { c.HouseId, c.Id, c.OnDay, c.Words }).ToListAsync(cancel)).ToLookup(c => c.HouseId);
        var ice = await ReadIce.RunAsync(db, range, cancel);
        return [.. systems.GroupBy(s => s.HouseId).Select(g =>
        {
            var (first, zone) = (g.First(), HouseTime.Zone(g.First().TimeZone, companyZone));
            return new HouseFacts(g.Key, zone, [.. g.OrderBy(s => s.ActivatedAtUtc).ThenBy(s => s.Id).Select(s =>
            {
                var fitted = parts[s.Id].Select(p => p.Kind).ToHashSet();
                return new HouseFacts.Unit(
                    s.Id, s.TagNumber, HouseTime.DayOf(s.ActivatedAtUtc, zone), s.ActivatedAtUtc, s.CompletedOn,
                    s.SystemType.Contains("passive", StringComparison.OrdinalIgnoreCase) && !fitted.Contains(ComponentKind.Fan),
                    fitted.Contains(ComponentKind.HeatCable) ? null : ice(g.Key, s.SuctionDesignId), fitted.Contains(ComponentKind.Gauge));
            })])
            {
                Tests = [.. tests[g.Key].OrderBy(t => t.EndedAtUtc).Select(t => new HouseFacts.Test(
                    HouseTime.DayOf(t.StartedAtUtc, zone), HouseTime.DayOf(t.EndedAtUtc, zone), t.EndedAtUtc,
                    t.Outcome is not (TestOutcome.NotJudged or TestOutcome.NotValid), t.Outcome == TestOutcome.NotValid))],
                Parts = [.. g.SelectMany(s => parts[s.Id])],
                NewOwners = [.. owners[g.Key].Select(o => (o.Id, o.FromDay))],
                Changes = [.. changes[g.Key].Select(c => (c.Id, c.OnDay, c.Words))],
                StandsUntil = first.YearsInUse is { } years ? HouseTime.DayOf(first.AskedAtUtc, zone).AddYears(years) : null,
            };
        })];
    }
}
