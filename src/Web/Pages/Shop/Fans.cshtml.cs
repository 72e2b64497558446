using System.Text;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Pages.Shop;

public sealed class FansModel(OfficeDb db) : PageModel
{
    public sealed record Row(int Id, string Model, string Maker, string Connection, Money Price, double? MostPa, double? MostM3PerS, double? LeastWatts, double? MostWatts);

    [BindProperty(SupportsGet = true)]
    public bool Retired { get; set; }
    public IReadOnlyList<Row> Rows { get; private set; } = [];

    public async Task OnGetAsync() => Rows = await db.Fans.AsNoTracking().Where(f => f.Retired == Retired).OrderBy(f => f.Model)
        .Select(f => new Row(
            f.Id, f.Model, f.Maker, f.Connection, f.Price, f.Points.Max(p => (double?)p.StaticPressurePa), f.Points.Max(p => (double?)p.FlowM3PerS),
            f.Points.Min(p => (double?)p.Watts), f.Points.Max(p => (double?)p.Watts)))
        .ToListAsync();

    public async Task<IActionResult> OnGetFileAsync() =>
        File(Encoding.UTF8.GetBytes(FanFile.Write(await db.Fans.AsNoTracking().Include(f => f.Points).OrderBy(f => f.Model).ToListAsync())), "text/csv", "fans.csv");
}
