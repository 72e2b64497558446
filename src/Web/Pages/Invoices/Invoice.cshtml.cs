using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Pages.Shared;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>One invoice or credit note as it was issued.</summary>
public sealed class InvoiceModel(OfficeDb db, TimeProvider clock, MailSettings mail, Actor actor) : PageModel
{
    public sealed record CreditOf(int Id, string Number, IReadOnlyList<int?> Lines);

    [FromRoute]
    public int HouseId { get; set; }

    [FromRoute]
    public int InvoiceId { get; set; }

    [BindProperty]
    public List<int> LineIds { get; set; } = [];

    [BindProperty]
    public string? Because { get; set; }

    public Invoice Shown { get; private set; } = null!;
    public IReadOnlyList<CreditOf> Credits { get; private set; } = [];
    public string? TakesBack { get; private set; }
    public IReadOnlyList<(string Subject, DateTime AtUtc, DeliveryState State)> Letters { get; private set; } = [];
    public bool HasEmail { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool IsGone(InvoiceLine line) => Credits.Any(c => c.Lines.Contains(line.Id));

    public async Task<IActionResult> OnGetAsync() => await LoadAsync() ? Page() : NotFound();

    public async Task<IActionResult> OnPostCreditAsync(bool letter)
    {
        if (!await LoadAsync()) return NotFound();
        var because = (Because ?? "").Trim();
        if (because.Length == 0) ModelState.AddModelError(nameof(Because), "Write why it is taken back; it stands on the credit note.");
        if (because.Length > 500) ModelState.AddModelError(nameof(Because), "The reason is longer than 500 characters; shorten it.");
        if (LineIds.Count == 0) ModelState.AddModelError(nameof(LineIds), "Tick the lines that are taken back.");
        if (!LineIds.All(id => Shown.Lines.Any(l => l.Id == id))) return NotFound();
        if (!ModelState.IsValid) return Page();
        var issued = await CreditInvoice.RunAsync(db, InvoiceId, LineIds, because, new(actor.Name, clock.GetUtcNow().UtcDateTime, letter ? await Sender.OfAsync(db, mail) : null));
        if (issued.InvoiceId > 0) return RedirectToPage(new { houseId = HouseId, invoiceId = issued.InvoiceId });
        foreach (var r in issued.Refusals) ModelState.AddModelError(r.Field, r.Words);
        await LoadAsync();
        return Page();
    }

    public async Task<IActionResult> OnPostMailAsync()
    {
        if (!await LoadAsync()) return NotFound();
        if (await MailInvoice.AgainAsync(db, InvoiceId, await Sender.OfAsync(db, mail), clock.GetUtcNow().UtcDateTime)) return RedirectToPage(null, null, new { houseId = HouseId, invoiceId = InvoiceId }, "letters");
        ModelState.AddModelError("", "The customer has no e-mail address. Write it on the customer's page, or hand the paper over.");
        return Page();
    }

    private async Task<bool> LoadAsync()
    {
        if (await db.Invoices.AsNoTracking().Include(i => i.Lines).Include(i => i.Taxes).SingleOrDefaultAsync(i => i.Id == InvoiceId && i.HouseId == HouseId) is not { } found) return false;
        Shown = found;
        Credits = await db.Invoices.AsNoTracking().Where(i => i.CreditsInvoiceId == InvoiceId).OrderBy(i => i.Id).Select(i => new CreditOf(i.Id, i.Number, i.Lines.Select(l => l.CreditsLineId).ToList())).ToListAsync();
        TakesBack = found.CreditsInvoiceId is { } id ? await db.Invoices.Where(i => i.Id == id).Select(i => i.Number).SingleAsync() : null;
        var key = $"invoice:{found.Number}:";
        Letters = (await db.Outbox.AsNoTracking().Where(m => m.Key.StartsWith(key)).OrderBy(m => m.Id).Select(m => new { m.ToAddress, m.CreatedAtUtc, m.State }).ToListAsync()).ConvertAll(m => (m.ToAddress, m.CreatedAtUtc, m.State));
        var about = await db.Customers.Where(c => c.Id == found.CustomerId).Select(c => new { c.Email, House = db.Houses.Where(h => h.Id == HouseId).Select(h => h.TimeZone).First(), Company = db.Company.OrderBy(x => x.Id).Select(x => x.TimeZone).First() }).SingleAsync();
        (HasEmail, Zone) = (about.Email.Length > 0, HouseTime.Zone(about.House, about.Company));
        ViewData["House"] = (await HouseHead.LoadAsync(db, HouseId, shown: 0))! with { Beside = $"{(found.Kind == InvoiceKind.CreditNote ? "Credit note" : "Invoice")} {found.Number}", Date = HouseTime.Show(found.IssuedOn) };
        return true;
    }
}
