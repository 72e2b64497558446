using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>The money of a house: what was charged, what was paid, what is owed.</summary>
public sealed partial class SheetModel(OfficeDb db, TimeProvider clock, UnitChoice units, MailSettings mail, Actor actor) : PageModel
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

    /// <summary>The due day typed for an invoice from a quote.</summary>
    [BindProperty]
    public string? DueOn { get; set; }

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

    public async Task<IActionResult> OnGetStatementAsync(int customer)
    {
        if (!await LoadAsync() || Accounts.FirstOrDefault(a => a.CustomerId == customer) is not { } account) return NotFound();
        var company = await db.Company.AsNoTracking().SingleAsync();
        var (house, who) = (((HouseHead)ViewData["House"]!).Address, await db.Customers.AsNoTracking().SingleAsync(c => c.Id == customer));
        return File(StatementPaper.Make(account, KeepPaper.To(who, house), house, company, Today, Now), "application/pdf", $"statement-{HouseId}-{Today:yyyy-MM-dd}.pdf");
    }

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 0) is not { } head) return false;
        Today = await IssueInvoice.TodayAsync(db, HouseId, Now);
        ViewData["House"] = head with { Beside = "Money", Date = HouseTime.Show(Today) };
        Accounts = await ReadAccounts.OfHouseAsync(db, HouseId, Today);
        Sales = await ReadSales.OfHouseAsync(db, HouseId, Today);
        return true;
    }
}
