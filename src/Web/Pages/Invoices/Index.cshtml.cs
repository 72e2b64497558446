using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>Who owes, since when; and the bookkeeper's files.</summary>
public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public const int MostRows = 200;

    [BindProperty(SupportsGet = true, Name = "find")]
    public string? Find { get; set; }

    /// <summary>"past-due", "credit" or empty for all that is not settled.</summary>
    [BindProperty(SupportsGet = true, Name = "show")]
    public string? Show { get; set; }

    [BindProperty(SupportsGet = true, Name = "sort")]
    public string? Sort { get; set; }

    [BindProperty(SupportsGet = true, Name = "from")]
    public string? From { get; set; }

    [BindProperty(SupportsGet = true, Name = "to")]
    public string? To { get; set; }

    public IReadOnlyList<OwedRow> Rows { get; private set; } = [];
    public Ageing Sum { get; private set; } = Ageing.None;
    public DateOnly Today { get; private set; }
    public string FirstDay { get; private set; } = "";
    public string LastDay { get; private set; } = "";

    public async Task OnGetAsync()
    {
        Rows = await ReadAsync();
        Sum = Rows.Aggregate(Ageing.None, (sum, r) => sum + r.Age);
        (FirstDay, LastDay) = (From ?? TypedNumbers.Plain(new DateOnly(Today.Year, Today.Month, 1).AddMonths(-1)), To ?? TypedNumbers.Plain(new DateOnly(Today.Year, Today.Month, 1).AddDays(-1)));
    }

    public async Task<IActionResult> OnGetOwedAsync() => CsvAnswer.Of(
        "money-owed.csv", ["Customer", "House", "Phone", "Owed since", "Not due yet, $", "1-30 days, $", "31-60 days, $", "61-90 days, $", "Over 90 days, $", "Credit, $", "Balance, $"],
        (await ReadAsync()).Select(r => new[]
        {
            r.Customer, r.House, r.Phone, TypedNumbers.Plain(r.Age.Since), TypedNumbers.Plain(r.Age.NotYet), TypedNumbers.Plain(r.Age.To30), TypedNumbers.Plain(r.Age.To60), TypedNumbers.Plain(r.Age.To90),
            TypedNumbers.Plain(r.Age.Over90), TypedNumbers.Plain(r.Age.Credit), TypedNumbers.Plain(r.Age.Balance),
        }));

    public async Task<IActionResult> OnGetInvoicesAsync()
    {
        if (Days() is not { } days) return await RefuseAsync();
        return File(await BookkeeperFiles.InvoicesAsync(db, days.From, days.To), "text/csv; charset=utf-8", $"invoices-{days.From:yyyy-MM-dd}-to-{days.To:yyyy-MM-dd}.csv");
    }

    public async Task<IActionResult> OnGetPaymentsAsync()
    {
        if (Days() is not { } days) return await RefuseAsync();
        return File(await BookkeeperFiles.PaymentsAsync(db, days.From, days.To), "text/csv; charset=utf-8", $"payments-{days.From:yyyy-MM-dd}-to-{days.To:yyyy-MM-dd}.csv");
    }

    private (DateOnly From, DateOnly To)? Days()
    {
        var (from, to) = (TypedNumbers.ReadDay(From, "first day"), TypedNumbers.ReadDay(To, "last day"));
        if (from.Problem is { } first) ModelState.AddModelError("from", first);
        if (to.Problem is { } last) ModelState.AddModelError("to", last);
        return ModelState.IsValid ? (from.Value ?? new DateOnly(2000, 1, 1), to.Value ?? new DateOnly(2199, 12, 31)) : null;
    }

    private async Task<IActionResult> RefuseAsync()
    {
        await OnGetAsync();
        return Page();
    }

    private async Task<List<OwedRow>> ReadAsync()
    {
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        var found = await ListOwed.UnsettledAsync(db, Find ?? "", Today);
        var kept = found.Where(r => Show switch { "past-due" => r.Age.PastDue > Money.Zero, "credit" => r.Age.Credit > Money.Zero, _ => true });
        var order = (Sort ?? "since").TrimStart('-');
        var sorted = order switch
        {
            "customer" => kept.OrderBy(r => r.Customer, StringComparer.OrdinalIgnoreCase),
            "house" => kept.OrderBy(r => r.House, StringComparer.OrdinalIgnoreCase),
            "balance" => kept.OrderBy(r => r.Age.Balance),
            "past" => kept.OrderBy(r => r.Age.PastDue),
            _ => kept.OrderBy(r => r.Age.Since ?? DateOnly.MaxValue),
        };
        var all = sorted.ThenBy(r => r.HouseId).ThenBy(r => r.CustomerId).ToList();
        if (Sort?.StartsWith('-') == true) all.Reverse();
        return all;
    }
}
