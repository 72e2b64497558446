using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Design;

[RequestFormLimits(ValueCountLimit = 4096)]
public sealed class RouteModel(OfficeDb db, UnitChoice units, TimeProvider clock) : PageModel
{
    [BindProperty]
    public RouteForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty(SupportsGet = true)]
    public int HouseId { get; set; }

    /// <summary>Null for a design that is begun here.</summary>
    [BindProperty(SupportsGet = true)]
    public int? DesignId { get; set; }

    public string Revision { get; private set; } = "";
    public IReadOnlyList<TestChoice> Measured { get; private set; } = [];
    public IReadOnlyList<(string Value, string Words)> Tests => [("", "–"), .. Measured.Select(t => (t.Value, t.Words))];
    public IReadOnlyList<(string Value, string Words)> Rules { get; private set; } = [];

    public RouteLook? Look { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        var design = DesignId is null ? null : await DesignAsync(tracked: false);
        if (!await ShowAsync(design?.Revision) || (design is null && DesignId is not null)) return NotFound();
        if (design is null) await StartAsync();
        else if (design.FrozenAtUtc is not null) return Frozen();
        else (Input, Version) = (RouteForm.Of(design, units.System), design.Version);
        if (DesignId is not null) await LookAsync();
        Input.WithRoom(Input.Pieces.Count + 2);
        return Page();
    }

    /// <summary>The drawing and first numbers of what is typed, for the script: a piece of the page, nothing stored.</summary>
    public async Task<IActionResult> OnPostLookAsync()
    {
        if (!await ShowAsync()) return NotFound();
        await LookAsync();
        return Partial("_RouteLook", Look!);
    }

    /// <summary>The same for who has no script: the whole page.</summary>
    public async Task<IActionResult> OnPostComputeAsync()
    {
        if (!await ShowAsync()) return NotFound();
        await LookAsync();
        ModelState.Clear();
        return Page();
    }

    private async Task LookAsync() => Look = await RouteLook.OfAsync(db, HouseId, Input, Measured, units.System);

    /// <summary>An empty row above a piece of the route or of a branch, or rows at its end; everything typed stays.</summary>
    public async Task<IActionResult> OnPostMoreAsync(int? at, int? point)
    {
        if (!await ShowAsync()) return NotFound();
        if (at is { } place) Input.InsertPiece(point, place);
        else if (Input.RowsOf(point) is { } rows) RouteForm.Fill(rows, Math.Min(rows.Count + 3, point is null ? RouteForm.MostPieces : RouteForm.MostBranchPieces));
        ModelState.Clear();
        return Page();
    }

    /// <summary>One more suction point, or one less; everything else typed stays.</summary>
    public async Task<IActionResult> OnPostPointAsync(int? without)
    {
        if (!await ShowAsync()) return NotFound();
        if (without is { } at) Input.TakePointOut(at);
        else Input.AddPoint(Measured);
        ModelState.Clear();
        await LookAsync();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await ShowAsync()) return NotFound();
        var design = DesignId is null ? new SuctionDesign { HouseId = HouseId, Revision = Revision } : await DesignAsync(tracked: true);
        if (design is null) return NotFound();
        if (design.FrozenAtUtc is not null) return Frozen();
        Input.Write(design, new FormReading(ModelState, nameof(Input), units.System), Measured);
        if (!ModelState.IsValid) return Page();
        if (DesignId is null) db.Add(design);
        else db.Entry(design).State = EntityState.Modified;
        if (DesignId is not null) db.Expect(design, Version);
        var saved = await db.TrySaveAsync(ModelState, nameof(Input), Input, TheirsAsync, v => Version = v);
        if (!saved) return Page();
        await ComputeDesign.StoreAsync(db, design, clock);
        return LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/design?revision={design.Revision}"));
    }

    private async Task<(RouteForm, int)> TheirsAsync()
    {
        var design = (await DesignAsync(tracked: false))!;
        return (RouteForm.Of(design, units.System), design.Version);
    }

    private Task<SuctionDesign?> DesignAsync(bool tracked)
    {
        var wanted = db.Designs.Where(d => d.Id == DesignId && d.HouseId == HouseId);
        return tracked ? wanted.AsTracking().WithRoute().FirstOrDefaultAsync() : db.FirstToReadAsync(wanted);
    }

    private async Task<bool> ShowAsync(string? revision = null)
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 3) is not { } head) return false;
        Revision = revision ?? (DesignId is null ? await CopyDesign.NextAsync(db, HouseId) : await db.Designs.Where(d => d.Id == DesignId && d.HouseId == HouseId).Select(d => d.Revision).FirstOrDefaultAsync() ?? "");
        ViewData["House"] = head with { Revision = Revision };
        Measured = await TestChoice.AllAsync(db, HouseId);
        Rules = await OfferRuleSets.ChoicesAsync(db);
        return true;
    }

    private async Task StartAsync() => Input = new RouteForm
    {
        TestId = Measured is [var newest, ..] ? newest.Value : null, Pieces = RouteForm.Usual(), FromVertical = "0",
        Target = Measures.Pressure.Number(await db.Company.Select(c => c.TargetSuctionPa).SingleAsync(), units.System),
    };

    private LocalRedirectResult Frozen() => LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/design?revision={Revision}"));
}
