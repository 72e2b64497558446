using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>One test as sheet 6 shows it: its verdict drawn again from the same record, so that rooms and reasons stand side by side.</summary>
public sealed record TestView(RadonTest Test, DateTime FanOnUtc, JudgeTest.Verdict? Verdict)
{
    public bool Out => Test.JudgedAtUtc is null && (Test.EndedAtUtc is null || Test.Devices.Exists(d => d.PCiL is null));

    public static async Task<IReadOnlyList<TestView>> OfHouseAsync(OfficeDb db, int houseId, TimeZoneInfo zone)
    {
        var tests = await db.RadonTests.AsNoTracking().Include(t => t.Devices).Where(t => t.HouseId == houseId).OrderByDescending(t => t.StartedAtUtc).ThenByDescending(t => t.Id).ToListAsync();
        var fans = await db.Systems.Where(s => s.HouseId == houseId).ToDictionaryAsync(s => s.Id, s => s.ActivatedAtUtc);
        return tests.ConvertAll(t =>
        {
            var fanOn = t.InstalledSystemId is { } id ? fans.GetValueOrDefault(id) : default;
            return new TestView(t, fanOn, t.JudgedAtUtc is null || t.TargetPCiL is not { } target ? null : JudgeTest.Of(t, fanOn, target, zone));
        });
    }
}
