using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Design;

public sealed class IndexModel(OfficeDb db, UnitChoice units, TimeProvider clock) : PageModel
{
    public int HouseId { get; private set; }
    public bool HasReadings { get; private set; }
    public IReadOnlyList<string> Revisions { get; private set; } = [];
    public SuctionDesign? Design { get; private set; }
    public DesignResult Result { get; private set; } = new(null, null, false, false);
    public HouseFacts? Facts { get; private set; }
    public IReadOnlyList<OwnCorrection> Corrections { get; private set; } = [];
    public string? ChosenFan { get; private set; }
    public IReadOnlyList<(string Value, string Words)> Fans { get; private set; } = [];
    public bool SeesMoney => User.IsInRole("Owner") || User.IsInRole("Office");

    /// <summary>The fan of least power among those that hold.</summary>
    public string? SmallestThatHolds => Result.Report?.Fans.Where(f => f.Holds && f.OnCurve).MinBy(f => f.Watts)?.Model;

    /// <summary>Six flows across the chart, for those who read it as numbers.</summary>
    public IEnumerable<double> ChartFlows() => Result.Report is { SystemCurve: [.., var last] } ? Enumerable.Range(0, 6).Select(i => last.FlowM3PerS * i / 5) : [];

    public OwnCorrection? CorrectionOf(ForeseenNumber of) => Corrections.FirstOrDefault(c => c.Of == of);

    public async Task<IActionResult> OnGetAsync(int houseId, string? revision)
    {
        if (await HouseHead.LoadAsync(db, houseId, shown: 3) is not { } head) return NotFound();
        ViewData["House"] = head;
        HouseId = houseId;
        Revisions = [.. (await db.Designs.Where(d => d.HouseId == houseId).Select(d => d.Revision).ToListAsync()).OrderBy(r => r.Length).ThenBy(r => r, StringComparer.Ordinal)];
        if (Revisions.Count == 0)
        {
            HasReadings = await db.PressureFieldTests.AnyAsync(t => t.HouseId == houseId);
            return Page();
        }

        var wanted = revision ?? Revisions[^1];
        Design = await db.Designs.AsNoTracking().Include(d => d.Pieces).AsSingleQuery().FirstOrDefaultAsync(d => d.HouseId == houseId && d.Revision == wanted);
        if (Design is null) return NotFound();
        ViewData["House"] = head with { Revision = Design.Revision, Date = Design.ComputedAtUtc is { } at ? HouseTime.Show(DateOnly.FromDateTime(at)) : "–" };
        await ShowAsync(Design, head.Address);
        return Page();
    }

    /// <summary>Takes a fan of the catalogue, or the recommended one.</summary>
    public async Task<IActionResult> OnPostFanAsync(int houseId, int designId, int version, int? fan)
    {
        if (await FindAsync(houseId, designId) is not { } design) return NotFound();
        if (design.FrozenAtUtc is not null) return Back(design);
        if (fan is not null && !await db.Fans.AnyAsync(f => f.Id == fan)) return NotFound();
        design.FanId = fan;
        db.Expect(design, version);
        try
        {
            await db.SaveChangesAsync();
        }
        catch (DbUpdateConcurrencyException)
        {
            db.ChangeTracker.Clear();
            TempData["Told"] = "Someone else changed this design since you opened it, so your choice of fan was not saved. Look at it again and choose.";
            return Back(design);
        }

        await ComputeDesign.StoreAsync(db, design, clock);
        return Back(design);
    }

    public async Task<IActionResult> OnPostComputeAsync(int houseId, int designId)
    {
        if (await FindAsync(houseId, designId) is not { } design) return NotFound();
        await ComputeDesign.StoreAsync(db, design, clock);
        return Back(design);
    }

    public async Task<IActionResult> OnPostCopyAsync(int houseId, int designId)
    {
        if (await FindAsync(houseId, designId) is not { } design) return NotFound();
        var copy = await db.WriteAsync(async () =>
        {
            var next = await CopyDesign.AsNextRevisionAsync(db, design);
            await db.SaveChangesAsync();
            return next;
        });
        await ComputeDesign.StoreAsync(db, copy, clock);
        return Back(copy);
    }

    private async Task ShowAsync(SuctionDesign design, string address)
    {
        Result = await ComputeDesign.ReadAsync(db, design);
        var house = Result.Inputs?.House ?? await db.Houses.AsNoTracking().Include(h => h.Areas).AsSingleQuery().SingleAsync(h => h.Id == design.HouseId);
        Facts = SectionOfDesign.Of(design, Result.Report, house, address, units.System);
        var fans = Result.Inputs?.Fans ?? [.. (await db.Fans.AsNoTracking().Where(f => !f.Retired || f.Id == design.FanId).OrderBy(f => f.Model).Select(f => new { f.Id, f.Model }).ToListAsync()).Select(f => (f.Id, f.Model))];
        Corrections = await CorrectForeseen.OnAsync(db);
        ChosenFan = fans.FirstOrDefault(f => f.Id == design.FanId).Model;
        Fans = [("", "the recommended one"), .. fans.Select(f => (f.Id.ToString(CultureInfo.InvariantCulture), f.Model))];
    }

    private Task<SuctionDesign?> FindAsync(int houseId, int designId) =>
        db.Designs.AsTracking().Include(d => d.Pieces).FirstOrDefaultAsync(d => d.Id == designId && d.HouseId == houseId);

    private LocalRedirectResult Back(SuctionDesign design) =>
        LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/houses/{design.HouseId}/design?revision={design.Revision}"));
}
