using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Work;

public sealed class IndexModel(OfficeDb db, TimeProvider clock, IAuthorizationService may) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Show { get; set; } = "open";

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Crew { get; set; }

    [BindProperty(SupportsGet = true)]
    public string Sort { get; set; } = "day";

    public IReadOnlyList<JobList.Waiting> Waiting { get; private set; } = [];
    public IReadOnlyList<JobList.Row> Rows { get; private set; } = [];
    public IReadOnlyList<string> Crews { get; private set; } = [];
    public bool MayPlan { get; private set; }
    private JobSearch Asked => new(Show, Find, Crew, Sort);
    public bool More => Rows.Count > JobList.Most;

    public async Task OnGetAsync()
    {
        MayPlan = await MayPlanAsync();
        Waiting = await JobList.WaitingAsync(db, Asked);
        Rows = await JobList.RowsAsync(db, Asked, JobList.Most + 1);
        Crews = await JobList.CrewsAsync(db);
    }

    public async Task<IActionResult> OnGetCsvAsync()
    {
        var rows = await JobList.RowsAsync(db, Asked, int.MaxValue);
        return CsvAnswer.Of("work.csv",
            ["Job", "House", "City", "State", "ZIP", "For", "State of the job", "Day", "Arrive", "Crew", "Steps done", "Steps", "Done on"],
            rows.Select(r => (IReadOnlyList<string>)[r.Number, r.Street, r.City, r.HouseState, r.Zip, r.For ?? "", Setup.Forms.Words.Of(r.State), TypedNumbers.Plain(r.Day),
                $"{r.ArriveAt:HH:mm}", r.Crew, $"{r.StepsDone}", $"{r.Steps}", TypedNumbers.Plain(r.DoneOn)]));
    }

    public async Task<IActionResult> OnPostOpenAsync(int acceptanceId)
    {
        if (!await MayPlanAsync()) return Forbid();
        if (await OpenJob.RunAsync(db, acceptanceId, clock) is not { } id) return NotFound();
        var houseId = db.Jobs.Where(j => j.Id == id).Select(j => j.HouseId).Single();
        return RedirectToPage("/Work/Sheet", new { houseId, job = id });
    }

    private async Task<bool> MayPlanAsync() => (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
}
