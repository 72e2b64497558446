using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Reads the facts of every house with a running system, one statement for each kind.</summary>
public static class ReadHouseFacts
{
    public static async Task<List<HouseFacts>> RunAsync(OfficeDb db, string companyZone, int? houseId, CancellationToken cancel)
    {
        var running = db.Systems.AsNoTracking().Where(s => s.LeftRunning && (houseId == null || s.HouseId == houseId));
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
        }).ToListAsync(cancel);
        var tests = (await db.RadonTests.AsNoTracking().Where(t => t.EndedAtUtc != null && (houseId == null || t.HouseId == houseId))
            .Select(t => new { t.HouseId, t.StartedAtUtc, EndedAtUtc = t.EndedAtUtc!.Value, t.Outcome }).ToListAsync(cancel)).ToLookup(t => t.HouseId);
        var parts = (await running.SelectMany(s => s.Components).Where(c => c.RemovedOn == null)
            .Select(c => new HouseFacts.Part(c.Id, c.InstalledSystemId, c.Kind, c.Model, c.FittedOn, c.BatteryFittedOn, c.WarrantyUntil)).ToListAsync(cancel)).ToLookup(c => c.SystemId);
        var owners = (await db.HouseOwners.AsNoTracking().Where(o => houseId == null || o.HouseId == houseId)
            .Where(o => db.HouseOwners.Any(e => e.HouseId == o.HouseId && (e.FromDay < o.FromDay || (e.FromDay == o.FromDay && e.Id < o.Id))))
            .Select(o => new { o.HouseId, o.Id, o.FromDay }).ToListAsync(cancel)).ToLookup(o => o.HouseId);
        var changes = (await db.HouseChanges.AsNoTracking().Where(c => houseId == null || c.HouseId == houseId)
            .Select(c => new { c.HouseId, c.Id, c.OnDay, c.Words }).ToListAsync(cancel)).ToLookup(c => c.HouseId);
        var cold = await AtFreezeRiskAsync(db, houseId, cancel);
        return [.. systems.GroupBy(s => s.HouseId).Select(g =>
        {
            var (first, zone) = (g.First(), HouseTime.Zone(g.First().TimeZone, companyZone));
            return new HouseFacts(g.Key, zone, [.. g.OrderBy(s => s.ActivatedAtUtc).ThenBy(s => s.Id).Select(s =>
            {
                var fitted = parts[s.Id].Select(p => p.Kind).ToHashSet();
                return new HouseFacts.Unit(
                    s.Id, s.TagNumber, HouseTime.DayOf(s.ActivatedAtUtc, zone), s.ActivatedAtUtc, s.CompletedOn,
                    s.SystemType.Contains("passive", StringComparison.OrdinalIgnoreCase) && !fitted.Contains(ComponentKind.Fan),
                    cold.Contains(g.Key) && !fitted.Contains(ComponentKind.HeatCable), fitted.Contains(ComponentKind.Gauge));
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

    /// <summary>Houses whose signed quote recommended a heat cable or insulation that was not taken.</summary>
    private static async Task<HashSet<int>> AtFreezeRiskAsync(OfficeDb db, int? houseId, CancellationToken cancel)
    {
        var declined = await db.Acceptances.AsNoTracking().Where(a => a.DeclinedAddOnIds != "")
            .Join(db.QuoteRevisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => new { a.DeclinedAddOnIds, r.Quote!.HouseId })
            .Where(x => houseId == null || x.HouseId == houseId).ToListAsync(cancel);
        if (declined.Count == 0) return [];
        var warming = (await db.Set<QuoteAddOn>().AsNoTracking().Where(o => o.OfferedFor == OfferReason.FreezeGuard || o.OfferedFor == OfferReason.Insulation)
            .Select(o => o.Id).ToListAsync(cancel)).ConvertAll(id => id.ToString(CultureInfo.InvariantCulture)).ToHashSet(StringComparer.Ordinal);
        return [.. declined.Where(d => d.DeclinedAddOnIds.Split(',', StringSplitOptions.TrimEntries).Any(warming.Contains)).Select(d => d.HouseId)];
    }
}
