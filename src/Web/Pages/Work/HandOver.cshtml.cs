using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>The walk-through with the house owner, signed on the tablet.</summary>
public sealed class HandOverModel(OfficeDb db, TimeProvider clock, UnitChoice units, Actor actor) : PageModel
{
    public sealed class Form
    {
        public List<string> Shown { get; set; } = [];
        public string? Inspection { get; set; }
        public string? Notes { get; set; }
        public string? TypedName { get; set; }
        public string? Strokes { get; set; }
    }

    [FromRoute]
    public int HouseId { get; set; }

    [FromQuery(Name = "job")]
    public int JobId { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public InstalledSystem System { get; private set; } = null!;
    public IReadOnlyList<WalkThrough.Line> Lines { get; private set; } = [];
    public string Program { get; private set; } = "";
    public HandOver? Earlier { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    public async Task<IActionResult> OnGetAsync() => await LoadAsync() ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var signature = new SignHandOver.Signature(
            read.Text(Input.TypedName, nameof(Input.TypedName), "name", most: 200), Input.Shown, Enum.TryParse<InspectionAnswer>(Input.Inspection, out var said) && Enum.IsDefined(said) ? said : null,
            read.Text(Input.Notes, nameof(Input.Notes), "notes", most: 2000), Input.Strokes?.Trim() ?? "");
        if (ModelState.IsValid)
            foreach (var refusal in await SignHandOver.RunAsync(db, System.Id, signature, Zone, clock.GetUtcNow().UtcDateTime, actor.Name)) read.Refuse(refusal.Field, refusal.Words);
        return ModelState.IsValid ? RedirectToPage("/Work/Sheet", null, new { HouseId, job = JobId }, "as-built") : Page();
    }

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 5) is not { } head) return false;
        if (await db.Systems.AsNoTracking().Include(s => s.Components).FirstOrDefaultAsync(s => s.JobId == JobId && s.HouseId == HouseId) is not { } system) return false;
        (System, Lines, Zone) = (system, [.. WalkThrough.Of(system)], await HouseZone.OfAsync(db, HouseId));
        Program = await db.Company.Select(c => c.StateProgram).SingleAsync() is { Length: > 0 } program ? program : "the state's radon program";
        Earlier = await db.HandOvers.AsNoTracking().Where(h => h.InstalledSystemId == system.Id).OrderByDescending(h => h.Id).FirstOrDefaultAsync();
        ViewData["House"] = head with { Revision = system.TagNumber };
        return true;
    }
}
