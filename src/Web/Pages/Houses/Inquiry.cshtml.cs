using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Houses;

public sealed class InquiryModel(OfficeDb db, TimeProvider clock, UnitChoice units) : PageModel
{
    public sealed record OwnedFor(int CustomerId, string Name, string Phone, string Email, DateOnly From, DateOnly? To);

    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty]
    public HouseForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public IReadOnlyList<OwnedFor> Owners { get; private set; } = [];
    public IReadOnlyList<HouseCaution> Cautions { get; private set; } = [];
    public bool IsOffice => User.IsInRole("Owner") || User.IsInRole("Office");

    public async Task<IActionResult> OnGetAsync() => await FindAsync() is { } house ? await ShowAsync(house, typed: false) : NotFound();

    public async Task<IActionResult> OnPostAsync(string? step)
    {
        if (await FindAsync() is not { } house) return NotFound();
        if (step is not null)
        {
            ModelState.Clear();
            return await ShowAsync(house, typed: true, more: 3);
        }

        var zone = HouseTime.Zone(house.TimeZone, await db.Company.Select(c => c.TimeZone).SingleAsync());
        Input.Write(house, new FormReading(ModelState, nameof(Input), units.System), units.System, HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, zone));
        if (!ModelState.IsValid) return await ShowAsync(house, typed: true);
        db.Expect(house, Version);
        // A changed row counts as a change of the house, so that two people who change rows meet.
        db.ChangeTracker.DetectChanges();
        if (db.ChangeTracker.HasChanges()) db.Entry(house).Property(h => h.Search).IsModified = true;
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? RedirectToPage(new { houseId = HouseId }) : await ShowAsync(house, typed: true);
    }

    private Task<House?> FindAsync() =>
        db.Houses.Include(h => h.Areas).Include(h => h.Appliances).Include(h => h.EarlierTests).FirstOrDefaultAsync(h => h.Id == HouseId);

    private async Task<(HouseForm, int)> ReadAsync()
    {
        var house = (await FindAsync())!;
        return (HouseForm.Of(house, units.System), house.Version);
    }

    private async Task<IActionResult> ShowAsync(House house, bool typed, int more = 0)
    {
        var zone = HouseTime.Zone(house.TimeZone, await db.Company.Select(c => c.TimeZone).SingleAsync());
        if (!typed) (Input, Version) = (HouseForm.Of(house, units.System), house.Version);
        Input.OfferRows(1 + more, 1 + more, 1 + more);
        Cautions = [.. HouseCaution.Of(house)];
        Owners = await db.HouseOwners.AsNoTracking().Where(o => o.HouseId == HouseId).OrderByDescending(o => o.FromDay).ThenByDescending(o => o.Id)
            .Select(o => new OwnedFor(o.CustomerId, o.Customer!.Name, o.Customer.Phone, o.Customer.Email, o.FromDay, o.ToDay)).ToListAsync();
        ViewData["House"] = (await HouseHead.LoadAsync(db, HouseId, shown: 1))! with { Date = HouseTime.Show(HouseTime.DayOf(house.AskedAtUtc, zone)) };
        return Page();
    }
}
