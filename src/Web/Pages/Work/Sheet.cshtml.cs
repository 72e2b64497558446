using System.Security.Claims;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>Sheet 5: the plan, the checklist and what was built.</summary>
public sealed partial class SheetModel(OfficeDb db, UnitChoice units, TimeProvider clock, IAuthorizationService may) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    [FromQuery(Name = "job")]
    public int? JobId { get; set; }

    [BindProperty]
    public PlanForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public JobView? Job { get; private set; }
    public IReadOnlyList<JobList.Waiting> Waiting { get; private set; } = [];
    public IReadOnlyList<(int Id, string Number, JobState State)> OtherJobs { get; private set; } = [];
    public IReadOnlyList<ChangeRow> Changes { get; private set; } = [];
    public IReadOnlyList<string> Crews { get; private set; } = [];
    public IReadOnlyList<string> Clashes { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public DateOnly Today => HouseTime.DayOf(Now, Zone);
    public bool MayPlan { get; private set; }
    private DateTime Now => clock.GetUtcNow().UtcDateTime;
    private string Me => User.FindFirstValue(ClaimTypes.GivenName) ?? "?";

    public async Task<IActionResult> OnGetAsync()
    {
        if (await LoadAsync() is { } refused) return refused;
        if (Job is null) return Page();
        (Input, Version) = (PlanForm.Of(Job), Job.Version);
        return Page();
    }

    public async Task<IActionResult> OnPostOpenAsync(int acceptanceId, SystemKind? kind)
    {
        if (await OfficeOnlyAsync() is { } refused) return refused;
        var asked = await JobList.WaitingAsync(db, new("all", null, null, "day"), HouseId);
        if (asked.All(w => w.AcceptanceId != acceptanceId) && !await db.Jobs.AnyAsync(j => j.AcceptanceId == acceptanceId && j.HouseId == HouseId)) return NotFound();
        return Back(await OpenJob.RunAsync(db, acceptanceId, clock, kind) ?? 0);
    }

    public async Task<IActionResult> OnPostPlanAsync()
    {
        if (await OfficeOnlyAsync() is { } refused) return refused;
        if (await LoadAsync() is { } missing) return missing;
        if (Job is null) return NotFound();
        var job = await db.Jobs.SingleAsync(j => j.Id == Job.Id);
        Input.Write(job, new FormReading(ModelState, nameof(Input), units.System), Job.AcceptedOn, Job.CancelBy);
        if (!ModelState.IsValid) return Page();
        db.Expect(job, Version);
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadPlanAsync, v => Version = v) ? Back(job.Id) : Page();
    }

    private async Task<(PlanForm, int)> ReadPlanAsync()
    {
        var job = await JobView.LoadAsync(db, HouseId, Job!.Id);
        return (PlanForm.Of(job!), job!.Version);
    }

    /// <summary>Reads what the sheet shows; a 404 where there is no such house or job.</summary>
    private async Task<IActionResult?> LoadAsync()
    {
        var head = await HouseHead.LoadAsync(db, HouseId, shown: 5);
        if (head is null) return NotFound();
        Job = await JobView.LoadAsync(db, HouseId, JobId);
        if (Job is null && JobId is not null) return NotFound();
        Zone = await HouseZone.OfAsync(db, HouseId);
        MayPlan = (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
        Waiting = await JobList.WaitingAsync(db, new("all", null, null, "day"), HouseId);
        Crews = await JobList.CrewsAsync(db);
        OtherJobs = (await db.Jobs.Where(j => j.HouseId == HouseId).OrderByDescending(j => j.Id).Select(j => new { j.Id, j.Number, j.State }).ToListAsync()).ConvertAll(j => (j.Id, j.Number, j.State));
        if (Job is { State: JobState.Planned } planned) Clashes = await PlanJob.ClashesAsync(db, planned.Day, planned.Crew, planned.Id);
        if (Job is { } shown) Changes = await ChangeRow.OfJobAsync(db, shown.Id);
        ViewData["House"] = head with { Revision = Job?.Number ?? "–", Date = Job is null ? "–" : HouseTime.Show(Job.DoneOn ?? Job.Day) };
        return null;
    }

    private async Task<IActionResult?> OfficeOnlyAsync() => (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded ? null : Forbid();

    private RedirectToPageResult Back(int jobId, string? fragment = null) => RedirectToPage("/Work/Sheet", null, new { HouseId, job = jobId }, fragment);
}
