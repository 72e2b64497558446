using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using MitigationOffice.Web.Tests.Design;
using MitigationOffice.Web.Tests.Diagnosis;
using MitigationOffice.Web.Tests.Plan;

namespace MitigationOffice.Browser.Tests;

/// <summary>The floor plan drawn with the pointer, and the further suction point clicked on its map.</summary>
public sealed class PlanTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    [BrowserFact]
    public async Task What_is_drawn_fills_the_fields_and_a_click_on_the_map_tries_a_further_point()
    {
        var house = await office.PlainHouseAsync();
        var desk = await office.OwnerAtAsync();
        await desk.GoAsync($"/houses/{house}/plan");
        foreach (var (x, y) in new[] { (0.0, 0.0), (30, 0), (30, 20.2), (0, 20) }) await ClickAsync(desk, x, y);
        Assert.Equal("0,0 30,0 30,20 0,20", await ValueAsync(desk, "#Input_Areas_0__Corners"));
        await DragAsync(desk, (30, 20), (33, 22));
        Assert.Equal("0,0 30,0 33,22 0,20", await ValueAsync(desk, "#Input_Areas_0__Corners"));
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        Assert.Equal("0,0 30,0 30,20 0,20", await ValueAsync(desk, "#Input_Areas_0__Corners"));
        await desk.Page.SelectOptionAsync("#plan-what", new SelectOptionValue { Label = "a footing: its two ends" });
        foreach (var (x, y) in new[] { (15.0, 0.0), (15, 20) }) await ClickAsync(desk, x, y);
        Assert.Equal("15,0 15,20", await ValueAsync(desk, "#Input_Footings"));
        await desk.PressAsync("Save the plan");
        await ReadAsync(desk, house);
        await desk.GoAsync($"/houses/{house}/plan");
        await desk.Page.SelectOptionAsync("#plan-what", new SelectOptionValue { Label = "place Suction hole A" });
        foreach (var (x, y) in new[] { (5.0, 5.0), (10, 6), (11, 16), (24, 12) }) await ClickAsync(desk, x, y);
        await DragAsync(desk, (24, 12), (25, 11));
        await desk.PressAsync("Save the plan");
        await desk.GoAsync($"/houses/{house}/coverage");
        await desk.SeesAsync("25 ft across, 11 ft up");
        await desk.LeaveByAsync(desk.Page.Locator("svg#map"));
        Assert.Contains("at=15%2C10", desk.Path, StringComparison.Ordinal);
        await desk.SeesAsync("With a further point at 15 ft across, 10 ft up");
        Assert.Empty(desk.Complaints);
    }

    [BrowserFact]
    public async Task A_picture_gets_its_scale_by_two_clicks_and_a_hole_is_added_on_the_plan()
    {
        var house = await office.PlainHouseAsync();
        var desk = await office.OwnerAtAsync();
        await desk.GoAsync($"/houses/{house}/plan");
        await desk.FillAsync(("Input.Areas[0].Corners", "0,0 40,0 40,28 0,28"));
        await desk.PressAsync("Save the plan");
        await ReadAsync(desk, house);
        await desk.GoAsync($"/houses/{house}/plan/picture");
        await desk.Page.SetInputFilesAsync("#Upload", new FilePayload { Name = "scan.png", MimeType = "image/png", Buffer = Scan.Of(1200, 900) });
        await desk.PressAsync("Take this picture");
        foreach (var (x, y) in new[] { (100, 800), (1100, 800) }) await ClickPictureAsync(desk, x, y);
        // The window shows the picture smaller than it is, so that a click is true to a few of its pixels.
        foreach (var (field, x) in new[] { ("#Input_From", 100), ("#Input_To", 1100) })
        {
            var typed = (await ValueAsync(desk, field)).Split(',').Select(t => int.Parse(t, System.Globalization.CultureInfo.InvariantCulture)).ToList();
            Assert.InRange(typed[0], x - 3, x + 3);
            Assert.InRange(typed[1], 797, 803);
        }

        await desk.FillAsync(("Input.Length", "50"), ("Input.At", "0,0"));
        await desk.PressAsync("Lay it under the plan");
        var picture = desk.Page.Locator("svg#plan image");
        Assert.True(await picture.IsVisibleAsync());
        await desk.Page.UncheckAsync("#backdrop-shown");
        Assert.False(await picture.IsVisibleAsync());
        await desk.Page.SelectOptionAsync("#plan-what", new SelectOptionValue { Label = "place Test hole, new" });
        await ClickAsync(desk, 30, 20);
        Assert.Equal("30,20", await ValueAsync(desk, "#Input_New_0__At"));
        await desk.PressAsync("Save the plan");
        Assert.Equal("30,20", await ValueAsync(desk, "#Input_Holes_4__At"));
        Assert.Empty(desk.Complaints);
    }

    [BrowserFact]
    public async Task The_mouths_drawing_follows_the_typing()
    {
        var house = await office.PlainHouseAsync();
        var desk = await office.OwnerAtAsync();
        await ReadAsync(desk, house);
        await desk.GoAsync($"/houses/{house}/design/route");
        await desk.FillAsync([.. DesignVerbs.Route().Select(f => (f.Key, f.Value))]);
        await desk.PressAsync("Save and compute");
        await desk.GoAsync($"/houses/{house}/design/siting");
        await desk.FillAsync(("Input.AboveGrade", "9"), ("Input.Openings[0].Name", "Kitchen"));
        await desk.Page.Locator("#siting-look", new() { HasText = "One rule fails." }).WaitForAsync();
        await desk.Page.Locator("#siting-look svg.wide-drawing", new() { HasText = "9 ft above grade" }).WaitForAsync();
        await desk.Page.Locator("#siting-look svg.wide-drawing", new() { HasText = "Kitchen, 12 ft" }).WaitForAsync();
        await desk.FillAsync(("Input.AboveGrade", "high"));
        await desk.Page.Locator("#siting-look", new() { HasText = "Not read yet." }).WaitForAsync();
        Assert.Equal(18 * 0.3048, (await office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == house).Select(d => d.DischargeAboveGradeM).SingleAsync()))!.Value, 6);
        Assert.Empty(desk.Complaints);
    }

    [BrowserFact]
    public async Task Three_floors_and_nine_holes_typed_without_script_give_a_map()
    {
        var house = await office.PlainHouseAsync();
        var desk = await office.OwnerAtAsync(script: false);
        await desk.GoAsync($"/houses/{house}/plan");
        await desk.PressAsync("One more floor");
        await desk.FillAsync([.. PlanVerbs.ThreeFloors().Select(f => (f.Key, f.Value))]);
        await desk.PressAsync("Save the plan");
        await desk.GoAsync($"/houses/{house}/diagnosis/readings");
        await desk.PressAsync("One more suction hole");
        await desk.PressAsync("More holes");
        await desk.FillAsync([.. PlanVerbs.NineHoles().Select(f => (f.Key, f.Value))]);
        await desk.PressAsync("Save the readings");
        await desk.GoAsync($"/houses/{house}/coverage");
        await desk.PressAsync("Propose the best place");
        await desk.SeesAsync("With a further point at");
        Assert.Empty(desk.Complaints);
    }

    private static async Task ReadAsync(BrowserWindow desk, int house)
    {
        await desk.GoAsync($"/houses/{house}/diagnosis/readings");
        await desk.FillAsync(("Input.Day", "3/1/2026"), ("Input.Outdoor", "20"), ("Input.Suction[0].Label", "A"), ("Input.Settings[0].Label", "vacuum"), ("Input.Settings[0].PitVacuum", "250 Pa"));
        foreach (var (row, pa) in new[] { (0, "-70"), (1, "-12"), (2, "-4") }) await desk.FillAsync(($"Input.Holes[{row}].Label", $"T{row + 1}"), ($"Input.Holes[{row}].FanOff", "0.4"), ($"Input.Holes[{row}].On[0]", pa));
        await desk.PressAsync("Save the readings");
    }

    private static Task<string> ValueAsync(BrowserWindow desk, string field) => desk.Page.Locator(field).InputValueAsync();

    private static async Task ClickAsync(BrowserWindow desk, double x, double y)
    {
        var at = await SpotAsync(desk, x, y);
        await desk.Page.Mouse.ClickAsync(at[0], at[1]);
    }

    private static async Task ClickPictureAsync(BrowserWindow desk, int x, int y)
    {
        var at = await desk.Page.EvaluateAsync<float[]>(
            "([x, y]) => { const s = document.getElementById('backdrop'); s.scrollIntoView(); const p = new DOMPoint(+s.dataset.x + x * s.dataset.scale, +s.dataset.y + y * s.dataset.scale).matrixTransform(s.getScreenCTM()); return [p.x, p.y]; }", new[] { x, y });
        await desk.Page.Mouse.ClickAsync(at[0], at[1]);
    }

    private static async Task DragAsync(BrowserWindow desk, (double X, double Y) from, (double X, double Y) to)
    {
        var (start, end) = (await SpotAsync(desk, from.X, from.Y), await SpotAsync(desk, to.X, to.Y));
        await desk.Page.Mouse.MoveAsync(start[0], start[1]);
        await desk.Page.Mouse.DownAsync();
        await desk.Page.Mouse.MoveAsync(end[0], end[1], new() { Steps = 4 });
        await desk.Page.Mouse.UpAsync();
    }

    /// <summary>Where a place of the plan, in feet, is in the window.</summary>
    private static Task<float[]> SpotAsync(BrowserWindow desk, double x, double y) => desk.Page.EvaluateAsync<float[]>(
        "([x, y]) => { const s = document.getElementById('plan'); s.scrollIntoView(); const p = new DOMPoint(+s.dataset.x + x * s.dataset.scale, +s.dataset.y - y * s.dataset.scale).matrixTransform(s.getScreenCTM()); return [p.x, p.y]; }",
        new[] { x, y });
}
