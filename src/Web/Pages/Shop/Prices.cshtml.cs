using System.Text;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Staff;

namespace MitigationOffice.Web.Pages.Shop;

public sealed class PricesModel(OfficeDb db) : PageModel
{
    public sealed record Row(int Id, string Code, string Name, PriceKind Kind, PriceUse Use, string Unit, int LabourMinutes, bool Taxable, Money Price, Money Cost)
    {
        public TakenBy TakenBy { get; init; }
        public int FromTier { get; init; }
        public OfferReason OfferedFor { get; init; }
        public string Fits { get; init; } = "";
    }

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Use { get; set; }

    public bool ShowsCost => User.IsInRole(nameof(StaffRole.Owner));
    public IReadOnlyList<Row> Rows { get; private set; } = [];

    public async Task OnGetAsync()
    {
        var rates = await db.Company.Select(c => new { c.LabourPricePerHour, c.LabourCostPerHour }).SingleAsync();
        var items = db.PriceItems.AsNoTracking().Where(p => p.Retired == (Use == "retired"));
        if (Enum.TryParse<PriceUse>(Use, out var use)) items = items.Where(p => p.Use == use);
        var words = SearchText.Of(Find).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Rows = [.. (await items.OrderBy(p => p.Code).ToListAsync())
            .Where(p => words.All(w => SearchText.Of(p.Code, p.Name, p.Reason).Contains(w, StringComparison.Ordinal)))
            .Select(p => new Row(p.Id, p.Code, p.Name, p.Kind, p.Use, p.Unit, p.LabourMinutes, p.Taxable, p.PriceAt(rates.LabourPricePerHour), p.CostAt(rates.LabourCostPerHour))
            {
                TakenBy = p.TakenBy, FromTier = p.FromTier, OfferedFor = p.OfferedFor, Fits = string.Join(", ", new[] { p.PipeSize.Length == 0 ? "" : PipeChoices.WordsOf(p.PipeSize), p.FanModel }.Where(s => s.Length > 0)),
            })];
    }

    public async Task<IActionResult> OnGetFileAsync() => ShowsCost
        ? File(Encoding.UTF8.GetBytes(PriceBookFile.Write(await db.PriceItems.AsNoTracking().OrderBy(p => p.Code).ToListAsync())), "text/csv", "price-book.csv")
        : Forbid();
}
