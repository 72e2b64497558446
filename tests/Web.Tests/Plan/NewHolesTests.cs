using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Diagnosis;

namespace MitigationOffice.Web.Tests.Plan;

[Trait("Database", "either")]
public sealed class NewHolesTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Holes_added_on_the_plan_join_the_test_with_the_next_names_of_their_kind()
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.MeasuredHouseAsync(crew);
        var before = await TestAsync(house);
        var answer = await crew.DrawAsync(house, new() { ["Input.New[0].At"] = "30,20", ["Input.New[1].At"] = "31,4", ["Input.New[1].Label"] = "by the stair", ["Input.New[3].At"] = "35,6" });
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        var after = await TestAsync(house);
        Assert.Equal(["T10", "by the stair"], after.TestHoles.OrderBy(h => h.Position).Skip(9).Select(h => h.Label));
        Assert.Equal((9.144, 6.096), (after.TestHoles.Single(h => h.Label == "T10").XM, after.TestHoles.Single(h => h.Label == "T10").YM));
        Assert.Equal(("S3", 10.668), (after.SuctionHoles.OrderBy(s => s.Id).Last().Label, Math.Round(after.SuctionHoles.OrderBy(s => s.Id).Last().XM!.Value, 4, MidpointRounding.AwayFromZero)));
        Assert.Equal(before.Version + 1, after.Version);
        Assert.Equal(9, after.TestHoles.Count(h => h.Readings.Count == 1));
        Assert.Contains("by the stair", await crew.TextAsync($"/houses/{house}/diagnosis"), StringComparison.Ordinal);
        Assert.Contains("Test hole by the stair", await crew.TextAsync($"/houses/{house}/plan"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await crew.GetAsync($"/houses/{house}/coverage?best=1")).StatusCode);
    }

    [Theory]
    [InlineData("Input.New[0].At", "90,6", "Test hole T10, 90 ft across, 6 ft up, lies outside every floor")]
    [InlineData("Input.New[3].At", "-5,6", "Suction hole S3, −5 ft across, 6 ft up, lies outside every floor")]
    [InlineData("Input.New[0].Label", "t3", "Two holes are called t3; give each its own name.")]
    [InlineData("Input.New[0].At", "over there", "cannot be read at “over there”")]
    public async Task A_new_hole_that_cannot_be_is_refused_and_the_typing_stays(string field, string typed, string words)
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.MeasuredHouseAsync(crew);
        var answer = await crew.DrawAsync(house, new() { ["Input.New[1].At"] = "12,9", [field] = typed });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains(words, html, StringComparison.Ordinal);
        Assert.Contains($"value=\"{typed}\"", html, StringComparison.Ordinal);
        Assert.Contains("value=\"12,9\"", html, StringComparison.Ordinal);
        Assert.Equal(9, (await TestAsync(house)).TestHoles.Count);
    }

    [Fact]
    public async Task More_rows_keep_the_typing_and_a_test_takes_no_more_than_it_can_hold()
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.MeasuredHouseAsync(crew);
        var html = await (await crew.SubmitAsync($"/houses/{house}/plan", new() { ["Input.New[2].At"] = "half typed" }, PlanVerbs.PlanForm, "button[formaction*=holes]")).Content.ReadAsStringAsync();
        Assert.Contains("half typed", html, StringComparison.Ordinal);
        Assert.Contains("Input.New[6].At", html, StringComparison.Ordinal);
        var many = Enumerable.Range(0, 16).ToDictionary(i => $"Input.New[{i}].At", i => $"{i + 1},{i + 2}");
        foreach (var i in Enumerable.Range(0, 16)) many[$"Input.New[{i}].Suction"] = "false";
        Assert.Contains("That makes 25 test holes; a test takes 24.", await (await crew.DrawAsync(house, many)).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_test_the_page_says_where_holes_begin()
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.DrawnHouseAsync(crew);
        var html = await crew.GetStringAsync($"/houses/{house}/plan");
        Assert.DoesNotContain("Input.New[0]", html, StringComparison.Ordinal);
        Assert.Contains("Write down a PFE test", html, StringComparison.Ordinal);
    }

    private Task<PressureFieldTest> TestAsync(int house) => office.WithDbAsync(db => db.PressureFieldTests.AsNoTracking().Include(t => t.SuctionHoles).Include(t => t.TestHoles).ThenInclude(h => h.Readings).SingleAsync(t => t.HouseId == house));
}
