using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Diagnosis;

public sealed class EditModel(OfficeDb db, UnitChoice units, TimeProvider clock, Actor actor) : PageModel
{
    [BindProperty]
    public PfeForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty(SupportsGet = true)]
    public int HouseId { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? TestId { get; set; }

    /// <summary>An earlier test of the house whose holes are read again, with suction at another hole.</summary>
    [FromQuery]
    public int? Like { get; set; }

    public IReadOnlyList<Instrument> Instruments { get; private set; } = [];
    public IReadOnlyList<(string Value, string Words)> Fans { get; private set; } = [];
    public IReadOnlyList<string> Areas { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await ShowAsync()) return NotFound();
        if (TestId is null) await StartAsync();
        else if (await ReadAsync() is { } saved) (Input, Version) = saved;
        else return NotFound();
        Input.WithRoom(Input.FilledSettings + 2, Math.Max(5, Input.FilledHoles + 2), Input.Suction.Count);
        return Page();
    }

    /// <summary>More empty rows; everything typed stays.</summary>
    public async Task<IActionResult> OnPostMoreAsync(string? of)
    {
        if (!await ShowAsync()) return NotFound();
        Input.WithRoom(Input.Settings.Count + (of == "settings" ? 1 : 0), Input.Holes.Count + (of == "holes" ? 4 : 0), Input.Suction.Count + (of == "suction" ? 1 : 0));
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await ShowAsync()) return NotFound();
        Input.WithRoom(Input.Settings.Count, Input.Holes.Count);
        var test = TestId is null ? new PressureFieldTest { HouseId = HouseId } : await TestAsync(tracked: true);
        if (test is null) return NotFound();
        var reading = new ReadPfe(Input, new FormReading(ModelState, nameof(Input), units.System), await FanNamesAsync(), await PlanAsync(), units.System);
        reading.Into(test);
        test.InstrumentId = ReadWith.Named(Instruments, test.Instrument)?.Id;
        if (!ModelState.IsValid) return Page();
        if (TestId is null) db.Add(test);
        else db.Entry(test).State = EntityState.Modified;
        if (TestId is not null) db.Expect(test, Version);
        return await SaveAsync(test, reading) ? LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/diagnosis?test={test.Id}")) : Page();
    }

    private Task<bool> SaveAsync(PressureFieldTest test, ReadPfe reading) => db.WriteAsync(async () =>
    {
        if (!await db.TrySaveAsync(ModelState, nameof(Input), Input, async () => (await ReadAsync())!.Value, v => Version = v)) return false;
        reading.AddWaiting();
        await db.SaveChangesAsync();
        return true;
    });

    private async Task<bool> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 2) is not { } head) return false;
        ViewData["House"] = head;
        Fans = [("", "a vacuum, or another fan"), .. (await FanNamesAsync()).Select(f => (f.Key.ToString(CultureInfo.InvariantCulture), f.Value))];
        Instruments = await ReadWith.InstrumentsAsync(db);
        Areas = await db.Houses.Where(h => h.Id == HouseId).SelectMany(h => h.Areas).Select(a => a.Name).ToListAsync();
        return true;
    }

    private async Task StartAsync()
    {
        var zone = HouseTime.Zone(await db.Houses.Where(h => h.Id == HouseId).Select(h => h.TimeZone).SingleAsync(), await db.Company.Select(c => c.TimeZone).SingleAsync());
        var indoor = await db.Company.Select(c => c.IndoorC).SingleAsync();
        Input = new PfeForm
        {
            Day = TypedNumbers.Plain(HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, zone)), MeasuredBy = actor.Name,
            Indoor = Measures.Temperature.Number(indoor, units.System), Suction = [new() { Label = "S1" }],
        };
        if (Like is not null) await TakeHolesAsync();
    }

    /// <summary>The holes of an earlier test, where they are; distances are from another suction hole now and are read anew with everything else.</summary>
    private async Task TakeHolesAsync()
    {
        var earlier = await db.PressureFieldTests.AsNoTracking().Include(t => t.SuctionHoles).Include(t => t.TestHoles).FirstOrDefaultAsync(t => t.Id == Like && t.HouseId == HouseId);
        if (earlier is null) return;
        var known = PfeForm.Of(earlier, units.System);
        Input.Suction = [new() { Label = $"S{earlier.SuctionHoles.Count + 1}" }];
        Input.Holes = [.. known.Holes.Select(h => new PfeForm.HoleRow { Label = h.Label, Place = h.Place, At = h.At })];
        (Input.Instrument, Input.AppliancesRunning) = (known.Instrument, known.AppliancesRunning);
    }

    private async Task<FloorPlan> PlanAsync() =>
        FloorPlan.Of(await db.Houses.AsNoTracking().Include(h => h.Areas).AsSingleQuery().SingleAsync(h => h.Id == HouseId));

    private Task<Dictionary<int, string>> FanNamesAsync() =>
        db.Fans.AsNoTracking().Where(f => !f.Retired).OrderBy(f => f.Model).ToDictionaryAsync(f => f.Id, f => f.Model);

    private async Task<(PfeForm, int)?> ReadAsync() =>
        await TestAsync(tracked: false) is { } test ? (PfeForm.Of(test, units.System), test.Version) : null;

    private Task<PressureFieldTest?> TestAsync(bool tracked) =>
        (tracked ? db.PressureFieldTests.AsTracking() : db.PressureFieldTests.AsNoTracking())
            .Include(t => t.SuctionHoles).Include(t => t.Settings).Include(t => t.TestHoles).ThenInclude(h => h.Readings)
            .FirstOrDefaultAsync(t => t.Id == TestId && t.HouseId == HouseId);
}
