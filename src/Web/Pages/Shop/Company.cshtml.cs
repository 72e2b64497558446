using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Shop;

public sealed class CompanyModel(OfficeDb db, UnitChoice units) : PageModel
{
    [BindProperty]
    public CompanyForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public async Task OnGetAsync() => (Input, Version) = await ReadAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        var company = await db.Company.SingleAsync();
        Input.Write(company, new FormReading(ModelState, nameof(Input), units.System));
        if (!ModelState.IsValid) return Page();
        db.Expect(company, Version);
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? RedirectToPage() : Page();
    }

    private async Task<(CompanyForm, int)> ReadAsync()
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        return (CompanyForm.Of(company, units.System), company.Version);
    }
}
