using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes.Sales;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>What sells: by choice and addition, how fast, and why not.</summary>
public sealed class SalesModel(OfficeDb db, TimeProvider clock) : PageModel
{
    private static readonly string[] Columns = ["what", "name", "offered", "taken", "percent", "dollars"];

    [FromQuery(Name = "from")]
    public string? From { get; set; }

    [FromQuery(Name = "to")]
    public string? To { get; set; }

    public SalesFigures Figures { get; private set; } = null!;
    public DateOnly FirstDay { get; private set; }
    public DateOnly LastDay { get; private set; }

    public Task OnGetAsync() => LoadAsync();

    public async Task<IActionResult> OnGetCsvAsync()
    {
        await LoadAsync();
        var rows = Figures.Tiers.Select(r => Line("choice", r)).Concat(Figures.AddOns.Select(r => Line("addition", r)))
            .Concat(Figures.Reasons.Select(r => (IReadOnlyList<string>)["lost", LostWords.Of(r.Because), "", $"{r.Count}", "", ""]));
        return CsvAnswer.Of("what-sells.csv", Columns, rows);
    }

    private static IReadOnlyList<string> Line(string what, SoldRow r) => [what, r.Name, $"{r.Offered}", $"{r.Taken}", $"{r.Percent}", TypedNumbers.Plain(r.Dollars)];

    private async Task LoadAsync()
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var (from, fromProblem) = TypedNumbers.ReadDay(From, "first day");
        var (to, toProblem) = TypedNumbers.ReadDay(To, "last day");
        if (fromProblem is not null) ModelState.AddModelError("From", fromProblem);
        if (toProblem is not null) ModelState.AddModelError("To", toProblem);
        LastDay = to ?? DateOnly.FromDateTime(now);
        FirstDay = from ?? LastDay.AddYears(-1);
        if (FirstDay > LastDay)
        {
            ModelState.AddModelError("To", "The last day comes before the first.");
            FirstDay = LastDay.AddYears(-1);
        }

        Figures = await ReadSalesFigures.OfAsync(db, FirstDay, LastDay, now);
    }
}
