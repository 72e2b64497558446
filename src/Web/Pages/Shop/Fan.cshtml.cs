using System.Globalization;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Shop;

[Authorize(SignInSetup.OwnerOnly)]
public sealed class FanModel(OfficeDb db, UnitChoice units) : PageModel
{
    [BindProperty]
    public FanForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [FromRoute(Name = "id")]
    public string Wanted { get; set; } = "";
    public bool IsNew => Wanted == "new";
    private int FanId => int.TryParse(Wanted, CultureInfo.InvariantCulture, out var id) ? id : 0;

    public async Task<IActionResult> OnGetAsync()
    {
        if (!IsNew && !await db.Fans.AnyAsync(f => f.Id == FanId)) return NotFound();
        if (!IsNew) (Input, Version) = await ReadAsync();
        Input.OfferRows(3);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string? more)
    {
        Input.OfferRows(more is null ? 0 : 5);
        if (more is not null)
        {
            ModelState.Clear();
            return Page();
        }

        var fan = IsNew ? new Fan { Model = "" } : await db.Fans.Include(f => f.Points).SingleOrDefaultAsync(f => f.Id == FanId);
        if (fan is null) return NotFound();
        var model = (Input.Model ?? "").Trim();
        if (await db.Fans.AnyAsync(f => f.Id != fan.Id && f.Model == model)) ModelState.AddModelError("Input.Model", $"The catalogue has a fan {model} already.");
        Input.Write(fan, new FormReading(ModelState, nameof(Input), units.System));
        if (!ModelState.IsValid) return Page();
        if (IsNew) db.Add(fan);
        else db.Expect(fan, Version);
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? RedirectToPage("/Shop/Fans") : Page();
    }

    private async Task<(FanForm, int)> ReadAsync()
    {
        var fan = await db.Fans.AsNoTracking().Include(f => f.Points).SingleAsync(f => f.Id == FanId);
        return (FanForm.Of(fan, units.System), fan.Version);
    }
}
