using System.Globalization;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Customers;

[Authorize(SignInSetup.OfficeWork)]
public sealed class IndexModel(OfficeDb db) : PageModel
{
    private const int PageSize = 50;

    public sealed record Row(int Id, CustomerKind Kind, string Name, string ContactName, string Phone, string Email, int HousesNow, int HousesBefore);

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Kind { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Sort { get; set; }

    [BindProperty(SupportsGet = true, Name = "part")]
    public string? AskedPart { get; set; }

    public int Count { get; private set; }
    public int PageNumber { get; private set; } = 1;
    public int Pages => Math.Max(1, (Count + PageSize - 1) / PageSize);
    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public bool IsFiltered => !string.IsNullOrWhiteSpace(Find) || Wanted is not null;
    private CustomerKind? Wanted => Enum.TryParse<CustomerKind>(Kind, out var kind) && Enum.IsDefined(kind) ? kind : null;

    public async Task OnGetAsync()
    {
        Count = await Asked().CountAsync();
        PageNumber = int.TryParse(AskedPart, NumberStyles.None, CultureInfo.InvariantCulture, out var page) ? Math.Clamp(page, 1, Pages) : 1;
        Rows = await Projected(Ordered().Skip((PageNumber - 1) * PageSize).Take(PageSize)).ToListAsync();
    }

    public async Task<IActionResult> OnGetFileAsync()
    {
        var rows = await Projected(Ordered()).ToListAsync();
        return File(Csv.WriteForPeople(
            ["Name", "Kind", "Whom to ask for", "Phone", "E-mail", "Houses now", "Houses before"],
            rows.Select(r => (IReadOnlyList<string>)[r.Name, Setup.Forms.Words.Of(r.Kind), r.ContactName, r.Phone, r.Email, $"{r.HousesNow}", $"{r.HousesBefore}"])), "text/csv; charset=utf-8", "customers.csv");
    }

    public string Link(int page, string? handler = null) => Url.Page(
        "/Customers/Index", handler, new { find = Find, kind = Kind, sort = Sort, part = page > 1 ? page : (int?)null }) ?? "/customers";

    private IQueryable<Customer> Asked()
    {
        var customers = db.Customers.AsNoTracking().Matching(Find);
        return Wanted is { } kind ? customers.Where(c => c.Kind == kind) : customers;
    }

    /// <summary>By name as it is searched for, so that capitals and accents do not split the alphabet.</summary>
    private IQueryable<Customer> Ordered() => Sort == "newest" ? Asked().OrderByDescending(c => c.Id) : Asked().OrderBy(c => c.Search).ThenBy(c => c.Id);

    private IQueryable<Row> Projected(IQueryable<Customer> customers) => customers.Select(c => new Row(
        c.Id, c.Kind, c.Name, c.ContactName, c.Phone, c.Email,
        db.HouseOwners.Count(o => o.CustomerId == c.Id && o.ToDay == null), db.HouseOwners.Count(o => o.CustomerId == c.Id && o.ToDay != null)));
}
