using System.Globalization;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Customers;

[Authorize(SignInSetup.OfficeWork)]
public sealed class CustomerModel(OfficeDb db, UnitChoice units) : PageModel
{
    public sealed record HouseRow(int Id, string Address, DateOnly From, DateOnly? To);

    [BindProperty]
    public CustomerForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty]
    public bool NewEvenSo { get; set; }

    [FromRoute(Name = "id")]
    public string Wanted { get; set; } = "";
    public bool IsNew => Wanted == "new";
    public int CustomerId => int.TryParse(Wanted, NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : 0;
    public string SavedName { get; private set; } = "";
    public IReadOnlyList<HouseRow> Houses { get; private set; } = [];
    public IReadOnlyList<AlikeCustomer> Alike { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync()
    {
        if (IsNew) return Page();
        if (await db.Customers.AsNoTracking().FirstOrDefaultAsync(c => c.Id == CustomerId) is not { } customer) return NotFound();
        (Input, Version) = (CustomerForm.Of(customer), customer.Version);
        return await ShowAsync();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var customer = IsNew ? new Customer { Name = "" } : await db.Customers.FindAsync(CustomerId);
        if (customer is null) return NotFound();
        Input.Write(customer, new FormReading(ModelState, nameof(Input), units.System));
        if (ModelState.IsValid && IsNew && !NewEvenSo) await RefuseDoublesAsync(customer);
        if (!ModelState.IsValid) return await ShowAsync();
        if (IsNew) db.Add(customer);
        else db.Expect(customer, Version);
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? RedirectToPage(new { id = customer.Id }) : await ShowAsync();
    }

    private async Task RefuseDoublesAsync(Customer customer)
    {
        Alike = await FindCustomers.AlikeAsync(db, customer);
        if (Alike.Count > 0) ModelState.AddModelError(nameof(NewEvenSo), "A customer with the same e-mail address, phone number or name is on record. Open that one, or tick that it is somebody else.");
    }

    private async Task<(CustomerForm, int)> ReadAsync()
    {
        var customer = await db.Customers.AsNoTracking().SingleAsync(c => c.Id == CustomerId);
        return (CustomerForm.Of(customer), customer.Version);
    }

    private async Task<PageResult> ShowAsync()
    {
        if (IsNew) return Page();
        SavedName = await db.Customers.Where(c => c.Id == CustomerId).Select(c => c.Name).SingleAsync();
        Houses = [.. (await db.HouseOwners.AsNoTracking().Where(o => o.CustomerId == CustomerId).OrderBy(o => o.ToDay != null).ThenByDescending(o => o.FromDay).Take(200)
                .Select(o => new { o.HouseId, o.House!.Street, o.House.Street2, o.House.City, o.House.State, o.House.Zip, o.FromDay, o.ToDay }).ToListAsync())
            .Select(o => new HouseRow(o.HouseId, $"{o.Street}{(o.Street2.Length == 0 ? "" : ", " + o.Street2)}, {o.City}, {o.State} {o.Zip}", o.FromDay, o.ToDay))];
        return Page();
    }
}
