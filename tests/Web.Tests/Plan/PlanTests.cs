using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Tests.Diagnosis;

namespace MitigationOffice.Web.Tests.Plan;

[Trait("Database", "either")]
public sealed class PlanTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Three_floors_typed_as_pairs_as_a_walk_and_in_feet_and_inches_are_kept_in_metres()
    {
        var house = await HouseAsync(await office.DrawnHouseAsync(await office.SignInAsOwnerAsync()));
        var plan = FloorPlan.Of(house);
        Assert.Equal(["Basement", "Family room", "Porch"], plan.Areas.Select(a => a.Name));
        Assert.Equal([(0, 0), (12.192, 0), (12.192, 8.5344), (0, 8.5344)], plan.Areas[0].Corners.Select(c => (c.XM, c.YM)));
        Assert.Equal([(12.192, 1.8288), (17.6784, 1.8288), (17.6784, 8.5344), (12.192, 8.5344)], plan.Areas[1].Corners.Select(c => (c.XM, c.YM)));
        Assert.Equal((3.81, 10.2108), (plan.Areas[2].Corners[3].XM, plan.Areas[2].Corners[3].YM));
        Assert.Equal((0.9144, 7.62), (Metres(house.SumpXM), Metres(house.SumpYM)));
        Assert.Equal(6.7056, plan.Footings.Single()[1].XM);
        // 40 ft by 28 ft are 1120 ft², 104.05 m²: the floor area of the inquiry sheet follows.
        Assert.Equal([104.05, 36.79, 7.92], house.Areas.OrderBy(a => a.Id).Select(a => a.FloorM2));
    }

    [Fact]
    public async Task The_saved_plan_comes_back_in_the_fields_and_on_the_drawing_and_saves_unchanged()
    {
        var owner = await office.SignInAsOwnerAsync();
        var id = await office.DrawnHouseAsync(owner);
        var before = await HouseAsync(id);
        var html = WebUtility.HtmlDecode(await owner.GetStringAsync($"/houses/{id}/plan"));
        Assert.Contains("\n40,6 58,6 58,28 40,28</textarea>", html, StringComparison.Ordinal);
        Assert.Contains(">40 ft</text>", html, StringComparison.Ordinal);
        Assert.Contains(">18 ft</text>", html, StringComparison.Ordinal);
        Assert.Contains("Family room, 396 ft²; Porch, 85 ft²; footing from 22 ft across, 0 ft up to 22 ft across, 28 ft up; sump at 3 ft across, 25 ft up.</desc>", html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.DrawAsync(id, [])).StatusCode);
        var after = await HouseAsync(id);
        Assert.Equal(before.Areas.Select(a => a.CornersM), after.Areas.Select(a => a.CornersM));
        Assert.Equal(before.Version, after.Version);
    }

    [Theory]
    [InlineData("0,0 40,0 0,28 40,28", "The wall of Basement from corner 2 to 3 crosses or touches the wall from corner 4 to 1")]
    [InlineData("0,0 40,0", "Basement has two corners; a floor needs at least three.")]
    [InlineData("7,7", "Basement has one corner")]
    [InlineData("0,0 40,0 40,0 0,28", "Corners 2 and 3 of Basement are at the same place")]
    [InlineData("0,0 10,0 20,0", "The walls of Basement run over each other")]
    [InlineData("0,0 1,0 1,1 0,1", "Basement covers only 1 ft²; that is no floor")]
    [InlineData("0,0 9000,0 9000,28 0,28", "Corner 2 of Basement: 9000 is out of range: the distance must be between 0 ft and 492.1 ft")]
    [InlineData("0,0 40 ft,0 fourty,28", "Corner 3 of Basement cannot be read at “fourty,28”")]
    [InlineData("0,0 40;0 40,28", "Corner 2 of Basement cannot be read at “40;0 40,28”")]
    [InlineData("40 L 28 28", "The walk around Basement: two lengths follow each other without a turn between")]
    [InlineData("40 L E 28", "The walk around Basement: use turns (L, R) or directions (N, E, S, W), not both")]
    [InlineData("40 L wall R", "The walk around Basement cannot be read at “wall R”")]
    [InlineData("E 40 N", "The walk around Basement: the last wall lacks its length or its direction")]
    [InlineData("1e308,0 0,1e308 1,1", "Corner 1 of Basement cannot be read at")]
    public async Task What_is_no_floor_is_refused_in_words_and_the_typing_stays(string typed, string words)
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        var answer = await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = typed, ["Input.Sump"] = "3,3", ["Input.Areas[1].Name"] = "Den" });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains(words, html, StringComparison.Ordinal);
        Assert.Contains($"\n{typed}</textarea>", html, StringComparison.Ordinal);
        Assert.Contains("href=\"#Input_Areas_0__Corners\"", html, StringComparison.Ordinal);
        Assert.Contains("value=\"Den\"", html, StringComparison.Ordinal);
        Assert.Equal("", (await HouseAsync(house)).Areas.Single().CornersM);
    }

    [Fact]
    public async Task Five_hundred_corners_are_refused_and_a_hundred_are_drawn()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        Assert.Contains("There are 500 corners in Basement; 100 are the most.", await (await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = Round(500) })).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = Round(100) })).StatusCode);
        Assert.Equal(100, FloorPlan.Of(await HouseAsync(house)).Areas.Single().Corners.Count);
    }

    [Theory]
    [InlineData("40 L 28 L 40 L 28")]
    [InlineData("E 40, N 28, W 40")]
    [InlineData("40 east 28 north 40 west 28 south")]
    [InlineData("(0,0); (40,0); (40,28); (0,28); (0,0)")]
    [InlineData("40' L 28' L 40' L")]
    [InlineData("12.192 m, 0 12.192 m, 8.5344 m 0,8.5344m 0,0")]
    public async Task The_same_rectangle_may_be_told_in_many_ways(string typed)
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        var answer = await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = typed });
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        Assert.Equal(104.05, (await HouseAsync(house)).Areas.Single().FloorM2);
    }

    [Fact]
    public async Task A_bay_is_walked_with_slanting_turns()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = "20 L 10 L45° 5 L45deg 16.46 L" });
        // A right turn of the sheet in two halves: 10 ft up, then 5 ft at 45° to the left, 3.536 ft each way.
        Assert.Equal((20 - 3.5355) * 0.3048, FloorPlan.Of(await HouseAsync(house)).Areas.Single().Corners[3].XM, 3);
    }

    [Fact]
    public async Task Floors_that_overlap_are_refused_with_the_corner_that_intrudes()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.DrawnHouseAsync(owner);
        var answer = await owner.DrawAsync(house, new() { ["Input.Areas[1].Corners"] = "38,6 58,6 58,28 38,28" });
        Assert.Contains("Family room and Basement overlap by 44 ft²: corner 1 of Family room lies inside Basement. Move a corner", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Footings_and_sumps_outside_every_floor_are_refused_by_name()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        var text = await (await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = "40 L 28 L 40 L", ["Input.Footings"] = "22,0 22,28\n5,5 60,5", ["Input.Sump"] = "-3,4" })).TextAsync();
        Assert.Contains("Point 2 of footing 2, 60 ft across, 5 ft up, lies outside every floor", text, StringComparison.Ordinal);
        Assert.Contains("The sump, −3 ft across, 4 ft up, lies outside every floor", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_hole_outside_is_refused_by_its_name_on_the_plan_and_among_the_readings()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        var onPlan = await (await owner.DrawAsync(house, new() { ["Input.Holes[0].At"] = "90,6", ["Input.Holes[10].At"] = "55,-1" })).TextAsync();
        Assert.Contains("Suction hole A, 90 ft across, 6 ft up, lies outside every floor", onPlan, StringComparison.Ordinal);
        Assert.Contains("Test hole T9, 55 ft across, −1 ft up, lies outside every floor", onPlan, StringComparison.Ordinal);
        var test = await office.WithDbAsync(db => db.PressureFieldTests.Where(t => t.HouseId == house).Select(t => t.Id).SingleAsync());
        var among = await (await owner.SubmitAsync($"/houses/{house}/diagnosis/readings/{test}", new() { ["Input.Suction[1].At"] = "48,3", ["Input.Holes[2].At"] = "here" })).TextAsync();
        Assert.Contains("Suction hole B, 48 ft across, 3 ft up, lies outside every floor", among, StringComparison.Ordinal);
        Assert.Contains("Corner 1 of the place of test hole T3 cannot be read", among, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Moving_a_hole_on_the_plan_moves_it_among_the_readings_and_counts_as_a_change_of_the_test()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        Task<Business.Diagnosis.PressureFieldTest> TestAsync() => office.WithDbAsync(db => db.PressureFieldTests.Include(t => t.TestHoles).Include(t => t.SuctionHoles).SingleAsync(t => t.HouseId == house));
        var before = await TestAsync();
        Assert.Equal([("A", 1.8288), ("B", 14.6304)], before.SuctionHoles.OrderBy(s => s.Id).Select(s => (s.Label, Metres(s.XM))));
        Assert.Equal(HttpStatusCode.Redirect, (await owner.DrawAsync(house, new() { ["Input.Holes[2].At"] = "11,7" })).StatusCode);
        var after = await TestAsync();
        Assert.Equal((3.3528, 2.1336), (Metres(after.TestHoles.Single(h => h.Label == "T1").XM), Metres(after.TestHoles.Single(h => h.Label == "T1").YM)));
        Assert.Equal(before.Version + 1, after.Version);
    }

    [Fact]
    public async Task A_plan_overtaken_by_another_keeps_the_typing_and_says_what_they_saved()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.DrawnHouseAsync(owner);
        var version = (await HouseAsync(house)).Version;
        await owner.DrawAsync(house, new() { ["Input.Sump"] = "5,5" });
        var late = await (await owner.DrawAsync(house, new() { ["Input.Sump"] = "6,6", ["Version"] = $"{version}" })).Content.ReadAsStringAsync();
        Assert.Contains("They saved “5,5”; you wrote “6,6”.", WebUtility.HtmlDecode(late), StringComparison.Ordinal);
        Assert.Contains("value=\"6,6\"", late, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Names_of_any_script_stay_words()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        const string Odd = "</textarea><script>x()</script>שלום 🏠 Kjøkken";
        Assert.Equal(HttpStatusCode.Redirect, (await owner.DrawAsync(house, new() { ["Input.Areas[0].Name"] = Odd, ["Input.Areas[0].Corners"] = "40 L 28 L 40 L" })).StatusCode);
        var html = await owner.GetStringAsync($"/houses/{house}/plan");
        Assert.DoesNotContain("<script>x", html, StringComparison.Ordinal);
        Assert.Contains(Odd + ", 1120 ft²", WebUtility.HtmlDecode(html), StringComparison.Ordinal);
        var hostile = await (await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = "\"><svg onload=x>" })).Content.ReadAsStringAsync();
        Assert.DoesNotContain("<svg onload", hostile, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_more_floor_keeps_the_typing_and_saves_nothing()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        var html = await (await owner.SubmitAsync($"/houses/{house}/plan", new() { ["Input.Areas[0].Corners"] = "half typed" }, PlanVerbs.PlanForm, "button[formaction*=More]")).Content.ReadAsStringAsync();
        Assert.Contains("half typed", html, StringComparison.Ordinal);
        Assert.Contains("Input.Areas[2].Corners", html, StringComparison.Ordinal);
        Assert.Equal("", (await HouseAsync(house)).Areas.Single().CornersM);
    }

    [Fact]
    public async Task An_installer_may_draw_and_unknown_houses_and_tests_are_not_found()
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.DrawnHouseAsync(crew);
        foreach (var url in new[] { "/houses/99999/plan", "/houses/99999/coverage", $"/houses/{house}/plan?test=99999", $"/houses/{house}/coverage?test=99999" })
            Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync(url)).StatusCode);
    }

    [Fact]
    public async Task Plan_and_coverage_take_few_statements()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/plan");
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/coverage?best=1");
    }

    private Task<House> HouseAsync(int id) => office.WithDbAsync(db => db.Houses.Include(h => h.Areas).SingleAsync(h => h.Id == id));

    private static double Metres(double? kept) => Math.Round(kept!.Value, 4, MidpointRounding.AwayFromZero);

    private static string Round(int corners) => string.Join(' ', Enumerable.Range(0, corners).Select(i => i * Math.Tau / corners)
        .Select(a => $"{PlanVerbs.Text(20 + 15 * Math.Cos(a))},{PlanVerbs.Text(20 + 15 * Math.Sin(a))}"));
}
