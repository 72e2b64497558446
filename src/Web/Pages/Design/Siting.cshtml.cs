using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>Where the mouth stands, entered beside its drawing and held against each rule of the chosen jurisdiction.</summary>
public sealed class SitingModel(OfficeDb db, UnitChoice units, TimeProvider clock) : PageModel
{
    [BindProperty]
    public SitingForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty(SupportsGet = true)]
    public int HouseId { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Revision { get; set; }

    public SuctionDesign? Design { get; private set; }
    public SitingLook? Look { get; private set; }
    public IReadOnlyList<(string Value, string Words)> Rules { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await ShowAsync()) return NotFound();
        if (Design is null) return Revision is null ? Page() : NotFound();
        (Input, Version) = (SitingForm.Of(Design, units.System), Design.Version);
        Input.WithRoom();
        Look = await SitingLook.OfAsync(db, Design, new(), units.System);
        return Page();
    }

    /// <summary>The drawing and the verdicts of what is typed, for the script: a piece of the page, nothing stored.</summary>
    public async Task<IActionResult> OnPostLookAsync()
    {
        if (await DesignAsync() is not { } design) return NotFound();
        Rules = await OfferRuleSets.ChoicesAsync(db);
        return Partial("_SitingLook", await TypedAsync(design));
    }

    /// <summary>The same for who has no script: the whole page.</summary>
    public Task<IActionResult> OnPostComputeAsync() => AgainAsync(more: 0);

    /// <summary>Empty rows for further things near; everything typed stays.</summary>
    public Task<IActionResult> OnPostMoreAsync() => AgainAsync(more: 1);

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await ShowAsync() || Design is null) return NotFound();
        if (Design.FrozenAtUtc is not null) return LocalRedirect(Address("design/siting"));
        Input.Write(Design, new FormReading(ModelState, nameof(Input), units.System), [.. Rules.Select(r => r.Value)]);
        if (!ModelState.IsValid) return await RefusedAsync();
        db.Entry(Design).State = EntityState.Modified;
        db.Expect(Design, Version);
        if (!await db.TrySaveAsync(ModelState, nameof(Input), Input, TheirsAsync, v => Version = v)) return await RefusedAsync();
        await ComputeDesign.StoreAsync(db, Design, clock);
        return LocalRedirect(Address("design/siting"));
    }

    public string Address(string sheet) => string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/{sheet}{(Revision is null ? "" : $"?revision={Uri.EscapeDataString(Revision)}")}");

    private async Task<IActionResult> AgainAsync(int more)
    {
        if (!await ShowAsync() || Design is null) return NotFound();
        Look = await TypedAsync(Design);
        Input.WithRoom(more);
        ModelState.Clear();
        return Page();
    }

    private async Task<IActionResult> RefusedAsync()
    {
        db.ChangeTracker.Clear();
        if (await DesignAsync() is { } design) Look = await TypedAsync(design);
        Input.WithRoom();
        return Page();
    }

    private Task<SitingLook> TypedAsync(SuctionDesign design)
    {
        var problems = new ModelStateDictionary();
        Input.Write(design, new FormReading(problems, nameof(Input), units.System), [.. Rules.Select(r => r.Value)]);
        return SitingLook.OfAsync(db, design, problems, units.System);
    }

    private async Task<(SitingForm, int)> TheirsAsync()
    {
        var design = (await DesignAsync())!;
        return (SitingForm.Of(design, units.System), design.Version);
    }

    private Task<SuctionDesign?> DesignAsync() => db.Designs.AsTracking().Include(d => d.Pieces).AsSingleQuery().Where(d => d.HouseId == HouseId && (Revision == null || d.Revision == Revision))
        .OrderByDescending(d => d.Revision.Length).ThenByDescending(d => d.Revision).FirstOrDefaultAsync();

    private async Task<bool> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 3) is not { } head) return false;
        Design = await DesignAsync();
        (ViewData["House"], ViewData["Title"]) = (head with { Revision = Design?.Revision ?? "–" }, $"Siting of the mouth, {head.Address}");
        Rules = await OfferRuleSets.ChoicesAsync(db);
        // A set that was set aside since stays chosen until another is taken.
        if (Design is { SitingRules: { Length: > 0 } chosen } && Rules.All(r => r.Value != chosen)) Rules = [.. Rules, (chosen, $"{chosen} (no longer offered)")];
        return true;
    }
}
