using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Files;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>One report: looked at before it is frozen, and as it was frozen.</summary>
public sealed class RunModel(OfficeDb db, UnitChoice units, TimeProvider clock) : PageModel
{
    public const int RowsAPage = 50, MostGaps = 200;

    public sealed class SentForm
    {
        public string? SentOn { get; set; }
        public string? How { get; set; }
        public string? Confirmation { get; set; }
        public string? FeePaidOn { get; set; }
    }

    public ReportHead Head { get; private set; } = null!;
    public ReportPeriod Period { get; private set; } = null!;
    public ReportPreview? Preview { get; private set; }
    public ReportRun? Frozen { get; private set; }
    public ReportTable Table { get; private set; } = null!;
    public bool IsOwner => User.IsInRole("Owner");

    /// <summary>False where the profile keeps the report to the owner of the company, and somebody else looks.</summary>
    public bool MaySee => IsOwner || !(Table?.Profile ?? Head.Profile).Privacy.OwnerOnly;

    [BindProperty(SupportsGet = true)]
    public int From { get; set; } = 1;

    [BindProperty]
    public bool WithGaps { get; set; }

    [BindProperty]
    public string? SignedBy { get; set; }

    [BindProperty]
    public SentForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public async Task<IActionResult> OnGetAsync(string profile, string period) => await ShowAsync(profile, period) ? Page() : NotFound();

    public async Task<IActionResult> OnGetFileAsync(string profile, string period, FileKind kind)
    {
        var run = await db.ReportRuns.AsNoTracking().SingleOrDefaultAsync(r => r.ProfileCode == profile && r.Period == period);
        if (run is null || kind switch { FileKind.Xlsx => run.XlsxDocumentId, FileKind.Pdf => run.PdfDocumentId, _ => run.CsvDocumentId } is not { } id) return NotFound();
        if (!IsOwner && ReadProfile.Of(run.ProfileJson).Profile is { Privacy.OwnerOnly: true }) return Forbid();
        var file = await db.Documents.AsNoTracking().SingleAsync(d => d.Id == id);
        return File(file.Bytes, kind == FileKind.Csv ? "text/csv; charset=utf-8" : file.ContentType, file.FileName);
    }

    public async Task<IActionResult> OnPostFreezeAsync(string profile, string period)
    {
        var signer = new FormReading(ModelState, "", units.System).Text(SignedBy, nameof(SignedBy), "name of the person who signs", most: 120);
        if (Csv.LooksComputed(signer)) ModelState.AddModelError(nameof(SignedBy), $"A name cannot begin with “{signer[0]}”: a spreadsheet would take it for a formula.");
        try
        {
            if (!await ShowAsync(profile, period, rows: false)) return NotFound();
            if (!MaySee) return Forbid();
            if (ModelState.IsValid)
            {
                await FreezeReport.RunAsync(db, profile, period, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", signer, clock.GetUtcNow().UtcDateTime, WithGaps);
                return RedirectToPage(new { profile, period });
            }
        }
        catch (InvalidOperationException e)
        {
            ModelState.AddModelError("", e.Message);
            db.ChangeTracker.Clear();
        }

        var typed = SignedBy;
        await ShowAsync(profile, period);
        SignedBy = typed;
        return Page();
    }

    public async Task<IActionResult> OnPostSentAsync(string profile, string period)
    {
        if (await db.ReportRuns.AsNoTracking().SingleOrDefaultAsync(r => r.ProfileCode == profile && r.Period == period) is not { } run) return NotFound();
        var sending = await db.ReportSendings.SingleOrDefaultAsync(s => s.ReportRunId == run.Id);
        if (sending is null) db.Add(sending = new ReportSending { ReportRunId = run.Id });
        else db.Expect(sending, Version);
        var read = new FormReading(ModelState, nameof(Input), units.System);
        sending.SentOn = read.Day(Input.SentOn, nameof(Input.SentOn), "day it was sent", needed: true);
        sending.How = read.Text(Input.How, nameof(Input.How), "way it was sent", most: 200);
        sending.Confirmation = read.Text(Input.Confirmation, nameof(Input.Confirmation), "confirmation number", most: 100);
        sending.FeePaidOn = read.Day(Input.FeePaidOn, nameof(Input.FeePaidOn), "day the fee was paid");
        var frozenOn = HouseTime.DayOf(run.FrozenAtUtc, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        if (sending.SentOn < frozenOn) read.Refuse(nameof(Input.SentOn), $"It was frozen on {HouseTime.Show(frozenOn)}; it cannot have been sent before.");
        if (ModelState.IsValid && await db.TrySaveAsync(ModelState, nameof(Input), Input, () => SentAsync(run.Id), v => Version = v)) return RedirectToPage(new { profile, period });
        db.ChangeTracker.Clear();
        var (typed, version) = (Input, Version);
        await ShowAsync(profile, period);
        (Input, Version) = (typed, version);
        return Page();
    }

    private async Task<(SentForm, int)> SentAsync(int runId) =>
        await db.ReportSendings.AsNoTracking().SingleOrDefaultAsync(s => s.ReportRunId == runId) is { } s ? (FormOf(s), s.Version) : (new SentForm(), 0);

    private static SentForm FormOf(ReportSending s) => new() { SentOn = TypedNumbers.Plain(s.SentOn), How = s.How, Confirmation = s.Confirmation, FeePaidOn = TypedNumbers.Plain(s.FeePaidOn) };

    private async Task<bool> ShowAsync(string profile, string period, bool rows = true)
    {
        if (await ReportHead.ReadAsync(db, profile) is not { } head || head.PeriodOf(period) is not { } days || days.Name != period) return false;
        (Head, Period, Frozen) = (head, days, head.Runs.FirstOrDefault(r => r.Period == period));
        if (!head.Profile.Reports && Frozen is null) return false;
        if (!rows) return true;
        if (Frozen is { } run)
        {
            var at = Math.Max(1, From);
            Table = PreviewReport.Frozen(run, await db.ReportEntries.AsNoTracking().Where(e => e.ReportRunId == run.Id && e.Position >= at && e.Position < at + RowsAPage).ToListAsync(), head.AlsoPrivate(await StatesAsync(run.Id)));
            (Input, Version) = await SentAsync(run.Id);
            return true;
        }

        Preview = await PreviewReport.RunAsync(db, head, days, clock.GetUtcNow().UtcDateTime);
        Table = Preview.Table;
        SignedBy = head.Duty is { SignedBy.Length: > 0 } duty ? duty.SignedBy : User.FindFirstValue(ClaimTypes.GivenName) ?? "";
        return true;
    }

    private Task<List<string>> StatesAsync(int runId) =>
        (from e in db.ReportEntries where e.ReportRunId == runId join s in db.Systems on e.InstalledSystemId equals s.Id join h in db.Houses on s.HouseId equals h.Id select h.State).Distinct().ToListAsync();

    public int RowCount => Frozen is { } run ? run.Counted + run.Amendments : Table.Rows.Count;

    /// <summary>The rows of this page, each with its number.</summary>
    public IEnumerable<(int Number, RowToWrite Row)> Shown =>
        Frozen is null ? Table.Rows.Select((r, i) => (i + 1, r)).Skip(Math.Max(1, From) - 1).Take(RowsAPage) : Table.Rows.Select((r, i) => (Math.Max(1, From) + i, r));
}
