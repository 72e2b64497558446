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
    public IReadOnlyList<(string Value, string Words)> Tests { get; private set; } = [];
    public IReadOnlyList<(string Value, string Words)> Rules { get; private set; } = [];

    public RouteLook? Look { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await ShowAsync()) return NotFound();
        if (DesignId is null) await StartAsync();
        else if (await DesignAsync(tracked: false) is not { } design) return NotFound();
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

    private async Task LookAsync() => Look = await RouteLook.OfAsync(db, HouseId, Input, Tests.Select(t => t.Value), units.System);

    /// <summary>An empty row at a place of the route, or at its end; everything typed stays.</summary>
    public async Task<IActionResult> OnPostMoreAsync(int? at)
    {
        if (!await ShowAsync()) return NotFound();
        if (at is { } place && place < Input.Pieces.Count && Input.Pieces.Count < RouteForm.MostPieces) Input.Pieces.Insert(place, new() { Size = Input.Pieces[place].Size });
        else Input.WithRoom(Input.Pieces.Count + 3);
        ModelState.Clear();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await ShowAsync()) return NotFound();
        var design = DesignId is null ? new SuctionDesign { HouseId = HouseId, Revision = Revision } : await DesignAsync(tracked: true);
        if (design is null) return NotFound();
        if (design.FrozenAtUtc is not null) return Frozen();
        Input.Write(design, new FormReading(ModelState, nameof(Input), units.System));
        if (design.PressureFieldTestId is { } id && !Tests.Any(t => t.Value == TypedNumbers.Plain((decimal)id))) ModelState.AddModelError("Input.TestId", "That PFE test belongs to another house.");
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

    private Task<SuctionDesign?> DesignAsync(bool tracked) =>
        (tracked ? db.Designs.AsTracking() : db.Designs.AsNoTracking()).Include(d => d.Pieces).FirstOrDefaultAsync(d => d.Id == DesignId && d.HouseId == HouseId);

    private async Task<bool> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 3) is not { } head) return false;
        Revision = DesignId is null ? await CopyDesign.NextAsync(db, HouseId) : await db.Designs.Where(d => d.Id == DesignId && d.HouseId == HouseId).Select(d => d.Revision).FirstOrDefaultAsync() ?? "";
        ViewData["House"] = head with { Revision = Revision };
        Tests = [("", "–"), .. (await db.PressureFieldTests.Where(t => t.HouseId == HouseId).OrderByDescending(t => t.Day).ThenByDescending(t => t.Id).Select(t => new { t.Id, t.Day }).ToListAsync())
            .Select(t => (TypedNumbers.Plain((decimal)t.Id), HouseTime.Show(t.Day)))];
        Rules = await OfferRuleSets.ChoicesAsync(db);
        return true;
    }

    private async Task StartAsync() => Input = new RouteForm
    {
        TestId = Tests.Select(t => t.Value).FirstOrDefault(v => v.Length > 0), Pieces = RouteForm.Usual(), FromVertical = "0",
        Target = Measures.Pressure.Number(await db.Company.Select(c => c.TargetSuctionPa).SingleAsync(), units.System),
    };

    private LocalRedirectResult Frozen() => LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/design?revision={Revision}"));
}
