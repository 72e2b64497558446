using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Pages.Customers;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Houses;

[Authorize(SignInSetup.OfficeWork)]
public sealed class HandOverModel(OfficeDb db, TimeProvider clock, UnitChoice units) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty]
    public OwnerForm Owner { get; set; } = new();

    [BindProperty]
    public string? Day { get; set; }

    [BindProperty]
    public int OwnerId { get; set; }

    [BindProperty]
    public int Version { get; set; }

    /// <param name="told">What the owner told on their own page about the sale, to begin with.</param>
    public async Task<IActionResult> OnGetAsync(int? told)
    {
        var word = await db.OwnerWords.AsNoTracking().SingleOrDefaultAsync(w => w.Id == told && w.HouseId == HouseId && w.Kind == OwnerWordKind.Sold);
        if (word is not null) Owner.New = new CustomerForm { Name = word.Name, Email = word.Email, Phone = word.Phone };
        var today = await TodayAsync();
        Day = TypedNumbers.Plain(word?.OnDay is { } sold && sold <= today ? sold : today);
        var now = await db.HouseOwners.AsNoTracking().Where(o => o.HouseId == HouseId && o.ToDay == null).OrderByDescending(o => o.FromDay).ThenByDescending(o => o.Id).FirstOrDefaultAsync();
        (OwnerId, Version) = (now?.Id ?? 0, now?.Version ?? 0);
        return await ShowAsync();
    }

    public async Task<IActionResult> OnPostAsync(string? step, int use)
    {
        if (!await db.Houses.AnyAsync(h => h.Id == HouseId)) return NotFound();
        if (step is not null || use > 0)
        {
            ModelState.Clear();
            if (use > 0) Owner.CustomerId = use;
            return await ShowAsync();
        }

        var day = await ReadDayAsync();
        var customer = await Owner.ReadAsync(db, new FormReading(ModelState, nameof(Owner), units.System));
        if (!ModelState.IsValid || customer is null || !await MayBeNewAsync(customer)) return await ShowAsync();
        if (await HandOverHouse.RunAsync(db, HouseId, OwnerId, Version, customer, day) is { } refusal) ModelState.AddModelError("", refusal);
        return ModelState.IsValid ? RedirectToPage("/Houses/Inquiry", new { houseId = HouseId }) : await ShowAsync();
    }

    private async Task<DateOnly> ReadDayAsync()
    {
        var (day, problem) = TypedNumbers.ReadDay(Day, "day it changed hands");
        if (day is null) ModelState.AddModelError(nameof(Day), problem ?? "Write the day it changed hands.");
        if (day > await TodayAsync()) ModelState.AddModelError(nameof(Day), "Write it down when the day has come: until then the owner of now is the one to write to.");
        return day ?? default;
    }

    private async Task<bool> MayBeNewAsync(Customer customer)
    {
        if (customer.Id != 0 || Owner.NewEvenSo) return true;
        Owner.Alike = await FindCustomers.AlikeAsync(db, customer);
        if (Owner.Alike.Count == 0) return true;
        ModelState.AddModelError("Owner.NewEvenSo", "A customer with the same e-mail address, phone number or name is on record. Choose that one, or tick that it is somebody else.");
        return false;
    }

    private async Task<DateOnly> TodayAsync() =>
        HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));

    private async Task<IActionResult> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 1) is not { } head) return NotFound();
        ViewData["House"] = head;
        await Owner.LookAsync(db);
        return Page();
    }
}
