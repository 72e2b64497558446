using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.StateReports;

public sealed class MonthModel(OfficeDb db, UnitChoice units, TimeProvider clock) : PageModel
{
    public sealed class SentForm
    {
        public string? SentOn { get; set; }
        public string? SentHow { get; set; }
    }

    public ReportPreview Preview { get; private set; } = null!;
    public IReadOnlyList<IReadOnlyDictionary<string, string>> Rows { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    [BindProperty]
    public bool WithGaps { get; set; }

    [BindProperty]
    public SentForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public async Task<IActionResult> OnGetAsync(string month) => await ShowAsync(month) ? Page() : NotFound();

    public async Task<IActionResult> OnGetCsvAsync(string month)
    {
        if (ReportMonth.Read(month) is not { } first) return NotFound();
        var file = await db.Documents.AsNoTracking().SingleOrDefaultAsync(d => db.ReportRuns.Any(r => r.Month == first && r.Layout == ReportLayout.General && r.CsvDocumentId == d.Id));
        return file is null ? NotFound() : File(file.Bytes, "text/csv; charset=utf-8", file.FileName);
    }

    public async Task<IActionResult> OnPostFreezeAsync(string month)
    {
        if (ReportMonth.Read(month) is not { } first) return NotFound();
        try
        {
            await MonthReport.FreezeAsync(db, first, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", clock.GetUtcNow().UtcDateTime, WithGaps);
            return RedirectToPage(new { month });
        }
        catch (InvalidOperationException e)
        {
            ModelState.AddModelError("", e.Message);
            db.ChangeTracker.Clear();
            await ShowAsync(month);
            return Page();
        }
    }

    public async Task<IActionResult> OnPostSentAsync(string month)
    {
        if (ReportMonth.Read(month) is not { } first || await db.ReportRuns.SingleOrDefaultAsync(r => r.Month == first && r.Layout == ReportLayout.General) is not { } run) return NotFound();
        var read = new FormReading(ModelState, nameof(Input), units.System);
        run.SentOn = read.Day(Input.SentOn, nameof(Input.SentOn), "day it was sent", needed: true);
        run.SentHow = read.Text(Input.SentHow, nameof(Input.SentHow), "way it was sent", most: 200);
        db.Expect(run, Version);
        if (ModelState.IsValid && await db.TrySaveAsync(ModelState, nameof(Input), Input, () => SentAsync(first), v => Version = v)) return RedirectToPage(new { month });
        db.ChangeTracker.Clear();
        var (typed, version) = (Input, Version);
        await ShowAsync(month);
        (Input, Version) = (typed, version);
        return Page();
    }

    private async Task<(SentForm, int)> SentAsync(DateOnly month)
    {
        var run = await db.ReportRuns.AsNoTracking().SingleAsync(r => r.Month == month && r.Layout == ReportLayout.General);
        return (new SentForm { SentOn = TypedNumbers.Plain(run.SentOn), SentHow = run.SentHow }, run.Version);
    }

    private async Task<bool> ShowAsync(string month)
    {
        if (ReportMonth.Read(month) is not { } first) return false;
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Preview = await MonthReport.PreviewAsync(db, first, clock.GetUtcNow().UtcDateTime);
        Rows = Preview.Frozen is { } run
            ? [.. run.Entries.OrderBy(e => e.Position).Select(e => JsonSerializer.Deserialize<Dictionary<string, string>>(e.RowJson)!)]
            : [.. Preview.Rows.Select(r => r.Values)];
        if (Preview.Frozen is { } frozen) (Input, Version) = (new SentForm { SentOn = TypedNumbers.Plain(frozen.SentOn), SentHow = frozen.SentHow }, frozen.Version);
        return true;
    }

    public static string Place(ReportGap gap) => gap.At switch
    {
        EnteredAt.Company => "/shop/company",
        EnteredAt.Inquiry => $"/houses/{gap.HouseId}/inquiry",
        EnteredAt.Proof => $"/houses/{gap.HouseId}/proof",
        _ => $"/houses/{gap.HouseId}/work",
    };
}
