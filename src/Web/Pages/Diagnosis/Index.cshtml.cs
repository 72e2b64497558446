using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Diagnosis;

public sealed class IndexModel(OfficeDb db, UnitChoice units) : PageModel
{
    public sealed record Other(int Id, DateOnly Day);

    public sealed record Hole(string Label, string Place, double? DistanceM, double? FanOffPa, IReadOnlyList<double?> OnPa);

    public int HouseId { get; private set; }
    public PressureFieldTest? Test { get; private set; }
    public IReadOnlyList<Other> Others { get; private set; } = [];
    public IReadOnlyList<FanSetting> Settings { get; private set; } = [];
    public IReadOnlyList<Hole> Holes { get; private set; } = [];
    public IReadOnlyList<string> Warnings { get; private set; } = [];
    public IReadOnlyList<string> HolesOwed { get; private set; } = [];
    public ReadingFindings Found { get; private set; } = new(null, null);
    public ReadWith? ReadWith { get; private set; }
    public HouseFacts? Facts { get; private set; }

    public async Task<IActionResult> OnGetAsync(int houseId, int? test)
    {
        if (await HouseHead.LoadAsync(db, houseId, shown: 2) is not { } head) return NotFound();
        HouseId = houseId;
        var all = await db.PressureFieldTests.AsNoTracking().Where(t => t.HouseId == houseId).OrderByDescending(t => t.Day).ThenByDescending(t => t.Id).Select(t => new Other(t.Id, t.Day)).ToListAsync();
        var shown = test ?? (all.Count > 0 ? all[0].Id : null);
        Others = [.. all.Where(o => o.Id != shown)];
        ViewData["House"] = head;
        if (shown is null) return Page();
        Test = await db.PressureFieldTests.AsNoTracking().Include(t => t.SuctionHoles).Include(t => t.Settings).Include(t => t.TestHoles).ThenInclude(h => h.Readings).AsSingleQuery()
            .FirstOrDefaultAsync(t => t.Id == shown && t.HouseId == houseId);
        if (Test is null) return NotFound();
        ViewData["House"] = head with { Date = HouseTime.Show(Test.Day) };
        if (Test.Instrument.Length > 0) ReadWith = ReadWith.Of(await ReadWith.InstrumentsAsync(db), Test.InstrumentId, Test.Instrument, Test.Day);
        var house = await db.Houses.AsNoTracking().Include(h => h.Areas).AsSingleQuery().SingleAsync(h => h.Id == houseId);
        Found = await AnalyzeReadings.RunAsync(db, Test, house.ElevationM);
        Show(Test, house, head.Address);
        return Page();
    }

    private void Show(PressureFieldTest test, House house, string address)
    {
        Settings = [.. test.Settings.OrderBy(s => s.Position)];
        Holes = [.. test.TestHoles.OrderBy(h => h.Position).Select(h => new Hole(
            h.Label, h.Place, test.FromPitM(h), h.FanOffPa, [.. Settings.Select(s => h.Readings.Find(r => r.FanSettingId == s.Id)?.FanOnPa)]))];
        // The engine warns of single holes too; those are already said above in the gauge's own signs.
        Warnings = [.. CheckReadings.Of(test, units.System), .. (Found.Ground?.Warnings ?? []).Where(w => !w.StartsWith("Hole ", StringComparison.Ordinal))];
        HolesOwed = CheckReadings.HolesOwed(test, house.Areas);
        Facts = SectionOfTest.Of(test, house, address, units.System);
    }
}
