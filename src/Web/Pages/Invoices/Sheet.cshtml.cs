using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>The money of a house: what was charged, what was paid, what is owed.</summary>
public sealed class SheetModel(OfficeDb db, TimeProvider clock, UnitChoice units, MailSettings mail, Actor actor) : PageModel
{
    public sealed class MoneyForm
    {
        public int CustomerId { get; set; }
        public bool Refund { get; set; }
        public string? Day { get; set; }
        public string? Amount { get; set; }
        public PaidBy How { get; set; }
        public string? Reference { get; set; }
        public string? Note { get; set; }
    }

    public sealed class CancelForm
    {
        public string? GivenOn { get; set; }
        public string? ReceivedOn { get; set; }
        public string? Note { get; set; }
    }

    /// <summary>How long after its last day a notice may still come by mail and be written down here: common practice, no source.</summary>
    public const int DaysForANoticeToCome = 30;

    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty]
    public MoneyForm Input { get; set; } = new();

    [BindProperty]
    public CancelForm Cancelling { get; set; } = new();

    public IReadOnlyList<HouseAccount> Accounts { get; private set; } = [];
    public IReadOnlyList<Sale> Sales { get; private set; } = [];
    public DateOnly Today { get; private set; }
    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        Input.Day = TypedNumbers.Plain(Today);
        Input.CustomerId = Accounts.Select(a => a.CustomerId).FirstOrDefault();
        return Page();
    }

    public async Task<IActionResult> OnPostIssueAsync(int acceptanceId, InvoiceKind kind, bool letter)
    {
        if (!await LoadAsync() || Sales.All(s => s.AcceptanceId != acceptanceId)) return NotFound();
        var issued = await IssueInvoice.ForQuoteAsync(db, acceptanceId, kind, null, await ByAsync(letter));
        return issued.InvoiceId == 0 ? await RefuseAsync("", issued.Refusals) : RedirectToPage("Invoice", new { houseId = HouseId, invoiceId = issued.InvoiceId });
    }

    public async Task<IActionResult> OnPostPayAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var (day, amount) = (read.Day(Input.Day, nameof(Input.Day), "day", needed: true), read.Money(Input.Amount, nameof(Input.Amount), "amount", needed: true));
        var (reference, note) = (read.Text(Input.Reference, nameof(Input.Reference), "reference", most: 100), read.Text(Input.Note, nameof(Input.Note), "note", most: 500));
        if (!ModelState.IsValid) return Page();
        var (_, refusals) = await TakePayment.RunAsync(db, new(HouseId, Input.CustomerId, Input.Refund, day!.Value, amount!.Value, Input.How, reference, note), Now, actor.Name);
        return refusals.Count > 0 ? await RefuseAsync(nameof(Input), refusals) : Back();
    }

    public async Task<IActionResult> OnPostUndoAsync(int paymentId)
    {
        if (!await LoadAsync() || Accounts.All(a => a.Lines.All(l => l.PaymentId != paymentId))) return NotFound();
        var (_, refusals) = await TakePayment.UndoAsync(db, paymentId, "", Now, actor.Name);
        return refusals.Count > 0 ? await RefuseAsync("", refusals) : Back();
    }

    public async Task<IActionResult> OnPostCancelAsync(int acceptanceId)
    {
        if (!await LoadAsync() || Sales.All(s => s.AcceptanceId != acceptanceId)) return NotFound();
        var read = new FormReading(ModelState, nameof(Cancelling), units.System);
        var (given, received) = (read.Day(Cancelling.GivenOn, nameof(Cancelling.GivenOn), "day the notice was given", needed: true), read.Day(Cancelling.ReceivedOn, nameof(Cancelling.ReceivedOn), "day it came", needed: true));
        var note = read.Text(Cancelling.Note, nameof(Cancelling.Note), "note", most: 500);
        if (!ModelState.IsValid) return Page();
        var done = await CancelSale.RunAsync(db, acceptanceId, given!.Value, received!.Value, note, await ByAsync(letter: true));
        return done.Refusals.Count > 0 ? await RefuseAsync(nameof(Cancelling), done.Refusals) : Back();
    }

    private RedirectToPageResult Back() => RedirectToPage(null, null, new { houseId = HouseId }, "account");

    private async Task<Issuer> ByAsync(bool letter) => new(actor.Name, Now, letter ? await Sender.OfAsync(db, mail) : null);

    private async Task<IActionResult> RefuseAsync(string prefix, IReadOnlyList<Refusal> refusals)
    {
        foreach (var r in refusals) ModelState.AddModelError(prefix.Length > 0 && r.Field.Length > 0 ? $"{prefix}.{r.Field}" : "", r.Words);
        await LoadAsync();
        return Page();
    }

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 0) is not { } head) return false;
        Today = await IssueInvoice.TodayAsync(db, HouseId, Now);
        ViewData["House"] = head with { Beside = "Money", Date = HouseTime.Show(Today) };
        Accounts = await ReadAccounts.OfHouseAsync(db, HouseId, Today);
        Sales = await ReadSales.OfHouseAsync(db, HouseId);
        return true;
    }
}
