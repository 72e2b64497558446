using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Tests.Monitor;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Pages.Work;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>One radon test: devices set out, results entered, verdict drawn.</summary>
public sealed class EditModel(OfficeDb db, UnitChoice units, TimeProvider clock) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    [FromQuery(Name = "test")]
    public int? TestId { get; set; }

    /// <summary>Begins a new test with the kits that are out for this house.</summary>
    [FromQuery(Name = "kits")]
    public int WithKits { get; set; }

    [BindProperty]
    public TestForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public TestWindow? Window { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public DateTime FanOnUtc { get; private set; }
    public DateTime? SentAtUtc { get; private set; }
    public IReadOnlyList<string> Monitors { get; private set; } = [];
    private int _systemId;
    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task<IActionResult> OnGetAsync()
    {
        if (await LoadAsync() is { } missing) return missing;
        if (TestId is not null) (Input, Version) = await ReadAsync();
        else Input = await NewAsync();
        AddSpareRows();
        return Page();
    }

    public Task<IActionResult> OnPostAsync() => SaveAsync(judge: false);

    public Task<IActionResult> OnPostJudgeAsync() => SaveAsync(judge: true);

    private async Task<IActionResult> SaveAsync(bool judge)
    {
        if (await LoadAsync() is { } missing) return missing;
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var test = TestId is { } id ? await db.RadonTests.Include(t => t.Devices).SingleAsync(t => t.Id == id) : new RadonTest { HouseId = HouseId, InstalledSystemId = _systemId };
        if (SentAtUtc is not null) read.Refuse("", "The letter of this test has gone out; its results no longer change. Record a new test.");
        Input.Write(test, read, Zone, FanOnUtc, Now);
        foreach (var device in Input.Devices) device.Recall(test);
        if (ModelState.IsValid) await MatchAsync(test, read);
        JudgeHours.Fill(test, FanOnUtc, Zone);
        if (judge && ModelState.IsValid)
            foreach (var refusal in JudgeTest.NotReady(test)) read.Refuse(refusal.Field, refusal.Words);
        if (!ModelState.IsValid) return Again();
        (test.Outcome, test.DecidingPCiL, test.JudgedAtUtc, test.OutcomeWhy) = (TestOutcome.NotJudged, null, null, "");
        if (judge) JudgeTest.Write(test, FanOnUtc, await db.Company.Select(c => c.TargetPCiL).SingleAsync(), Zone, Now);
        if (TestId is null) db.RadonTests.Add(test);
        else db.Expect(test, Version);
        if (TestId is not null) db.Entry(test).Property(t => t.Notes).IsModified = true;
        if (!await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v)) return Again();
        await LinkKits.RunAsync(db, test);
        await PlanReminders.RunAsync(db, Now, HouseId, HttpContext.RequestAborted);
        await SettlePhases.RunAsync(db, Now, HouseId, HttpContext.RequestAborted);
        return RedirectToPage("/Tests/Sheet", null, new { HouseId }, $"test-{test.Id}");
    }

    private async Task MatchAsync(RadonTest test, FormReading read)
    {
        foreach (var refusal in await MatchInstruments.RunAsync(db, test, Zone))
            read.Refuse($"Devices[{Math.Max(0, Input.Devices.FindIndex(d => (d.Serial ?? "").Trim() == refusal.Field))}].{nameof(DeviceForm.CalibratedOn)}", refusal.Words);
    }

    private PageResult Again()
    {
        AddSpareRows();
        return Page();
    }

    private void AddSpareRows()
    {
        for (var i = Input.Devices.Count(d => d.IsEmpty); i < 2; i++) Input.Devices.Add(new() { Kind = Input.Devices.LastOrDefault(d => !d.IsEmpty)?.Kind ?? nameof(DeviceKind.Charcoal) });
    }

    private async Task<(TestForm, int)> ReadAsync()
    {
        var test = await db.RadonTests.AsNoTracking().Include(t => t.Devices).SingleAsync(t => t.Id == TestId);
        return (TestForm.Of(test, Zone, units.System), test.Version);
    }

    /// <summary>A new test: after the work where none was made yet, else a retest; in the rooms of the last one.</summary>
    private async Task<TestForm> NewAsync()
    {
        var company = await db.Company.Select(c => new { c.Name, c.CertificationNumber }).SingleAsync();
        var rooms = await db.Houses.Where(h => h.Id == HouseId).SelectMany(h => h.EarlierTests).Where(t => t.Room != "").OrderByDescending(t => t.Id).Select(t => t.Room).Take(1).ToListAsync();
        var kits = WithKits == 0 ? [] : await db.TestKits.Where(k => k.HouseId == HouseId && k.TestDeviceId == null && k.LostOn == null).OrderBy(k => k.Id).Select(k => new { k.Serial, k.Kind, k.IndependentTester, k.HandedTo, k.TesterNumber }).ToListAsync();
        var first = !await db.RadonTests.AnyAsync(t => t.InstalledSystemId == _systemId && t.Outcome != TestOutcome.NotValid && t.JudgedAtUtc != null);
        if (kits.Count > 0)
        {
            var tester = kits.Find(k => k.IndependentTester);
            return new()
            {
                Reason = (first ? TestReason.PostMitigation : TestReason.Retest).ToString(), MadeBy = tester?.HandedTo ?? company.Name, MadeByNumber = tester?.TesterNumber ?? company.CertificationNumber,
                Devices = kits.ConvertAll(k => new DeviceForm { Room = rooms.FirstOrDefault(""), Serial = k.Serial, Kind = k.Kind.ToString() }),
            };
        }

        return new() { Reason = (first ? TestReason.PostMitigation : TestReason.Retest).ToString(), MadeBy = company.Name, MadeByNumber = company.CertificationNumber, Devices = rooms.ConvertAll(r => new DeviceForm { Room = r, Kind = nameof(DeviceKind.Charcoal) }) };
    }

    private async Task<IActionResult?> LoadAsync()
    {
        var head = await HouseHead.LoadAsync(db, HouseId, shown: 6);
        if (head is null) return NotFound();
        var test = TestId is null ? null : await db.RadonTests.Where(t => t.Id == TestId && t.HouseId == HouseId).Select(t => new { t.InstalledSystemId, t.ClosedHouseFromUtc, t.LetterSentAtUtc }).FirstOrDefaultAsync();
        if (TestId is not null && test is null) return NotFound();
        var system = await db.Systems.Where(s => s.HouseId == HouseId && (test == null || test.InstalledSystemId == null || s.Id == test.InstalledSystemId)).OrderByDescending(s => s.ActivatedAtUtc).Select(s => new { s.Id, s.ActivatedAtUtc }).FirstOrDefaultAsync();
        if (system is null) return NotFound();
        Zone = await HouseZone.OfAsync(db, HouseId);
        (_systemId, FanOnUtc, SentAtUtc) = (system.Id, system.ActivatedAtUtc, test?.LetterSentAtUtc);
        Window = JudgeTest.Window(system.ActivatedAtUtc, test?.ClosedHouseFromUtc, Zone);
        Monitors = await db.Instruments.Where(i => i.Kind == InstrumentKind.ContinuousMonitor && !i.Retired).OrderBy(i => i.Serial).Select(i => i.Serial).ToListAsync();
        ViewData["House"] = head;
        return null;
    }
}
