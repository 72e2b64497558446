using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Tests.Monitor;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Pages.Work;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>The kept hours of a monitor: chart, what counts and why not, the file as it came.</summary>
public sealed class HoursModel(OfficeDb db) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty(SupportsGet = true, Name = "device")]
    public int? DeviceId { get; set; }

    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public RadonTest? Test { get; private set; }
    public TestDevice? Device { get; private set; }
    public HoursFinding? Finding { get; private set; }
    public FileHabit? Habit { get; private set; }
    public string FileName { get; private set; } = "";
    public string Sha256 { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync() => await LoadAsync() ? Page() : NotFound();

    public async Task<IActionResult> OnGetCsvAsync()
    {
        if (!await LoadAsync() || Finding is null) return NotFound();
        return CsvAnswer.Of("hours.csv", ["Hour from, house", "Hour from, UTC", "pCi/L", "Bq/m3", "Counts", "Why not"], Finding.Hours.Select(h => (IReadOnlyList<string>)
            [Local(h.FromUtc), h.FromUtc.ToString("yyyy-MM-ddTHH:mmZ", CultureInfo.InvariantCulture), TypedNumbers.Plain(h.PCiL), TypedNumbers.Plain(h.PCiL * 37m), h.Counts ? "yes" : "no", h.Why]));
    }

    /// <summary>The clock time at the house with its distance from UTC, so that the hour that comes twice is told apart.</summary>
    public string Local(DateTime utc) => TimeZoneInfo.ConvertTime(new DateTimeOffset(DateTime.SpecifyKind(utc, DateTimeKind.Utc)), Zone).ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture);

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 6) is not { } head) return false;
        ViewData["House"] = head;
        Zone = await HouseZone.OfAsync(db, HouseId);
        var tests = db.RadonTests.AsNoTracking().Include(t => t.Devices).Where(t => t.HouseId == HouseId);
        Test = DeviceId is null
            ? await tests.Where(t => t.Devices.Any(d => d.Monitor != null)).OrderByDescending(t => t.StartedAtUtc).FirstOrDefaultAsync()
            : await tests.FirstOrDefaultAsync(t => t.Devices.Any(d => d.Id == DeviceId));
        Device = Test?.Devices.Find(d => DeviceId is null ? d.Monitor is not null : d.Id == DeviceId);
        if (Device?.Monitor is not { } record) return DeviceId is null || Device is not null;
        if (await SendResult.FanOnAsync(db, Test!) is not { } fanOn) return false;
        Finding = JudgeHours.Of(record, Test!, fanOn, Zone);
        Habit = FileHabit.Read(record.Habit);
        var file = await db.Documents.Where(d => d.Id == record.StoredDocumentId).Select(d => new { d.FileName, d.Sha256 }).FirstOrDefaultAsync();
        (FileName, Sha256) = (file?.FileName ?? "", file?.Sha256 ?? "");
        return true;
    }
}
