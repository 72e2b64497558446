using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>The register of instruments: what is due for calibration, and where each was last used.</summary>
[Authorize(SignInSetup.OfficeWork)]
public sealed class InstrumentsModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public const int DueSoonDays = 45;

    public sealed record Row(int Id, InstrumentKind Kind, string Serial, string Model, string KeptBy, DateOnly? UseBy, DateOnly? DoneOn, DateOnly? DueOn, int Tests);

    [BindProperty(SupportsGet = true)]
    public bool Retired { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true)]
    public string Sort { get; set; } = "due";
    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public DateOnly Today { get; private set; }

    public async Task OnGetAsync() => await ReadAsync();

    public async Task<IActionResult> OnGetCsvAsync()
    {
        await ReadAsync();
        return CsvAnswer.Of("instruments.csv", ["Kind", "Serial", "Model", "Kept by", "Calibrated on", "Next due", "Not opened after", "Tests", "Standing"], Rows.Select(r => (IReadOnlyList<string>)
            [Words.Of(r.Kind), r.Serial, r.Model, r.KeptBy, TypedNumbers.Plain(r.DoneOn), TypedNumbers.Plain(r.DueOn), TypedNumbers.Plain(r.UseBy), $"{r.Tests}", Standing(r).Words]));
    }

    public (string Words, bool Late) Standing(Row r)
    {
        if (r.UseBy < Today) return ("past its last day", true);
        if (r.DueOn < Today) return ("calibration overdue", true);
        if (r.DueOn <= Today.AddDays(DueSoonDays)) return ("calibration due soon", false);
        if (r is { Kind: InstrumentKind.ContinuousMonitor, DoneOn: null }) return ("calibration missing", true);
        return r.DueOn is null ? ("", false) : ("calibrated", false);
    }

    private async Task ReadAsync()
    {
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        var rows = await db.Instruments.AsNoTracking().Where(i => i.Retired == Retired)
            .Select(i => new
            {
                i.Id, i.Kind, i.Serial, i.Model, i.KeptBy, i.UseBy,
                Last = i.Calibrations.OrderByDescending(c => c.DoneOn).Select(c => new { c.DoneOn, c.DueOn }).FirstOrDefault(),
                Tests = db.RadonTests.Count(t => t.Devices.Any(d => d.InstrumentId == i.Id)),
            }).ToListAsync();
        var all = rows.Select(i => new Row(i.Id, i.Kind, i.Serial, i.Model, i.KeptBy, i.UseBy, i.Last?.DoneOn, i.Last?.DueOn, i.Tests));
        if (!string.IsNullOrWhiteSpace(Find)) all = all.Where(r => $"{r.Serial} {r.Model} {r.KeptBy} {Words.Of(r.Kind)}".Contains(Find.Trim(), StringComparison.OrdinalIgnoreCase));
        Rows = [.. Sort switch
        {
            "serial" => all.OrderBy(r => r.Serial, StringComparer.OrdinalIgnoreCase),
            "-serial" => all.OrderByDescending(r => r.Serial, StringComparer.OrdinalIgnoreCase),
            "kind" => all.OrderBy(r => r.Kind).ThenBy(r => r.Serial, StringComparer.OrdinalIgnoreCase),
            "-due" => all.OrderByDescending(r => r.DueOn ?? r.UseBy ?? DateOnly.MinValue),
            _ => all.OrderBy(r => r.DueOn ?? r.UseBy ?? DateOnly.MaxValue).ThenBy(r => r.Serial, StringComparer.OrdinalIgnoreCase),
        }];
    }
}
