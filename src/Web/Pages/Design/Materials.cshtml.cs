using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Pages.Shared;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>What a design takes, counted, without prices.</summary>
public sealed class MaterialsModel(OfficeDb db) : PageModel
{
    public int HouseId { get; private set; }
    public string Revision { get; private set; } = "";
    public IReadOnlyList<MaterialRow> Rows { get; private set; } = [];
    public IReadOnlyList<string> ForEveryJob { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int houseId, string? revision)
    {
        if (await HouseHead.LoadAsync(db, houseId, shown: 3) is not { } head || !await LoadAsync(houseId, revision)) return NotFound();
        ViewData["House"] = head with { Revision = Revision };
        return Page();
    }

    public async Task<IActionResult> OnGetCsvAsync(int houseId, string? revision)
    {
        if (!await LoadAsync(houseId, revision)) return NotFound();
        var rows = Rows.Select(r => (IReadOnlyList<string>)[r.What, TypedNumbers.Plain(r.Quantity), r.Unit, r.Note]).Concat(ForEveryJob.Select(name => (IReadOnlyList<string>)[name, "1", "each", "for every job"]));
        return File(Csv.WriteForPeople(["What", "Quantity", "Unit", "How it was counted"], rows), "text/csv; charset=utf-8", $"materials-{houseId}-{Revision}.csv");
    }

    private async Task<bool> LoadAsync(int houseId, string? revision)
    {
        HouseId = houseId;
        var designs = db.Designs.Where(d => d.HouseId == houseId && (revision == null || d.Revision == revision));
        if (await db.FirstToReadAsync(designs.OrderByDescending(d => d.Id)) is not { } design) return false;
        var computed = await ComputeDesign.ReadAsync(db, design);
        var report = computed.Report;
        var fan = computed.Inputs is { } inputs
            ? inputs.Catalogue.FirstOrDefault(f => f.Id == design.FanId || (design.FanId == null && f.Model == report?.ShownFan))
            : await db.Fans.AsNoTracking().OrderBy(f => f.Id).FirstOrDefaultAsync(f => f.Id == design.FanId);
        (Revision, Rows) = (design.Revision, MaterialList.Of(TakeOff.Of(design), fan, report?.Freeze));
        ForEveryJob = await db.PriceItems.Where(i => !i.Retired && i.Use == PriceUse.Part && i.Kind == PriceKind.Material && i.TakenBy == TakenBy.Job && i.FromTier == 1).OrderBy(i => i.Name).Select(i => i.Name).ToListAsync();
        return true;
    }
}
