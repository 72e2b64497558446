using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using MitigationOffice.Web.Tests.Design;
using MitigationOffice.Web.Tests.Diagnosis;
using MitigationOffice.Web.Tests.Plan;

namespace MitigationOffice.Browser.Tests;

/// <summary>A house with three foundation areas, two suction points and nine test holes, from an empty sheet to a chosen fan: drawn and
/// typed, and typed alone.</summary>
public sealed partial class TwoPointTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    private static readonly (double X, double Y)[][] Floors =
    [
        [(0, 0), (26, 0), (26, 20), (0, 20)], [(26, 4), (33, 4), (33, 18), (26, 18)], [(8, 20), (16, 20), (16, 22), (8, 22)],
    ];

    private static readonly (double X, double Y)[] Holes = [(5, 5), (8, 5), (10, 14), (3, 17), (15, 4), (18, 10), (24, 17), (24, 4), (29, 8), (30, 17)];

    [BrowserFact]
    public async Task Drawn_and_typed_from_an_empty_sheet_to_a_chosen_fan()
    {
        var house = await office.PlainHouseAsync();
        await office.TwoFansAsync();
        var desk = await office.OwnerAtAsync();
        await desk.GoAsync($"/houses/{house}/plan");
        await desk.PressAsync("One more floor");
        await desk.FillAsync(("Input.Areas[1].Name", "Family room"), ("Input.Areas[1].Kind", "SlabOnGrade"), ("Input.Areas[2].Name", "Porch"), ("Input.Areas[2].Kind", "CrawlSpace"));
        for (var floor = 0; floor < Floors.Length; floor++)
        {
            await desk.Page.SelectOptionAsync("#plan-what", $"{floor}");
            foreach (var (x, y) in Floors[floor]) await ClickAsync(desk, x, y);
        }

        await desk.PressAsync("Save the plan");
        await ReadFirstAsync(desk, house);
        await desk.GoAsync($"/houses/{house}/plan");
        await desk.Page.SelectOptionAsync("#plan-what", new SelectOptionValue { Label = "place Suction hole A" });
        foreach (var (x, y) in Holes) await ClickAsync(desk, x, y);
        await desk.PressAsync("Save the plan");
        await ReadSecondAsync(desk, house);
        await desk.GoAsync($"/houses/{house}/design/route");
        await FillRouteAsync(desk, house);
        await desk.PressAsync("One more suction point");
        await FillBranchAsync(desk, house);
        await desk.Page.Locator("#route-look").GetByText("Take Test").WaitForAsync();
        Assert.Contains("A further pit, B", await desk.Page.Locator("#route-look").InnerHTMLAsync(), StringComparison.Ordinal);
        await ChooseAsync(desk, house);
        Assert.Empty(desk.Complaints);
    }

    [BrowserFact]
    public async Task Typed_without_script_from_an_empty_sheet_to_a_chosen_fan()
    {
        var house = await office.PlainHouseAsync();
        await office.TwoFansAsync();
        var desk = await office.OwnerAtAsync(script: false);
        await desk.GoAsync($"/houses/{house}/plan");
        await desk.PressAsync("One more floor");
        await desk.FillAsync([.. PlanVerbs.ThreeFloors().Select(f => (f.Key, f.Value))]);
        await desk.PressAsync("Save the plan");
        foreach (var pit in "AB")
        {
            await desk.GoAsync($"/houses/{house}/diagnosis/readings");
            await desk.PressAsync("More holes");
            await desk.FillAsync([.. BranchVerbs.Readings(pit).Select(f => (f.Key, f.Value))]);
            await desk.PressAsync("Save the readings");
        }

        await desk.GoAsync($"/houses/{house}/design/route");
        await FillRouteAsync(desk, house);
        await desk.PressAsync("One more suction point");
        await FillBranchAsync(desk, house);
        await desk.PressAsync("Compute, save nothing");
        await desk.SeesAsync("Weakest hole in design winter");
        await ChooseAsync(desk, house);
        Assert.Empty(desk.Complaints);
    }

    private static async Task ReadFirstAsync(BrowserWindow desk, int house)
    {
        await desk.GoAsync($"/houses/{house}/diagnosis/readings");
        await desk.PressAsync("More holes");
        await desk.FillAsync([.. BranchVerbs.Readings('A').Where(f => !f.Key.EndsWith(".At", StringComparison.Ordinal)).Select(f => (f.Key, f.Value))]);
        await desk.PressAsync("Save the readings");
    }

    /// <summary>The same holes, where they were drawn, with suction at the other hole.</summary>
    private static async Task ReadSecondAsync(BrowserWindow desk, int house)
    {
        await desk.GoAsync($"/houses/{house}/diagnosis");
        await desk.LeaveByAsync(desk.Page.GetByRole(AriaRole.Link, new() { Name = "Same holes, suction at another hole" }));
        Assert.Equal("29,8", await desk.Page.Locator("[name='Input.Holes[7].At']").InputValueAsync());
        await desk.FillAsync([.. BranchVerbs.Readings('B').Where(f => !f.Key.EndsWith(".At", StringComparison.Ordinal)).Select(f => (f.Key, f.Value)), ("Input.Suction[0].At", "29.5,12")]);
        await desk.PressAsync("Save the readings");
    }

    private async Task FillRouteAsync(BrowserWindow desk, int house)
    {
        var first = await TestAsync(house, "A");
        await desk.FillAsync([("Input.TestId", first), .. DesignVerbs.Route().Select(f => (f.Key, f.Value))]);
    }

    private async Task FillBranchAsync(BrowserWindow desk, int house) => await desk.FillAsync(
        ("Input.Points[0].Name", "B"), ("Input.Points[0].TestId", await TestAsync(house, "B")), ("Input.Points[0].JoinsAfter", "2"),
        ("Input.Points[0].Pieces[0].Length", "8 ft"), ("Input.Points[0].Pieces[0].Rise", "8"), ("Input.Points[0].Pieces[2].Length", "20"), ("Input.Points[0].Pieces[0].Size", "3in"));

    private static async Task ChooseAsync(BrowserWindow desk, int house)
    {
        await desk.PressAsync("Save and compute");
        await desk.SeesAsync("What each suction point draws");
        await desk.SeesAsync("Take Test");
        await desk.Page.Locator("select[name=fan]").SelectOptionAsync(new SelectOptionValue { Label = "Test 42" });
        await desk.PressAsync("Take this fan");
        await desk.SeesAsync("at 2 suction points");
        Assert.Equal(1, await desk.Page.Locator("tr.chosen .stamp").Filter(new() { HasTextRegex = Chosen() }).CountAsync());
        Assert.StartsWith($"/houses/{house}/design", desk.Path, StringComparison.Ordinal);
    }

    private Task<string> TestAsync(int house, string pit) => office.WithDbAsync(async db =>
        $"{await db.PressureFieldTests.Where(t => t.HouseId == house && t.SuctionHoles.Any(s => s.Label == pit)).Select(t => t.Id).SingleAsync()}");

    private static async Task ClickAsync(BrowserWindow desk, double x, double y)
    {
        var at = await desk.Page.EvaluateAsync<float[]>(
            "([x, y]) => { const s = document.getElementById('plan'); s.scrollIntoView(); const p = new DOMPoint(+s.dataset.x + x * s.dataset.scale, +s.dataset.y - y * s.dataset.scale).matrixTransform(s.getScreenCTM()); return [p.x, p.y]; }",
            new[] { x, y });
        await desk.Page.Mouse.ClickAsync(at[0], at[1]);
    }

    [GeneratedRegex("^chosen$")]
    private static partial Regex Chosen();
}
