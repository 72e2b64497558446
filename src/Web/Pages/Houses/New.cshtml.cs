using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Pages.Customers;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Houses;

[Authorize(SignInSetup.OfficeWork)]
public sealed class NewModel(OfficeDb db, TimeProvider clock, UnitChoice units) : PageModel
{
    [BindProperty]
    public OwnerForm Owner { get; set; } = new();

    [BindProperty]
    public HouseForm Input { get; set; } = new();

    [BindProperty]
    public bool NewHouseEvenSo { get; set; }

    public IReadOnlyList<AlikeHouse> AlikeHouses { get; private set; } = [];

    public async Task OnGetAsync([FromQuery(Name = "customer")] int customerId = 0)
    {
        Owner.CustomerId = customerId;
        Input.State = await db.Company.Select(c => c.State).SingleAsync();
        await ShowAsync();
    }

    public async Task<IActionResult> OnPostAsync(string? step, int use)
    {
        if (step is not null || use > 0) return await AskAgainAsync(step, use);
        var house = new House { Street = "", City = "", State = "", Zip = "", AskedAtUtc = clock.GetUtcNow().UtcDateTime };
        var zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var today = HouseTime.DayOf(house.AskedAtUtc, zone);
        var customer = await Owner.ReadAsync(db, new FormReading(ModelState, nameof(Owner), units.System));
        Input.Write(house, new FormReading(ModelState, nameof(Input), units.System), units.System, today);
        if (!ModelState.IsValid || customer is null) return await ShowAsync();
        var taken = await TakeInquiry.RunAsync(db, house, customer, today, new EvenSo(Owner.NewEvenSo, NewHouseEvenSo));
        return taken.House is { } made ? RedirectToPage("/Houses/Inquiry", new { houseId = made.Id }) : await ShowDoublesAsync(taken);
    }

    private async Task<IActionResult> AskAgainAsync(string? step, int use)
    {
        ModelState.Clear();
        if (use > 0) Owner.CustomerId = use;
        return await ShowAsync(more: step == "more" ? 3 : 0);
    }

    private async Task<IActionResult> ShowDoublesAsync(Taken taken)
    {
        (Owner.Alike, AlikeHouses) = (taken.AlikeCustomers, taken.AlikeHouses);
        if (Owner.Alike.Count > 0) ModelState.AddModelError("Owner.NewEvenSo", "A customer with the same e-mail address, phone number or name is on record. Choose that one, or tick that it is somebody else.");
        if (AlikeHouses.Count > 0) ModelState.AddModelError(nameof(NewHouseEvenSo), "A house at this address is on record. Open that one, or tick that this is another.");
        return await ShowAsync();
    }

    private async Task<PageResult> ShowAsync(int more = 0)
    {
        await Owner.LookAsync(db);
        Input.OfferRows(1 + more, 2 + more, 1 + more);
        return Page();
    }
}
