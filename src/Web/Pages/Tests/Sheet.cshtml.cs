using System.Security.Claims;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Pages.Work;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>Sheet 6: the window, the tests with their verdicts, and the letters.</summary>
public sealed class SheetModel(OfficeDb db, TimeProvider clock, MailSettings mail, IAuthorizationService may) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    public IReadOnlyList<TestView> Tests { get; private set; } = [];
    public DateTime? FanOnUtc { get; private set; }
    public bool LeftRunning { get; private set; }

    /// <summary>What the suction at the holes was read with when the system was started.</summary>
    public ReadWith? HolesReadWith { get; private set; }
    public TestWindow? Window { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public string? Email { get; private set; }
    public int KitsOut { get; private set; }
    public string Street { get; private set; } = "";
    public bool MaySend { get; private set; }

    /// <summary>The newest test that counts says: diagnose, correct and test again.</summary>
    public TestView? ToCorrect => Tests.FirstOrDefault(t => t.Test.JudgedAtUtc is not null && t.Test.Outcome != TestOutcome.NotValid) is { Test.Outcome: TestOutcome.NotPassed } last ? last : null;

    public async Task<IActionResult> OnGetAsync() => await LoadAsync() ? Page() : NotFound();

    public Task<IActionResult> OnPostSendAsync(int testId) => SendAsync(testId, byMail: true);

    public Task<IActionResult> OnPostHandedAsync(int testId) => SendAsync(testId, byMail: false);

    /// <summary>The letter as it would go out, before it does.</summary>
    public async Task<IActionResult> OnGetLetterAsync(int testId)
    {
        if (!await LoadAsync() || Tests.FirstOrDefault(t => t.Test.Id == testId) is not { Verdict: { } verdict } view) return NotFound();
        var facts = await SendResult.GatherAsync(db, view.Test, verdict, Zone, clock.GetUtcNow().UtcDateTime);
        return File(ResultLetter.Make(facts), SendResult.PdfType);
    }

    private async Task<IActionResult> SendAsync(int testId, bool byMail)
    {
        if (!(await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded) return Forbid();
        if (!await db.RadonTests.AnyAsync(t => t.Id == testId && t.HouseId == HouseId)) return NotFound();
        var from = byMail ? Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), mail) : null;
        var zone = await HouseZone.OfAsync(db, HouseId);
        var refusals = await SendResult.RunAsync(db, testId, from, zone, clock.GetUtcNow().UtcDateTime, User.FindFirstValue(ClaimTypes.GivenName) ?? "?");
        if (refusals.Count == 0) return RedirectToPage("/Tests/Sheet", null, new { HouseId }, $"test-{testId}");
        foreach (var refusal in refusals) ModelState.AddModelError(refusal.Field, refusal.Words);
        db.ChangeTracker.Clear();
        return await LoadAsync() ? Page() : NotFound();
    }

    private async Task<bool> LoadAsync()
    {
        var head = await HouseHead.LoadAsync(db, HouseId, shown: 6);
        if (head is null) return false;
        Zone = await HouseZone.OfAsync(db, HouseId);
        Tests = await TestView.OfHouseAsync(db, HouseId, Zone);
        var system = await db.Systems.Where(s => s.HouseId == HouseId).OrderByDescending(s => s.ActivatedAtUtc).Select(s => new { s.ActivatedAtUtc, s.LeftRunning, s.Instrument, s.InstrumentId, s.CompletedOn }).FirstOrDefaultAsync();
        (FanOnUtc, LeftRunning) = (system?.ActivatedAtUtc, system?.LeftRunning ?? false);
        if (system is { Instrument.Length: > 0 }) HolesReadWith = ReadWith.Of(await ReadWith.InstrumentsAsync(db), system.InstrumentId, system.Instrument, system.CompletedOn);
        if (system is not null) Window = JudgeTest.Window(system.ActivatedAtUtc, null, Zone);
        Email = await db.HouseOwners.Where(o => o.HouseId == HouseId && o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!.Email).FirstOrDefaultAsync();
        (KitsOut, Street) = (await db.TestKits.CountAsync(k => k.HouseId == HouseId && k.TestDeviceId == null && k.LostOn == null), head.Address.Split(',')[0]);
        MaySend = (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
        var newest = Tests.Count == 0 ? null : Tests[0].Test;
        ViewData["House"] = head with { Date = newest is null ? "–" : HouseTime.Show(HouseTime.DayOf(newest.EndedAtUtc ?? newest.StartedAtUtc, Zone)) };
        return true;
    }
}
