using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>One run of letters: its files, whom they go to, and whether they are in the post.</summary>
public sealed class LetterRunModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public sealed record Row(int? HouseId, string House, string Rule, DateOnly DueOn, ReminderState State);

    public LetterRun Run { get; private set; } = null!;
    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool Open => Run is { PostedAtUtc: null, TakenBackAtUtc: null };

    [TempData]
    public string? Told { get; set; }

    public async Task<IActionResult> OnGetAsync(int runId)
    {
        if (await db.LetterRuns.AsNoTracking().SingleOrDefaultAsync(r => r.Id == runId) is not { } run) return NotFound();
        Run = run;
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Rows = await db.Reminders.AsNoTracking().Where(r => r.LetterRunId == runId).OrderBy(r => r.DueOn).ThenBy(r => r.Id).Select(r => new Row(
            r.HouseId, db.Houses.Where(h => h.Id == r.HouseId).Select(h => h.Street + ", " + h.City).FirstOrDefault() ?? "",
            db.ReminderRules.Where(x => x.Code == r.RuleCode).Select(x => x.Name).FirstOrDefault() ?? r.RuleCode, r.DueOn, r.State)).ToListAsync();
        return Page();
    }

    /// <summary>The letters, or the labels.</summary>
    public async Task<IActionResult> OnGetFileAsync(int runId, bool labels)
    {
        var run = await db.LetterRuns.AsNoTracking().SingleOrDefaultAsync(r => r.Id == runId);
        var id = labels ? run?.LabelsDocumentId : run?.PdfDocumentId;
        var paper = await db.Documents.AsNoTracking().Where(d => d.Id == id).Select(d => new { d.Bytes, d.ContentType, d.FileName }).FirstOrDefaultAsync();
        if (paper is null) return NotFound();
        Response.Headers.CacheControl = "private, no-store";
        return File(paper.Bytes, paper.ContentType, paper.FileName);
    }

    public async Task<IActionResult> OnPostPostedAsync(int runId)
    {
        Told = await MakeLetters.PostedAsync(db, runId, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", clock.GetUtcNow().UtcDateTime) ? "Noted: the letters are in the post." : "This run was settled already.";
        return RedirectToPage(new { runId });
    }

    public async Task<IActionResult> OnPostBackAsync(int runId)
    {
        Told = await MakeLetters.TakeBackAsync(db, runId, clock.GetUtcNow().UtcDateTime) ? "Taken back: everything waits on the list again." : "This run was settled already.";
        return RedirectToPage(new { runId });
    }
}
