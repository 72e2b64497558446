using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Web.Tests;

namespace MitigationOffice.Browser.Tests;

/// <summary>Readings taken in a basement without a signal: kept on the tablet, sent once when it is back.</summary>
public sealed class KeptSheetTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    private static readonly (string Name, string Value)[] Readings =
    [
        ("Input.Day", "11/20/2026"), ("Input.Outdoor", "20"), ("Input.Indoor", "68"),
        ("Input.Settings[0].Label", "vacuum, full"), ("Input.Settings[0].PitVacuum", "2.1"), ("Input.Settings[0].Flow", "38"),
        ("Input.Holes[0].Label", "1"), ("Input.Holes[0].Distance", "8 ft"), ("Input.Holes[0].FanOff", "0.4"), ("Input.Holes[0].On[0]", "-31"),
        ("Input.Holes[1].Label", "2"), ("Input.Holes[1].Distance", "19 ft"), ("Input.Holes[1].FanOff", "0.5"), ("Input.Holes[1].On[0]", "-12"),
        ("Input.Holes[2].Label", "3"), ("Input.Holes[2].Distance", "30 ft"), ("Input.Holes[2].FanOff", "0.6"), ("Input.Holes[2].On[0]", "-4.4"),
    ];

    [BrowserFact]
    public async Task Readings_typed_without_a_signal_survive_a_dead_battery_and_arrive_once()
    {
        var house = await AHouseAsync();
        var sheet = $"/houses/{house}/diagnosis/readings";
        var profile = Directory.CreateTempSubdirectory("tablet").FullName;
        try
        {
            await FillWithoutASignalAndDieAsync(profile, sheet);
            Assert.Equal(0, await office.WithDbAsync(db => db.Set<PressureFieldTest>().CountAsync(t => t.HouseId == house)));
            await using (var tablet = await office.TabletAsync(profile))
            {
                var window = new BrowserWindow(tablet.Pages[0]);
                await tablet.SetOfflineAsync(true);
                await window.GoAsync(sheet);
                await window.Page.Locator(".kept").Filter(new() { HasText = "Not sent: no connection" }).WaitForAsync();
                Assert.Equal("-4.4", await window.Page.Locator("[name='Input.Holes[2].On[0]']").InputValueAsync());
                await window.OnlineAsync();
                await window.Page.GetByRole(AriaRole.Link, new() { Name = "Sign in" }).ClickAsync();
                await window.FillAsync(("Input.Email", "owner@lanternridge.example"), ("Input.Password", OfficeApp.Password));
                await window.Page.Locator("main").GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
                await window.Page.WaitForURLAsync("**/diagnosis?test=*");
                await window.SeesAsync("−31");
                await window.GoAsync(sheet);
                await window.Page.Locator(".kept").Filter(new() { HasText = "until the office has it" }).WaitForAsync();
                Assert.Equal("", await window.Page.Locator("[name='Input.Holes[2].On[0]']").InputValueAsync());
            }

            var tests = await office.WithDbAsync(db => db.Set<PressureFieldTest>().Include(t => t.TestHoles).Where(t => t.HouseId == house).ToListAsync());
            var test = Assert.Single(tests);
            Assert.Equal(["1", "2", "3"], test.TestHoles.OrderBy(h => h.Label).Select(h => h.Label));
        }
        finally
        {
            Directory.Delete(profile, recursive: true);
        }
    }

    [BrowserFact]
    public async Task Enter_goes_down_the_readings_and_more_rows_come_without_a_signal()
    {
        var house = await AHouseAsync();
        var window = await office.OwnerAtAsync();
        await window.GoAsync($"/houses/{house}/diagnosis/readings");
        var page = window.Page;
        await page.Locator("[name='Input.Holes[0].FanOff']").PressAsync("Enter");
        Assert.Equal("Input.Holes[1].FanOff", await page.EvaluateAsync<string>("document.activeElement.name"));
        var rows = await page.Locator("[name^='Input.Holes'][name$='.Label']").CountAsync();
        await page.Locator($"[name='Input.Holes[{rows - 1}].FanOff']").PressAsync("Enter");
        Assert.Equal("Input.Holes[0].On[0]", await page.EvaluateAsync<string>("document.activeElement.name"));
        await page.Context.SetOfflineAsync(true);
        await page.GetByRole(AriaRole.Button, new() { Name = "More holes" }).ClickAsync();
        Assert.Equal(rows + 1, await page.Locator("[name^='Input.Holes'][name$='.Label']").CountAsync());
        await page.Context.SetOfflineAsync(false);
        Assert.DoesNotContain(window.Complaints, c => !c.Contains("INTERNET_DISCONNECTED", StringComparison.Ordinal));
    }

    /// <summary>A tablet whose database answers late: the first words typed go before what was kept, and the rest of it comes back.</summary>
    [BrowserFact]
    public async Task Typing_before_the_device_has_answered_loses_nothing()
    {
        var house = await AHouseAsync();
        var window = await office.OwnerAtAsync();
        var (page, kept) = (window.Page, window.Page.Locator("[role=status].kept"));
        await window.GoAsync($"/houses/{house}/diagnosis/readings");
        await kept.Filter(new() { HasText = "opens without a connection too" }).WaitForAsync();
        await window.FillAsync(("Input.Outdoor", "20"), ("Input.Indoor", "68"));
        await kept.Filter(new() { HasText = "Kept on this device" }).WaitForAsync();
        await page.AddInitScriptAsync("""
            const open = IDBFactory.prototype.open;
            IDBFactory.prototype.open = function (...wanted) {
              const late = {};
              setTimeout(() => { const real = open.apply(this, wanted); real.onsuccess = () => { late.result = real.result; late.onsuccess(); }; }, 1500);
              return late;
            };
            """);
        await page.ReloadAsync();
        await window.FillAsync(("Input.Indoor", "66"));
        await kept.Filter(new() { HasText = "Kept on this device" }).WaitForAsync();
        Assert.Equal(("20", "66"), (await page.Locator("[name='Input.Outdoor']").InputValueAsync(), await page.Locator("[name='Input.Indoor']").InputValueAsync()));
        await page.ReloadAsync();
        await kept.Filter(new() { HasText = "is back" }).WaitForAsync();
        Assert.Equal(("20", "66"), (await page.Locator("[name='Input.Outdoor']").InputValueAsync(), await page.Locator("[name='Input.Indoor']").InputValueAsync()));
    }

    private async Task FillWithoutASignalAndDieAsync(string profile, string sheet)
    {
        var tablet = await office.TabletAsync(profile);
        var window = new BrowserWindow(tablet.Pages[0]);
        await BrowserOffice.SignInAsync(window);
        await window.GoAsync(sheet);
        await window.KeptReadyAsync();
        await Task.Delay(TimeSpan.FromSeconds(10)); // Chromium writes what a page put into its cache to the disk some seconds later
        await tablet.SetOfflineAsync(true);
        await window.FillAsync(Readings);
        await window.Page.Locator("[role=status].kept").Filter(new() { HasText = "Kept on this device" }).WaitForAsync();
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Save the readings" }).First.ClickAsync();
        await window.Page.Locator(".kept").Filter(new() { HasText = "Not sent: no connection" }).WaitForAsync();
        await window.Page.WaitForFunctionAsync("place => new Promise(done => { const o = indexedDB.open('kept', 1); o.onsuccess = () => { const g = o.result.transaction('sheets').objectStore('sheets').get(place); g.onsuccess = () => done(g.result && g.result.state === 'waiting') } })", "kept:" + sheet);
        Kill(profile);
        try
        {
            await tablet.CloseAsync();
        }
        catch (PlaywrightException)
        {
            // It is dead, as it should be.
        }
    }

    private static void Kill(string profile)
    {
        using var kill = Process.Start(new ProcessStartInfo("pkill", ["-9", "-f", profile]))!;
        kill.WaitForExit();
        Thread.Sleep(500);
    }

    private async Task<int> AHouseAsync()
    {
        var desk = await office.OwnerAtAsync();
        await desk.GoAsync("/houses/new");
        await desk.FillAsync(
            ("Owner.New.Name", $"Perpetua Lind {Guid.NewGuid():N}"), ("Owner.New.Phone", $"555-{Random.Shared.Next(1000, 9999)}"), ("Owner.New.Email", $"{Guid.NewGuid():N}@lind.example"),
            ("Input.Street", $"{Random.Shared.Next(1, 9000)} Tollgate Row"), ("Input.City", "Birchford"), ("Input.State", "MN"), ("Input.Zip", "55999"), ("Input.County", "Birch"), ("Input.YearBuilt", "1985"), ("Input.Storeys", "2"), ("Input.Areas[0].Kind", "Basement"), ("Input.Areas[0].Floor", "900"));
        await desk.PressAsync("Save the inquiry");
        return int.Parse(desk.Path.Split('/', '?')[2], System.Globalization.CultureInfo.InvariantCulture);
    }
}
