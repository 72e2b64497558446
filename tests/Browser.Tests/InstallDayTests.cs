using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Browser.Tests;

/// <summary>An installation on a tablet that loses its signal in the middle of the day: nothing is lost, nothing is there twice.</summary>
public sealed class InstallDayTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    [BrowserFact]
    public async Task A_day_with_the_signal_gone_in_the_middle_ends_with_everything_once()
    {
        var house = await office.HouseWithAcceptedOfferAsync();
        var jobId = await office.WithDbAsync(db => OpenJob.RunAsync(db, house.AcceptanceId, office.Clock)) ?? 0;
        var window = await office.OpenAsync(800, 1100);
        await BrowserOffice.SignInAsync(window);
        var (page, sheet) = (window.Page, $"/houses/{house.HouseId}/work?job={jobId}");
        await window.GoAsync(sheet);
        foreach (var step in (await page.Locator(".big-tick input").AllAsync()).Take(3)) await step.CheckAsync();
        await window.PressAsync("Save the checklist");
        Assert.Equal(3, (await office.JobAsync(jobId)).Steps.Count(s => s.DoneAtUtc is not null));
        await BuildWithoutASignalAsync(window, $"/houses/{house.HouseId}/work/as-built?job={jobId}", await office.AsBuiltTypedAsync("TB-1"), house.HouseId, jobId);
        await UseWithoutASignalAsync(window, $"/houses/{house.HouseId}/work/materials?job={jobId}", jobId);
        await SignWithoutASignalAsync(window, $"/houses/{house.HouseId}/work/hand-over?job={jobId}");
        var kept = await office.WithDbAsync(async db => (
            Systems: await db.Systems.CountAsync(s => s.JobId == jobId), Suctions: await db.Systems.Where(s => s.JobId == jobId).SelectMany(s => s.FinalSuctions).CountAsync(),
            Used: await db.MaterialUses.Where(m => m.JobId == jobId).ToListAsync(), HandOvers: await db.HandOvers.Where(h => db.Systems.Any(s => s.Id == h.InstalledSystemId && s.JobId == jobId)).ToListAsync()));
        Assert.Equal((1, 2), (kept.Systems, kept.Suctions));
        Assert.Equal("Sealant", Assert.Single(kept.Used).What);
        var handOver = Assert.Single(kept.HandOvers);
        Assert.Equal("Ines Tarn", handOver.TypedName);
        Assert.Contains(",", handOver.Strokes, StringComparison.Ordinal);
        Assert.DoesNotContain(window.Complaints, c => !c.Contains("INTERNET_DISCONNECTED", StringComparison.Ordinal));
    }

    [BrowserFact]
    public async Task Steps_ticked_and_photos_taken_without_a_signal_arrive_once()
    {
        var house = await office.HouseWithAcceptedOfferAsync();
        var jobId = await office.WithDbAsync(db => OpenJob.RunAsync(db, house.AcceptanceId, office.Clock)) ?? 0;
        var window = await office.OpenAsync(800, 1100);
        await BrowserOffice.SignInAsync(window);
        var (page, sheet, photos) = (window.Page, $"/houses/{house.HouseId}/work?job={jobId}", $"/houses/{house.HouseId}/work/photos?job={jobId}");
        await ReadyAsync(window, sheet);
        await page.Context.SetOfflineAsync(true);
        foreach (var step in (await page.Locator(".big-tick input").AllAsync()).Take(3)) await step.CheckAsync();
        await window.FillAsync(("Notes", "Dry slab, easy coring"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the checklist" }).ClickAsync();
        await WaitingAsync(window);
        await page.ReloadAsync();
        await WaitingAsync(window);
        Assert.Equal(3, await page.Locator(".big-tick input:checked").CountAsync());
        await BackAsync(window, $"**/work?job={jobId}*", "until the office has it");
        var job = await office.JobAsync(jobId);
        Assert.Equal((3, "Dry slab, easy coring"), (job.Steps.Count(s => s.DoneAtUtc is not null), job.Notes));

        await ReadyAsync(window, photos);
        await page.Context.SetOfflineAsync(true);
        await page.Locator("#Upload").SetInputFilesAsync(new FilePayload[] { new() { Name = "one.jpg", MimeType = "image/jpeg", Buffer = Scan.Of(1200, 900) }, new() { Name = "two.png", MimeType = "image/png", Buffer = Scan.Of(700, 900) } });
        await window.FillAsync(("Input.Caption", "Pit and fan"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the photos" }).ClickAsync();
        await WaitingAsync(window);
        Assert.Equal(2, await page.Locator("#Upload").EvaluateAsync<int>("e => e.files.length"));
        await BackAsync(window, $"**/work/photos?job={jobId}*", "until the office has it");
        await page.Locator(".photos figure").Nth(1).WaitForAsync();
        Assert.Equal(["Pit and fan", "Pit and fan"], await office.WithDbAsync(db => db.JobPhotos.Where(p => p.JobId == jobId).Select(p => p.Caption).ToListAsync()));
        Assert.Equal(0, await page.Locator("#Upload").EvaluateAsync<int>("e => e.files.length"));
        Assert.True(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"));
        Assert.DoesNotContain(window.Complaints, c => !c.Contains("INTERNET_DISCONNECTED", StringComparison.Ordinal));
    }

    [BrowserFact]
    public async Task An_appliance_that_spills_stops_leave_running_on_the_kept_sheet_without_a_signal()
    {
        var house = await office.HouseWithAcceptedOfferAsync(h => h.Appliances.Add(new Appliance { Name = "Water heater", Draft = Draft.Natural }));
        var jobId = await office.WithDbAsync(db => OpenJob.RunAsync(db, house.AcceptanceId, office.Clock)) ?? 0;
        var window = await office.OpenAsync(800, 1100);
        await BrowserOffice.SignInAsync(window);
        var (page, typed) = (window.Page, await office.AsBuiltTypedAsync("TB-2"));
        await ReadyAsync(window, $"/houses/{house.HouseId}/work/as-built?job={jobId}");
        await page.Context.SetOfflineAsync(true);
        await page.ReloadAsync();
        foreach (var (name, value) in typed) await window.FillAsync((name, value));
        var running = page.Locator("#Input_LeftRunning");
        Assert.True(await running.IsCheckedAsync());
        Assert.False(await page.Locator(".when-spills").IsVisibleAsync());
        await window.FillAsync(("Input.Drafts[0].Result", "Spills"), ("Input.Drafts[0].Minutes", "8"), ("Input.BackdraftNotes", "Owner keeps it off"));
        Assert.False(await running.IsCheckedAsync());
        Assert.Contains("Switch the system off at its breaker", await page.Locator(".when-spills").InnerTextAsync(), StringComparison.Ordinal);
        await page.GetByRole(AriaRole.Button, new() { Name = "Record what was built" }).ClickAsync();
        await WaitingAsync(window);
        await BackAsync(window, $"**/houses/{house.HouseId}/work?job={jobId}*");
        var system = await office.WithDbAsync(db => db.Systems.AsNoTracking().Include(s => s.DraftChecks).SingleAsync(s => s.JobId == jobId));
        Assert.Equal((BackdraftCheck.Failed, false, 8m), (system.Backdraft, system.LeftRunning, Assert.Single(system.DraftChecks).SpilledMinutes!.Value));
    }

    private async Task BuildWithoutASignalAsync(BrowserWindow window, string sheet, Dictionary<string, string> typed, int houseId, int jobId)
    {
        await ReadyAsync(window, sheet);
        await window.Page.Context.SetOfflineAsync(true);
        foreach (var (name, value) in typed) await window.FillAsync((name, value));
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Record what was built" }).ClickAsync();
        await WaitingAsync(window);
        Assert.False(await office.WithDbAsync(db => db.Systems.AnyAsync(s => s.JobId == jobId)));
        await window.Page.ReloadAsync();
        await WaitingAsync(window);
        Assert.Equal("HX-77", await window.Page.Locator("[name='Input.FanSerial']").InputValueAsync());
        await BackAsync(window, $"**/houses/{houseId}/work?job={jobId}*");
    }

    private static async Task UseWithoutASignalAsync(BrowserWindow window, string sheet, int jobId)
    {
        await ReadyAsync(window, sheet);
        await window.Page.Context.SetOfflineAsync(true);
        await window.FillAsync(("Rows[0].What", "Sealant"), ("Rows[0].Used", "2"));
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Save the list" }).ClickAsync();
        await WaitingAsync(window);
        await BackAsync(window, $"**/work/materials?job={jobId}*", "until the office has it");
    }

    private static async Task SignWithoutASignalAsync(BrowserWindow window, string sheet)
    {
        await ReadyAsync(window, sheet);
        await window.Page.Context.SetOfflineAsync(true);
        foreach (var box in await window.Page.Locator("[name='Input.Shown']").AllAsync()) await box.CheckAsync();
        await window.Page.Locator("[name='Input.Inspection'][value=Agrees]").CheckAsync();
        await window.FillAsync(("Input.TypedName", "Ines Tarn"));
        await DrawAsync(window.Page);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Sign and hand over" }).ClickAsync();
        await WaitingAsync(window);
        await BackAsync(window, "**/work?job=*");
    }

    private static async Task DrawAsync(IPage page)
    {
        var pad = page.Locator("canvas.pad");
        await pad.ScrollIntoViewIfNeededAsync();
        var box = (await pad.BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(box.X + 20, box.Y + 40);
        await page.Mouse.DownAsync();
        foreach (var (x, y) in new[] { (60, 20), (90, 70), (140, 30) }) await page.Mouse.MoveAsync(box.X + x, box.Y + y);
        await page.Mouse.UpAsync();
    }

    /// <summary>Opens the sheet once with a signal and waits until the device holds it.</summary>
    private static async Task ReadyAsync(BrowserWindow window, string sheet)
    {
        await window.GoAsync(sheet);
        await window.KeptReadyAsync();
    }

    private static Task WaitingAsync(BrowserWindow window) => window.Page.Locator(".kept").Filter(new() { HasText = "Not sent: no connection" }).WaitForAsync();

    private static async Task BackAsync(BrowserWindow window, string leadsTo, string? says = null)
    {
        await window.OnlineAsync();
        await window.Page.WaitForURLAsync(leadsTo);
        if (says is not null) await window.Page.Locator(".kept").Filter(new() { HasText = says }).WaitForAsync();
    }
}
