using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>All quotes, each by its latest revision.</summary>
public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "find")]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true, Name = "state")]
    public string? State { get; set; }

    [BindProperty(SupportsGet = true, Name = "sort")]
    public string? Sort { get; set; }

    [BindProperty(SupportsGet = true, Name = "page-number")]
    public int PageNumber { get; set; } = 1;

    public IReadOnlyList<QuoteRow> Rows { get; private set; } = [];
    public bool More { get; private set; }

    public async Task OnGetAsync()
    {
        PageNumber = Math.Clamp(PageNumber, 1, 1000);
        var found = await ListQuotes.RunAsync(db, Asked(), clock.GetUtcNow().UtcDateTime, skip: (PageNumber - 1) * ListQuotes.OnAPage, take: ListQuotes.OnAPage + 1);
        More = found.Count > ListQuotes.OnAPage;
        Rows = [.. found.Take(ListQuotes.OnAPage)];
    }

    public async Task<IActionResult> OnGetCsvAsync()
    {
        var rows = await ListQuotes.RunAsync(db, Asked(), clock.GetUtcNow().UtcDateTime, skip: 0, take: 100_000);
        return File(QuotesCsv.Of(rows), "text/csv; charset=utf-8", "quotes.csv");
    }

    /// <summary>The address of this list sorted otherwise, or as a file.</summary>
    public string With(string? sort = null, string? handler = null, int page = 1) =>
        "/quotes" + QueryString.Create(new Dictionary<string, string?>
        {
            ["find"] = Find,
            ["state"] = State,
            ["sort"] = sort ?? Sort,
            ["handler"] = handler,
            ["page-number"] = page > 1 ? $"{page}" : null,
        }.Where(p => !string.IsNullOrEmpty(p.Value)));

    public string Toward(string column) => Sort == column ? column + "-down" : column;

    private AskedQuotes Asked() => new(SearchText.Of(Find), State ?? "", Sort ?? "");
}
