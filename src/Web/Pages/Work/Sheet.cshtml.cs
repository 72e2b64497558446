using System.Security.Claims;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>Sheet 5: the plan, the checklist and what was built.</summary>
public sealed partial class SheetModel(OfficeDb db, UnitChoice units, TimeProvider clock, IAuthorizationService may, MailSettings mail) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    [FromQuery(Name = "job")]
    public int? JobId { get; set; }

    [BindProperty]
    public PlanForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty]
    public PermitForm Permit { get; set; } = new();

    [BindProperty]
    public AppointmentForm Appointment { get; set; } = new();

    public IReadOnlyList<Bookable> All { get; private set; } = [];
    public DayRowsView DayRows => new(Input.Days, All);
    public JobView? Job { get; private set; }
    public IReadOnlyList<JobList.Waiting> Waiting { get; private set; } = [];
    public IReadOnlyList<(int Id, string Number, JobState State)> OtherJobs { get; private set; } = [];
    public IEnumerable<string> Doubts => Job is { State: JobState.ToPlan or JobState.Planned } job ? PlanJob.Doubts(job.Kept, [.. job.Days.Select(d => d.Day)]) : [];
    public IReadOnlyList<ChangeRow> Changes { get; private set; } = [];
    public IReadOnlyList<PhotoRow> Photos { get; private set; } = [];
    public IReadOnlyList<string> Clashes { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public DateOnly Today => HouseTime.DayOf(Now, Zone);
    public bool OnlyHere => mail.PublicAddress.IsLoopback;
    public bool MayPlan { get; private set; }

    /// <summary>In the order of the day while the job is open; once it is done, what one comes back for first and the rest folded.</summary>
    private static readonly (string Part, (string Anchor, string Words)[] Links)[] InOrder =
    [
        ("_Plan", [("plan", "Plan")]), ("_Around", [("permit", "Permit"), ("appointments", "Appointments")]), ("_Checklist", [("checklist", "Checklist")]),
        ("_Photos", [("photos", "Photos")]), ("_Changes", [("changes", "Changes")]), ("_Built", [("as-built", "As built")]),
    ];

    private IEnumerable<(string Part, (string Anchor, string Words)[] Links)> Ordered => Job?.State == JobState.Done ? new[] { 5, 3, 4, 2, 0, 1 }.Select(i => InOrder[i]) : InOrder;
    public IEnumerable<string> Parts => Ordered.Select(p => p.Part);
    public IEnumerable<(string Anchor, string Words)> PartLinks => Ordered.SelectMany(p => p.Links);
    private DateTime Now => clock.GetUtcNow().UtcDateTime;
    private string Me => User.FindFirstValue(ClaimTypes.GivenName) ?? "?";

    public async Task<IActionResult> OnGetAsync()
    {
        if (await LoadAsync() is { } refused) return refused;
        if (Job is null) return Page();
        FillForms();
        return Page();
    }

    /// <summary>The forms as the records stand.</summary>
    private void FillForms()
    {
        (Input, Version, Permit) = (PlanForm.Of(Job!), Job!.Version, PermitForm.Of(Job!.Kept));
        Input.AddSpareDays();
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
        await Input.WriteAsync(db, job, new FormReading(ModelState, nameof(Input), units.System), Job.AcceptedOn, Job.CancelBy, All, Now);
        Input.AddSpareDays();
        Permit = PermitForm.Of(Job.Kept);
        if (!ModelState.IsValid) return Page();
        db.Expect(job, Version);
        db.Entry(job).Property(j => j.Number).IsModified = true;
        try
        {
            if (await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadPlanAsync, v => Version = v)) return Back(job.Id);
        }
        catch (DbUpdateException)
        {
            ModelState.AddModelError("", PlanDays.TakenMeanwhile);
        }

        return Page();
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
        MayPlan = (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
        Waiting = await JobList.WaitingAsync(db, new("all", null, null, "day"), HouseId);
        All = Job is null ? [] : await Bookables.ReadAsync(db);
        await LoadHouseAsync();
        if (Job is { State: JobState.Planned } planned) Clashes = await PlanJob.ClashesAsync(db, planned.Day, planned.Crew, planned.Id);
        if (Job is { } shown) (Changes, Photos) = (await ChangeRow.OfJobAsync(db, shown.Id), await PhotoRow.OfJobAsync(db, shown.Id));
        ViewData["House"] = head with { Revision = Job?.Number ?? "–", Date = Job is null ? "–" : HouseTime.Show(Job.DoneOn ?? Job.Day) };
        return null;
    }

    private async Task LoadHouseAsync()
    {
        var rows = await (from h in db.Houses
                          where h.Id == HouseId
                          from j in db.Jobs.Where(j => j.HouseId == h.Id).DefaultIfEmpty()
                          select new { h.TimeZone, Company = db.Company.OrderBy(c => c.Id).Select(c => c.TimeZone).FirstOrDefault(), Id = (int?)j.Id, j.Number, State = (JobState?)j.State }).ToListAsync();
        Zone = HouseTime.Zone(rows[0].TimeZone, string.IsNullOrWhiteSpace(rows[0].Company) ? "America/Chicago" : rows[0].Company!);
        OtherJobs = [.. rows.Where(r => r.Id is not null).OrderByDescending(r => r.Id).Select(r => (r.Id!.Value, r.Number, r.State!.Value))];
    }

    private async Task<IActionResult?> OfficeOnlyAsync() => (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded ? null : Forbid();

    private RedirectToPageResult Back(int jobId, string? fragment = null) => RedirectToPage("/Work/Sheet", null, new { HouseId, job = jobId }, fragment);
}
