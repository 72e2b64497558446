using System.Security.Cryptography;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Tests.Monitor;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Pages.Work;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>A continuous monitor's file: stored as it came, looked at, and only then kept as the hours of a test.</summary>
[RequestSizeLimit(LargestRequest)]
[RequestFormLimits(MultipartBodyLengthLimit = LargestRequest)]
public sealed class MonitorModel(OfficeDb db, Actor actor, TimeProvider clock) : PageModel
{
    private const int LargestRequest = 4 * ReceivedFile.MostBytes;

    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty(SupportsGet = true, Name = "device")]
    public int? DeviceId { get; set; }

    [BindProperty(SupportsGet = true, Name = "file")]
    public int? FileId { get; set; }

    [BindProperty(SupportsGet = true)]
    public HabitForm Input { get; set; } = new();

    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public IReadOnlyList<RadonTest> Tests { get; private set; } = [];
    public RadonTest? Test { get; private set; }
    public TestDevice? Device { get; private set; }
    public Instrument? Instrument { get; private set; }
    public DateTime FanOnUtc { get; private set; }
    public string FileName { get; private set; } = "";
    public string Sha256 { get; private set; } = "";
    public MonitorTable? Table { get; private set; }
    public FileReading? Reading { get; private set; }
    public HoursFinding? Finding { get; private set; }
    public string? Unreadable { get; private set; }
    public int? ElsewhereHouse { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        if (FileId is not null && (Device is null || !await LookAsync())) return NotFound();
        return Page();
    }

    public async Task<IActionResult> OnPostUploadAsync(IFormFile? upload)
    {
        if (!await LoadAsync() || Device is null) return NotFound();
        FileId = null;
        if (upload is null) ModelState.AddModelError("upload", "Choose the monitor’s file first.");
        else if (upload.Length > ReceivedFile.MostBytes) ModelState.AddModelError("upload", $"This file is {ReceivedFile.Size(upload.Length)}; the office takes files up to {ReceivedFile.Size(ReceivedFile.MostBytes)}. Read out only the days of this test.");
        if (!ModelState.IsValid) return Page();
        using var copy = new MemoryStream();
        await upload!.CopyToAsync(copy);
        var (text, problem) = MonitorTable.TextOf(copy.ToArray());
        if (text is not null) (_, problem) = MonitorTable.Of(text);
        if (problem is not null) ModelState.AddModelError("upload", problem);
        if (problem is not null) return Page();
        return RedirectToPage(new { HouseId, device = DeviceId, file = await StoreAsync(copy.ToArray(), upload.FileName) });
    }

    public async Task<IActionResult> OnPostKeepAsync()
    {
        if (!await LoadAsync() || Device is null || !await LookAsync()) return NotFound();
        if (Reading is null || Table is null) return Page();
        var kept = new KeepMonitorFile.Kept(Device.Id, FileId!.Value, Input.Habit(Table.Separator), Reading, Input.GapsSaid, actor.Name);
        foreach (var refusal in await KeepMonitorFile.RunAsync(db, kept, FanOnUtc, Zone, clock.GetUtcNow().UtcDateTime)) ModelState.AddModelError(refusal.Field.Length == 0 ? "" : $"Input.{refusal.Field}", refusal.Words);
        return ModelState.IsValid ? RedirectToPage("/Tests/Hours", new { HouseId, device = DeviceId }) : Page();
    }

    /// <summary>The same bytes are stored once for a house.</summary>
    private async Task<int> StoreAsync(byte[] bytes, string name)
    {
        var sha = Convert.ToHexStringLower(SHA256.HashData(bytes));
        var stored = await db.Documents.Where(d => d.HouseId == HouseId && d.Sha256 == sha && d.Kind == PaperKind.MonitorFile).Select(d => (int?)d.Id).FirstOrDefaultAsync();
        if (stored is { } id) return id;
        var ending = Path.GetExtension(name).ToLowerInvariant() is ".txt" or ".csv" ? Path.GetExtension(name).ToLowerInvariant() : ".csv";
        var document = StoredDocument.Of(
            bytes, PaperKind.MonitorFile, $"Readings of {(Device!.Serial.Length == 0 ? "a monitor" : Device.Serial)}, as they came", ReceivedFile.SafeName(name, ending), ending == ".txt" ? "text/plain" : "text/csv", HouseId, clock.GetUtcNow().UtcDateTime, actor.Name);
        db.Documents.Add(document);
        await db.SaveChangesAsync();
        return document.Id;
    }

    private async Task<bool> LookAsync()
    {
        var file = await db.Documents.AsNoTracking().Where(d => d.Id == FileId && d.HouseId == HouseId && d.Kind == PaperKind.MonitorFile).Select(d => new { d.Bytes, d.FileName, d.Sha256 }).FirstOrDefaultAsync();
        if (file is null) return false;
        (FileName, Sha256) = (file.FileName, file.Sha256);
        ElsewhereHouse = await db.Documents.Where(d => d.Sha256 == file.Sha256 && d.HouseId != HouseId && d.Kind == PaperKind.MonitorFile).Select(d => d.HouseId).FirstOrDefaultAsync();
        var (text, problem) = MonitorTable.TextOf(file.Bytes);
        if (text is not null) (Table, problem) = MonitorTable.Of(text);
        Unreadable = problem;
        if (Table is null) return true;
        if (!Input.IsChosen) Input = HabitForm.Of(GuessHabit.Of(Table, Remembered()));
        var habit = Input.Habit(Table.Separator);
        Reading = ReadMonitorFile.Of(Table, habit, Zone, Device!.Serial);
        if (Reading.Hours is { } hours) Finding = JudgeHours.Of(hours, Test!, Input.GapsSaid, habit.DropFirstHours, habit.DeviceCorrectsStart, FanOnUtc, Zone);
        return true;
    }

    private FileHabit? Remembered() => FileHabit.Read(Device!.Monitor?.Habit ?? "") ?? FileHabit.Read(Instrument?.FileHabit ?? "");

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 6) is not { } head) return false;
        ViewData["House"] = head;
        Zone = await HouseZone.OfAsync(db, HouseId);
        Tests = await db.RadonTests.AsNoTracking().Include(t => t.Devices).Where(t => t.HouseId == HouseId).OrderByDescending(t => t.StartedAtUtc).ToListAsync();
        if (DeviceId is null) return true;
        Test = Tests.FirstOrDefault(t => t.Devices.Exists(d => d.Id == DeviceId));
        Device = Test?.Devices.Find(d => d.Id == DeviceId);
        if (Test is null || await SendResult.FanOnAsync(db, Test) is not { } fanOn) return false;
        FanOnUtc = fanOn;
        var key = Business.Shop.Instrument.KeyOf(Device!.Serial);
        Instrument = await db.Instruments.AsNoTracking().FirstOrDefaultAsync(i => i.Kind == InstrumentKind.ContinuousMonitor && i.SerialKey == key);
        return true;
    }
}
