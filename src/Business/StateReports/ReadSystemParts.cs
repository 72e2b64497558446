using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.StateReports;

/// <summary>What belongs to houses that have a system, and to the systems themselves: five statements.</summary>
public sealed record ReadSystemParts(
    ILookup<int, AreaRow> Areas, ILookup<int, OwnerRow> Owners, ILookup<int, BeforeRow> Before, ILookup<int, TestRow> After, ILookup<int, FanRow> Fans)
{
    public static async Task<ReadSystemParts> RunAsync(OfficeDb db, CancellationToken cancel)
    {
        var areas = await db.Set<FoundationArea>().AsNoTracking().Where(a => db.Systems.Any(s => s.HouseId == a.HouseId)).Select(a => new AreaRow(a.HouseId, a.Kind)).ToListAsync(cancel);
        var owners = await db.HouseOwners.AsNoTracking().Where(o => db.Systems.Any(s => s.HouseId == o.HouseId))
            .OrderBy(o => o.FromDay).ThenBy(o => o.Id).Select(o => new OwnerRow(o.HouseId, o.FromDay, o.ToDay, o.CustomerId, o.Customer!.Name, o.Customer.Phone)).ToListAsync(cancel);
        var before = await db.Set<EarlierTest>().AsNoTracking().Where(t => db.Systems.Any(s => s.HouseId == t.HouseId))
            .Select(t => new BeforeRow(t.Id, t.HouseId, t.PCiL, t.Device, t.StartedOn, t.EndedOn, t.MadeBy)).ToListAsync(cancel);
        var after = await db.RadonTests.AsNoTracking().Where(t => t.EndedAtUtc != null && t.Reason == TestReason.PostMitigation && t.Outcome != TestOutcome.NotJudged && t.Outcome != TestOutcome.NotValid)
            .OrderBy(t => t.EndedAtUtc).ThenBy(t => t.Id)
            .Select(t => new TestRow(t.Id, t.HouseId, t.InstalledSystemId, t.StartedAtUtc, t.EndedAtUtc!.Value, t.DecidingPCiL, t.MadeBy, t.MadeByNumber, t.Devices.Select(d => d.Kind).ToList())).AsSingleQuery().ToListAsync(cancel);
        var fans = await db.Set<SystemComponent>().AsNoTracking().Where(c => c.Kind == ComponentKind.Fan).OrderBy(c => c.FittedOn).ThenBy(c => c.Id)
            .Select(c => new FanRow(c.Id, c.InstalledSystemId, c.Model, c.Serial, c.FittedOn, c.RemovedOn)).ToListAsync(cancel);
        return new(areas.ToLookup(a => a.HouseId), owners.ToLookup(o => o.HouseId), before.ToLookup(t => t.HouseId), after.ToLookup(t => t.HouseId), fans.ToLookup(f => f.SystemId));
    }

    /// <summary>Who owned the house on a day; before the first owner on record, the first.</summary>
    public OwnerRow? OwnerOn(int houseId, DateOnly day) =>
        Owners[houseId].LastOrDefault(o => o.FromDay <= day && (o.ToDay is null || o.ToDay > day)) ?? Owners[houseId].FirstOrDefault();

    /// <summary>The last test that ended by that day.</summary>
    public BeforeRow? TestBefore(int houseId, DateOnly day) =>
        Before[houseId].Where(t => (t.EndedOn ?? t.StartedOn) is not { } on || on <= day).OrderByDescending(t => t.EndedOn ?? t.StartedOn).ThenByDescending(t => t.Id).FirstOrDefault();

    /// <summary>The first valid test after the fan was switched on, of this system or of none in particular.</summary>
    public TestRow? TestAfter(int houseId, int systemId, DateTime activatedAtUtc) =>
        After[houseId].FirstOrDefault(t => t.EndedAtUtc > activatedAtUtc && (t.SystemId is null || t.SystemId == systemId));
}
