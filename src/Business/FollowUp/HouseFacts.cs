using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.FollowUp;

/// <summary>What reminders hang on, read once for every house with a system.</summary>
public sealed record HouseFacts(
    int HouseId, TimeZoneInfo Zone, IReadOnlyList<HouseFacts.Unit> Systems, IReadOnlyList<HouseFacts.Test> Tests, IReadOnlyList<HouseFacts.Battery> Batteries)
{
    public sealed record Unit(int Id, string Tag, DateOnly ActivatedOn, DateTime ActivatedAtUtc);

    /// <param name="Valid">Judged, and not found invalid.</param>
    public sealed record Test(DateOnly EndedOn, DateTime EndedAtUtc, bool Valid, bool FoundInvalid);

    public sealed record Battery(int ComponentId, int SystemId, string Model, DateOnly FittedOn);

    public static async Task<List<HouseFacts>> ReadAsync(OfficeDb db, string companyZone, int? houseId, CancellationToken cancel)
    {
        var running = db.Systems.AsNoTracking().Where(s => s.LeftRunning && (houseId == null || s.HouseId == houseId));
        var systems = await running
            .Join(db.Houses, s => s.HouseId, h => h.Id, (s, h) => new { s.HouseId, h.TimeZone, s.Id, s.TagNumber, s.ActivatedAtUtc }).ToListAsync(cancel);
        var tests = (await db.RadonTests.AsNoTracking().Where(t => t.EndedAtUtc != null && (houseId == null || t.HouseId == houseId))
            .Select(t => new { t.HouseId, EndedAtUtc = t.EndedAtUtc!.Value, t.Outcome }).ToListAsync(cancel)).ToLookup(t => t.HouseId);
        var batteries = (await running.SelectMany(s => s.Components)
            .Where(c => c.Kind == ComponentKind.Alarm && c.RemovedOn == null && c.BatteryFittedOn != null)
            .Select(c => new { c.Id, c.InstalledSystemId, c.Model, FittedOn = c.BatteryFittedOn!.Value }).ToListAsync(cancel)).ToLookup(c => c.InstalledSystemId);
        return [.. systems.GroupBy(s => s.HouseId).Select(g =>
        {
            var zone = HouseTime.Zone(g.First().TimeZone, companyZone);
            return new HouseFacts(
                g.Key, zone,
                [.. g.OrderBy(s => s.ActivatedAtUtc).ThenBy(s => s.Id).Select(s => new Unit(s.Id, s.TagNumber, HouseTime.DayOf(s.ActivatedAtUtc, zone), s.ActivatedAtUtc))],
                [.. tests[g.Key].OrderBy(t => t.EndedAtUtc).Select(t => new Test(
                    HouseTime.DayOf(t.EndedAtUtc, zone), t.EndedAtUtc, t.Outcome is not (TestOutcome.NotJudged or TestOutcome.NotValid), t.Outcome == TestOutcome.NotValid))],
                [.. g.SelectMany(s => batteries[s.Id]).Select(c => new Battery(c.Id, c.InstalledSystemId, c.Model, c.FittedOn))]);
        })];
    }
}
