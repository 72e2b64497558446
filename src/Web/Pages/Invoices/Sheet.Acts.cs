using Microsoft.AspNetCore.Mvc;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>What the office does on the money of a house.</summary>
public sealed partial class SheetModel
{
    public async Task<IActionResult> OnPostIssueAsync(int acceptanceId, InvoiceKind kind, bool letter, bool evenSo)
    {
        if (!await LoadAsync() || Sales.All(s => s.AcceptanceId != acceptanceId)) return NotFound();
        if (kind == InvoiceKind.Balance && !evenSo && Sales.Single(s => s.AcceptanceId == acceptanceId) is { BalanceId: 0, NotSigned: [var first, ..] })
            return await RefuseAsync("", [new("", $"Change order {first.Number} was drawn up meanwhile and is not signed. Nothing was issued; what stands under the signed quote says what that means.")]);
        var (due, problem) = TypedNumbers.ReadDay(DueOn, "day it is due");
        if (problem is not null) return await RefuseAsync("", [new(nameof(DueOn), problem)]);
        var issued = await IssueInvoice.ForQuoteAsync(db, acceptanceId, kind, due, await ByAsync(letter));
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
}
