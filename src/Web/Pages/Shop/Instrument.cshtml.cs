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

[Authorize(SignInSetup.OfficeWork)]
public sealed class InstrumentModel(OfficeDb db, TimeProvider clock) : PageModel
{
    [BindProperty]
    public InstrumentForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [FromRoute(Name = "id")]
    public string Wanted { get; set; } = "";
    public bool IsNew => Wanted == "new";
    public bool HasHabit { get; private set; }
    private int InstrumentId => int.TryParse(Wanted, CultureInfo.InvariantCulture, out var id) ? id : 0;

    public async Task<IActionResult> OnGetAsync()
    {
        if (!IsNew && !await db.Instruments.AnyAsync(i => i.Id == InstrumentId)) return NotFound();
        if (!IsNew) (Input, Version) = await ReadAsync();
        Input.OfferRows();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var instrument = IsNew ? new Instrument { Serial = "" } : await db.Instruments.Include(i => i.Calibrations).SingleOrDefaultAsync(i => i.Id == InstrumentId);
        if (instrument is null) return NotFound();
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        Input.Write(instrument, new FormReading(ModelState, nameof(Input), UnitSystem.US), today);
        if (await db.Instruments.AsNoTracking().Where(i => i.Id != instrument.Id && i.Kind == instrument.Kind && i.SerialKey == instrument.SerialKey).Select(i => i.Serial).FirstOrDefaultAsync() is { } same)
            ModelState.AddModelError("Input.Serial", $"The register has one of this kind with the serial number {same} already.");
        Input.OfferRows();
        if (!ModelState.IsValid) return Page();
        if (IsNew) db.Add(instrument);
        else
        {
            db.Expect(instrument, Version);
            db.Entry(instrument).Property(i => i.Notes).IsModified = true;
        }

        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? RedirectToPage("/Shop/Instruments") : Page();
    }

    private async Task<(InstrumentForm, int)> ReadAsync()
    {
        var instrument = await db.Instruments.AsNoTracking().Include(i => i.Calibrations).SingleAsync(i => i.Id == InstrumentId);
        HasHabit = instrument.FileHabit.Length > 0;
        return (InstrumentForm.Of(instrument), instrument.Version);
    }
}
