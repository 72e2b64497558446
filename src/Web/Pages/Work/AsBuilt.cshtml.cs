using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>What was built: recorded once, corrected later on the same form.</summary>
public sealed class AsBuiltModel(OfficeDb db, UnitChoice units, TimeProvider clock, IAuthorizationService may) : PageModel
{
    public const int SpareRows = 3;

    [FromRoute]
    public int HouseId { get; set; }

    [FromQuery(Name = "job")]
    public int JobId { get; set; }

    [BindProperty]
    public AsBuiltForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public AsBuiltSetting Setting { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync()
    {
        if (await LoadAsync() is { } missing) return missing;
        (Input, Version) = Setting.IsNew ? (Setting.NewForm(), 0) : await ReadAsync();
        AddSpareRows();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (await LoadAsync() is { } missing) return missing;
        var built = Input.Read(new FormReading(ModelState, nameof(Input), units.System), Setting, units.System);
        AddSpareRows();
        if (!ModelState.IsValid || built is null) return Page();
        return Setting.IsNew ? await RecordAsync(built) : await CorrectAsync(built);
    }

    private async Task<IActionResult> RecordAsync(AsBuilt built)
    {
        try
        {
            var (system, refusals) = await Commission.RunAsync(db, built, clock.GetUtcNow().UtcDateTime);
            return system is null ? Refuse(refusals) : await DoneAsync();
        }
        catch (DbUpdateException)
        {
            return Refuse([new(nameof(Input.TagNumber), $"Tag {built.TagNumber} was taken a moment ago by somebody else. Read the tag again.")]);
        }
    }

    private async Task<IActionResult> CorrectAsync(AsBuilt built)
    {
        var system = await db.Systems.Include(s => s.Components).Include(s => s.FinalSuctions).Include(s => s.DraftChecks).SingleAsync(s => s.JobId == JobId);
        var refusals = await Commission.CorrectAsync(db, system, built, clock.GetUtcNow().UtcDateTime);
        if (refusals.Count > 0) return Refuse(refusals);
        db.Expect(system, Version);
        if (db.Entry(system).State == EntityState.Unchanged) db.Entry(system).Property(s => s.TagNumber).IsModified = true;
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? await DoneAsync() : Page();
    }

    private async Task<(AsBuiltForm, int)> ReadAsync()
    {
        var s = await db.Systems.AsNoTracking().Include(x => x.Components).Include(x => x.FinalSuctions).Include(x => x.DraftChecks).AsSingleQuery().SingleAsync(x => x.JobId == JobId);
        return (AsBuiltRecord.Form(s, Setting.Zone, units.System), s.Version);
    }

    private async Task<IActionResult?> LoadAsync()
    {
        var head = await HouseHead.LoadAsync(db, HouseId, shown: 5);
        var prices = (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
        if (head is null || await AsBuiltSetting.LoadAsync(db, HouseId, JobId, prices) is not { } setting) return NotFound();
        Setting = setting;
        ViewData["House"] = head with { Revision = Setting.JobNumber };
        return null;
    }

    private void AddSpareRows()
    {
        // What stands on sheet 1 is asked for, whatever was typed.
        foreach (var appliance in Setting.NaturalDraft.Where(a => !Input.Drafts.Exists(d => string.Equals(d.Appliance?.Trim(), a, StringComparison.OrdinalIgnoreCase)))) Input.Drafts.Add(new() { Appliance = appliance });
        if (!Input.Drafts.Exists(d => d.IsEmpty)) Input.Drafts.Add(new());
        for (var i = Input.Readings.Count(r => string.IsNullOrWhiteSpace(r.Shown) && string.IsNullOrWhiteSpace(r.Hole)); i < SpareRows; i++) Input.Readings.Add(new());
        for (var i = Input.Parts.Count(p => string.IsNullOrWhiteSpace(p.Model)); i < SpareRows; i++) Input.Parts.Add(new());
    }

    private PageResult Refuse(IEnumerable<Refusal> refusals)
    {
        foreach (var refusal in refusals) ModelState.AddModelError(refusal.Field.Length == 0 ? "" : $"{nameof(Input)}.{refusal.Field}", refusal.Words);
        return Page();
    }

    private async Task<IActionResult> DoneAsync()
    {
        await PlanReminders.RunAsync(db, clock.GetUtcNow().UtcDateTime, HouseId, HttpContext.RequestAborted);
        return RedirectToPage("/Work/Sheet", null, new { HouseId, job = JobId }, "as-built");
    }
}
