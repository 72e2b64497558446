using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>An invoice written by hand: added up as often as wanted, then issued.</summary>
[RequestFormLimits(ValueCountLimit = 20_000)]
public sealed class NewModel(OfficeDb db, TimeProvider clock, UnitChoice units, MailSettings mail, Actor actor) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty]
    public FreeForm Input { get; set; } = new();

    public IReadOnlyList<(string Value, string Words)> Owners { get; private set; } = [];
    public InvoiceSums? Sums { get; private set; }

    /// <summary>A line's kind was taxed by a rate that has ended.</summary>
    public bool RateMissing => ModelState.Values.Any(v => v.Errors.Any(e => e.ErrorMessage.Contains(TaxesOfDay.RateEnded, StringComparison.Ordinal)));
    public DateOnly Today { get; private set; }
    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        Input.DueOn = TypedNumbers.Plain(Today.AddDays(await db.Company.Select(c => c.InvoiceDueDays).SingleAsync()));
        Input.CustomerId = Owners.Count > 0 ? int.Parse(Owners[0].Value, CultureInfo.InvariantCulture) : 0;
        Input.AddEmptyLines();
        return Page();
    }

    /// <summary>Shows what it comes to, with room for more lines; nothing is kept.</summary>
    public async Task<IActionResult> OnPostAddUpAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var typed = Input.Read(HouseId, new FormReading(ModelState, nameof(Input), units.System));
        if (ModelState.IsValid) await AddUpAsync(typed);
        if (!Input.Lines.Any(l => l.IsEmpty)) Input.AddEmptyLines();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var typed = Input.Read(HouseId, read);
        if (!ModelState.IsValid) return Page();
        var issued = await IssueInvoice.FreeAsync(db, typed, new(actor.Name, Now, Input.Letter ? await Sender.OfAsync(db, mail) : null));
        if (issued.InvoiceId > 0) return RedirectToPage("Invoice", new { houseId = HouseId, invoiceId = issued.InvoiceId });
        foreach (var r in issued.Refusals) read.Refuse(r.Field == "Lines" ? "" : r.Field, r.Words);
        return Page();
    }

    private async Task AddUpAsync(FreeInvoice typed)
    {
        var (sums, problems) = IssueInvoice.AddUp(typed, await db.TaxRates.AsNoTracking().ToListAsync(), Today);
        Sums = sums;
        foreach (var problem in problems) ModelState.AddModelError("", problem);
    }

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 0) is not { } head) return false;
        Today = await IssueInvoice.TodayAsync(db, HouseId, Now);
        ViewData["House"] = head with { Beside = "New invoice", Date = HouseTime.Show(Today) };
        Owners = (await db.HouseOwners.AsNoTracking().Where(o => o.HouseId == HouseId).OrderByDescending(o => o.ToDay == null).ThenByDescending(o => o.FromDay)
            .Select(o => new { o.CustomerId, o.Customer!.Name }).ToListAsync()).DistinctBy(o => o.CustomerId).Select(o => ($"{o.CustomerId}", o.Name)).ToList();
        return true;
    }
}
