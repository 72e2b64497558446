using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quality;
using MitigationOffice.Engineering.Radon;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;
using MitigationOffice.Web.Setup.Lists;
using DeviceKind = MitigationOffice.Business.Tests.DeviceKind;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>Quality of measurement: control charts, checks owed and done, what was done about each point outside.</summary>
[Authorize(SignInSetup.OfficeWork)]
public sealed class QualityModel(OfficeDb db, Actor actor, TimeProvider clock) : PageModel
{
    /// <summary>One line of the table of checks owed and done.</summary>
    public sealed record Owed(string Period, DeviceKind Kind, MonthOfTests Tests, QualityChecks Needed, int Pairs, int Blanks, int Spikes, int Comparisons)
    {
        public bool IsOwed => Pairs < Needed.Duplicates || Blanks < Needed.Blanks || Spikes < Needed.Spikes || Comparisons < Needed.MonitorComparisons;
    }

    [BindProperty(SupportsGet = true)]
    public string By { get; set; } = "month";

    public QualityRecord Record { get; private set; } = null!;
    public IReadOnlyList<Owed> Table { get; private set; } = [];
    public OwnPairLimits? Own { get; private set; }
    public string? RefusedPoint { get; private set; }
    public DateOnly Today { get; private set; }

    public Task OnGetAsync() => LoadAsync();

    public async Task<IActionResult> OnGetCsvAsync()
    {
        await LoadAsync();
        return CsvAnswer.Of("quality.csv", ["Check", "Day", "Where", "Serials", "Kind", "First pCi/L", "Second, known or limit pCi/L", "Percent or difference", "Standing", "Done about it"],
        [
            .. Record.Pairs.Select(p => (IReadOnlyList<string>)["Pair", TypedNumbers.Plain(p.Day), p.Where, p.Serials, Words.Of(p.Kind), TypedNumbers.Plain(p.First), TypedNumbers.Plain(p.Second), Shown(p), Of(p.Zone), Done(p.Key)]),
            .. Record.Spikes.Select(s => (IReadOnlyList<string>)["Spike", TypedNumbers.Plain(s.Day), "", s.Serial, Words.Of(s.Kind), TypedNumbers.Plain(s.Measured), TypedNumbers.Plain(s.Reference), Percent(s.Finding.RelativePercentError), Of(s.Finding.Zone), Done(s.Key)]),
            .. Record.Blanks.Select(b => (IReadOnlyList<string>)["Blank", TypedNumbers.Plain(b.Day), "", b.Serial, Words.Of(b.Kind), TypedNumbers.Plain(b.Shown), TypedNumbers.Plain(b.Limit), "", b.NeedsAttention ? "to look into" : "within", Done(b.Key)]),
        ]);
    }

    public async Task<IActionResult> OnPostDoneAsync(string? point, string? words)
    {
        var said = (words ?? "").Trim();
        if (point is not { Length: > 0 and <= 60 }) return NotFound();
        if (said.Length is 0 or > 1000)
        {
            RefusedPoint = point;
            await LoadAsync();
            return Page();
        }

        var action = await db.QualityActions.FirstOrDefaultAsync(a => a.Point == point);
        if (action is null) db.QualityActions.Add(action = new QualityAction { Point = point, Words = said });
        (action.Words, action.AtUtc, action.By) = (said, clock.GetUtcNow().UtcDateTime, actor.Name);
        await db.SaveChangesAsync();
        return RedirectToPage(null, null, new { By }, "outside");
    }

    public static string Of(ControlZone zone) => zone switch { ControlZone.Within => "within", ControlZone.Warning => "warning", _ => "out of control" };

    public static string Percent(decimal value) => Math.Round(value, 1, MidpointRounding.AwayFromZero).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture) + " %";

    public static string Shown(PairPoint p) => p.Finding.RelativePercentDifference is { } percent ? Percent(percent) : $"{TypedNumbers.Plain(p.Finding.DifferencePciPerL)} pCi/L";

    public string Done(string key) => Record.Actions.TryGetValue(key, out var action) ? action.Words : "";

    private async Task LoadAsync()
    {
        var zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, zone);
        var first = new DateOnly(Today.Year, Today.Month, 1).AddMonths(-11);
        Record = await QualityRecord.ReadAsync(db, first.AddYears(-2), zone);
        Own = ControlChart.OwnLimits(Record.Pairs.Select(p => new DuplicatePair(p.Day, RadonConcentration.FromPciPerL(p.First), RadonConcentration.FromPciPerL(p.Second))));
        var kinds = Record.Months.Where(m => m.Month >= first).Select(m => m.Kind).Distinct().Order().ToList();
        Table = [.. kinds.SelectMany(k => Rows(k, first)), .. kinds.Select(k => Row("Twelve months", Record.Of(k, first, 12), QualityChecksOwed.ForYear))];
    }

    private IEnumerable<Owed> Rows(DeviceKind kind, DateOnly first)
    {
        if (By == "quarter")
        {
            var start = new DateOnly(Today.Year, (Today.Month - 1) / 3 * 3 + 1, 1).AddMonths(-9);
            return Enumerable.Range(0, 4).Select(q => start.AddMonths(3 * q)).Select(q => Row($"Quarter {(q.Month - 1) / 3 + 1}, {q.Year}", Record.Of(kind, q, 3), QualityChecksOwed.ForMonths)).Where(r => HasAny(r));
        }

        return Record.Of(kind, first, 12).Select(m => Row(m.Month.ToString("MMMM yyyy", System.Globalization.CultureInfo.InvariantCulture), [m], QualityChecksOwed.ForMonths)).Where(r => HasAny(r));
    }

    private static bool HasAny(Owed row) => row.Tests.Devices + row.Tests.MonitorTests + row.Pairs + row.Blanks + row.Spikes + row.Comparisons > 0;

    private static Owed Row(string period, IReadOnlyList<MonthOfKind> months, Func<IReadOnlyList<MonthOfTests>, QualityChecks> owed) => new(
        period, months[0].Kind, new(months.Sum(m => m.Tests.Locations), months.Sum(m => m.Tests.Devices), months.Sum(m => m.Tests.MonitorTests)), owed([.. months.Select(m => m.Tests)]),
        months.Sum(m => m.Pairs), months.Sum(m => m.Blanks), months.Sum(m => m.Spikes), months.Sum(m => m.Comparisons));
}
