using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Drawings;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Plan;

public sealed class IndexModel(OfficeDb db, UnitChoice units) : PageModel
{
    [BindProperty]
    public PlanForm Input { get; set; } = new();

    /// <summary>Of the house; the PFE test whose holes are placed has its own.</summary>
    [BindProperty]
    public int Version { get; set; }

    [BindProperty]
    public int TestVersion { get; set; }

    [BindProperty(SupportsGet = true)]
    public int HouseId { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Test { get; set; }

    public PressureFieldTest? Holes { get; private set; }
    public PlanBackdrop? Backdrop { get; private set; }
    public PlanView? View { get; private set; }
    public IReadOnlyList<string> HoleNames { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync()
    {
        if (await FindAsync() is not { } house) return NotFound();
        (Input, Version, TestVersion) = (PlanForm.Of(house, Holes, units.System), house.Version, Holes?.Version ?? 0);
        return await ShowAsync(house, empty: house.Areas.Exists(a => a.CornersM.Length > 0) ? 0 : 1);
    }

    /// <summary>Empty rows for further areas or holes; everything typed stays.</summary>
    public async Task<IActionResult> OnPostMoreAsync(string? of)
    {
        if (await FindAsync() is not { } house) return NotFound();
        if (of == "holes") Input.OfferHoles(more: true);
        return await ShowAsync(house, empty: of == "holes" ? 0 : 2);
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (await FindAsync() is not { } house) return NotFound();
        var reading = new ReadPlan(Input, new FormReading(ModelState, nameof(Input), units.System), house, Holes, units.System);
        if (ModelState.IsValid) reading.Check();
        if (!ModelState.IsValid) return await ShowAsync(house, empty: 0);
        reading.Write();
        return await SaveAsync(house) ? LocalRedirect(Address("plan")) : await ShowAsync((await FindAsync())!, empty: 0);
    }

    public string Address(string sheet) => string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/{sheet}{(Test is { } id ? $"?test={id}" : "")}");

    private Task<bool> SaveAsync(House house)
    {
        // A moved wall or hole counts as a change of the house or the test, so that two people who draw meet.
        db.ChangeTracker.DetectChanges();
        if (db.ChangeTracker.HasChanges()) db.Entry(house).Property(h => h.FootingsM).IsModified = true;
        db.Expect(house, Version);
        if (Holes is not null)
        {
            if (db.ChangeTracker.Entries<SuctionHole>().Any(Moved) || db.ChangeTracker.Entries<TestHole>().Any(Moved)) db.Entry(Holes).Property(t => t.Notes).IsModified = true;
            db.Expect(Holes, TestVersion);
        }

        return db.TrySaveAsync(ModelState, nameof(Input), Input, AfreshAsync, v => Version = v);
    }

    private static bool Moved(Microsoft.EntityFrameworkCore.ChangeTracking.EntityEntry entry) => entry.State is EntityState.Modified or EntityState.Added;

    private async Task<(PlanForm, int)> AfreshAsync()
    {
        var house = (await FindAsync())!;
        TestVersion = Holes?.Version ?? 0;
        ModelState.Remove(nameof(TestVersion));
        return (PlanForm.Of(house, Holes, units.System), house.Version);
    }

    private async Task<House?> FindAsync()
    {
        var house = await db.Houses.Include(h => h.Areas).AsSingleQuery().FirstOrDefaultAsync(h => h.Id == HouseId);
        Holes = await db.PressureFieldTests.Include(t => t.SuctionHoles).Include(t => t.TestHoles).AsSplitQuery()
            .Where(t => t.HouseId == HouseId && (Test == null || t.Id == Test)).OrderByDescending(t => t.Day).ThenByDescending(t => t.Id).FirstOrDefaultAsync();
        return Test is not null && Holes is null ? null : house;
    }

    private async Task<IActionResult> ShowAsync(House house, int empty)
    {
        Input.OfferAreas(empty);
        if (Holes is not null) Input.OfferHoles(more: false);
        Backdrop = await db.Backdrops.AsNoTracking().FirstOrDefaultAsync(b => b.HouseId == HouseId);
        var head = (await HouseHead.LoadAsync(db, HouseId, shown: 2))!;
        (ViewData["House"], ViewData["Title"]) = (head, $"Floor plan, {head.Address}");
        // What cannot be read is refused elsewhere; the drawing shows the rest.
        var drawn = new ReadPlan(Input, new FormReading(new ModelStateDictionary(), nameof(Input), units.System), house, Holes, units.System);
        (View, HoleNames) = (drawn.View($"Floor plan of {head.Address}") with { Picture = PlanPicture.Of(Backdrop) }, drawn.HoleNames);
        return Page();
    }
}
