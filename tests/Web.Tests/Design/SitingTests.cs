using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Design;
using MitigationOffice.Web.Tests.Diagnosis;

namespace MitigationOffice.Web.Tests.Design;

[Trait("Database", "either")]
public sealed class SitingTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string SitingForm = "#siting-form";

    /// <summary>25 Pa. Code 240.308(b), (c), the examples of docs/calculations/siting.md: 9 ft from a window whose top is 1 ft below fails, 2.5 ft below passes.</summary>
    [Theory]
    [InlineData("1", "fails", "Kitchen is 9 ft away and its top 1 ft below the discharge.")]
    [InlineData("2.5", "passes", "Every opening is far enough away or far enough below.")]
    public async Task Each_rule_is_judged_with_its_source_and_the_drawing_tells_the_same(string over, string verdict, string why)
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, _) = await office.HouseWithDesignAsync();
        await SaveAsync(owner, house, new() { ["Input.Rules"] = "us-pa", ["Input.Openings[0].Name"] = "Kitchen", ["Input.Openings[0].Distance"] = "9", ["Input.Openings[0].Second"] = over });
        var page = await PageAsync(owner, house);
        var row = page.QuerySelectorAll("#siting-look tbody tr").Single(r => r.TextContent.Contains("every opening into conditioned space", StringComparison.Ordinal));
        Assert.Equal(verdict, row.QuerySelector(".stamp")!.TextContent);
        Assert.Contains(why, row.TextContent, StringComparison.Ordinal);
        Assert.Contains("25 Pa. Code 240.308(b), (c)", row.TextContent, StringComparison.Ordinal);
        var drawn = page.QuerySelectorAll("#siting-look svg")[0];
        var words = drawn.QuerySelectorAll("text").Select(t => t.TextContent).ToList();
        Assert.Contains($"Kitchen, 9 ft{(verdict == "fails" ? ", fails" : "")}", words);
        Assert.Contains("18 ft above grade", words);
        Assert.Contains("10 ft around", words);
        Assert.Contains(verdict == "fails" ? "Fails: Kitchen is 9 ft away" : "Nothing measured fails.", drawn.QuerySelector("desc")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Several_openings_buildings_and_walls_are_kept_and_judged_and_the_route_keeps_them()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, id) = await office.HouseWithDesignAsync();
        await owner.SubmitAsync($"/houses/{house}/design/siting", new(), SitingForm, "button[formaction*=More]");
        await SaveAsync(owner, house, new()
        {
            ["Input.Rules"] = "us-pa", ["Input.Openings[0].Kind"] = "Door", ["Input.Openings[0].Name"] = "Back | door", ["Input.Openings[0].Distance"] = "12 ft 6 in", ["Input.Openings[0].Second"] = "11",
            ["Input.Openings[1].Kind"] = "Window", ["Input.Openings[1].Distance"] = "8", ["Input.Openings[1].Second"] = "-1", ["Input.Buildings[0].Name"] = "Shed", ["Input.Buildings[0].Distance"] = "9",
            ["Input.Walls[0].Name"] = "Gable", ["Input.Walls[0].Distance"] = "4", ["Input.Walls[0].Second"] = "2",
        });
        var text = (await PageAsync(owner, house)).QuerySelector("#siting-look")!.TextContent;
        Assert.Contains("Window 2 is 8 ft away and its top -1 ft below the discharge.", text, StringComparison.Ordinal);
        Assert.Contains("Shed is 9 ft away.", text, StringComparison.Ordinal);
        Assert.Contains("Gable is 4 ft away and rises 2 ft above the discharge.", text, StringComparison.Ordinal);
        Assert.Contains("3 rules fail.", text, StringComparison.Ordinal);
        var design = await DesignAsync(id);
        Assert.Equal(("Back / door", 3.81, "Shed"), (design.OpeningName, Math.Round(design.OpeningDistanceM!.Value, 4, MidpointRounding.AwayFromZero), design.BuildingName));

        // The route's form changes the nearest opening and leaves the rest.
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync($"/houses/{house}/design/route/{id}", new() { ["Input.OpeningDistance"] = "20" })).StatusCode);
        var after = (await PageAsync(owner, house));
        Assert.Equal(["Back / door", "Window 2", ""], after.QuerySelectorAll("input[name^='Input.Openings'][name$=Name]").Select(i => i.GetAttribute("value") ?? ""));
        Assert.Equal("us-pa", after.QuerySelector("select[name='Input.Rules'] option[selected]")!.GetAttribute("value"));
        var copy = await owner.SubmitAsync($"/houses/{house}/design", [], "form[action*=Copy]");
        Assert.Equal(HttpStatusCode.Redirect, copy.StatusCode);
        Assert.Equal(design.Nearby, await office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == house && d.Revision == "B").Select(d => d.Nearby).SingleAsync()));
    }

    [Fact]
    public async Task That_nothing_is_near_is_more_than_not_measured()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, _) = await office.HouseWithDesignAsync();
        Dictionary<string, string> bare = new() { ["Input.Rules"] = "us-pa", ["Input.Openings[0].Distance"] = "", ["Input.Openings[0].Second"] = "", ["Input.Buildings[0].Distance"] = "" };
        await SaveAsync(owner, house, bare);
        Assert.Contains("Not enough data: the openings near the discharge was not measured.", (await PageAsync(owner, house)).Body!.TextContent, StringComparison.Ordinal);
        await SaveAsync(owner, house, new(bare) { ["Input.NoOpening"] = "true", ["Input.NoBuilding"] = "true", ["Input.NoWall"] = "true" });
        Assert.Contains("Every rule is met.", (await PageAsync(owner, house)).Body!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Input.AboveGrade", "-3", "out of range")]
    [InlineData("Input.AboveRoof", "high", "high")]
    [InlineData("Input.FromVertical", "200", "200")]
    [InlineData("Input.Openings[0].Distance", "2000", "out of range")]
    [InlineData("Input.Openings[0].Second", "14", "The opening cannot be nearer than its top lies below the mouth.")]
    [InlineData("Input.Openings[1].Name", "a window", "Write the distance.")]
    [InlineData("Input.Walls[0].Distance", "3", "Write the height of the wall over the mouth.")]
    [InlineData("Input.NoBuilding", "true", "You wrote down a building and ticked that there is none.")]
    [InlineData("Input.Rules", "us-nowhere", "Choose the rules from the list.")]
    public async Task What_cannot_be_is_refused_in_words_and_the_typing_stays(string field, string typed, string words)
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, id) = await office.HouseWithDesignAsync();
        var answer = await owner.SubmitAsync($"/houses/{house}/design/siting", new() { ["Input.Buildings[0].Name"] = "<b>Näbo</b>", [field] = typed }, SitingForm);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains(words, html, StringComparison.Ordinal);
        Assert.Contains("value=\"<b>Näbo</b>\"", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>N", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("", (await DesignAsync(id)).BuildingName);
    }

    [Fact]
    public async Task A_look_stores_nothing_and_a_frozen_design_has_no_form()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, id) = await office.HouseWithDesignAsync();
        var before = (await DesignAsync(id)).Version;
        var look = await (await owner.SubmitAsync($"/houses/{house}/design/siting", new() { ["Input.AboveGrade"] = "9" }, SitingForm, "button[formaction*=Compute]")).TextAsync();
        Assert.Contains("The discharge is 9 ft above grade.", look, StringComparison.Ordinal);
        Assert.Equal(before, (await DesignAsync(id)).Version);
        await office.WithDbAsync(async db =>
        {
            (await db.Designs.AsTracking().SingleAsync(d => d.Id == id)).FrozenAtUtc = new DateTime(2026, 3, 1, 0, 0, 0, DateTimeKind.Utc);
            await db.SaveChangesAsync();
        });
        var frozen = await PageAsync(owner, house);
        Assert.Null(frozen.QuerySelector(SitingForm));
        Assert.Contains("went out with a quote", frozen.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_people_at_the_same_mouth_see_each_other()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, id) = await office.HouseWithDesignAsync();
        var version = (await DesignAsync(id)).Version;
        await SaveAsync(owner, house, new() { ["Input.AboveGrade"] = "17" });
        var late = WebUtility.HtmlDecode(await (await owner.SubmitAsync($"/houses/{house}/design/siting", new() { ["Input.AboveGrade"] = "16", ["Version"] = $"{version}" }, SitingForm)).Content.ReadAsStringAsync());
        Assert.Contains("They saved “17”; you wrote “16”.", late, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Few_statements_and_nothing_for_unknown_houses_and_no_design()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, _) = await office.HouseWithDesignAsync();
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/design/siting");
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/design");
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync("/houses/99999/design/siting")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/houses/{house}/design/siting?revision=ZZ")).StatusCode);
        var bare = await office.HouseWithReadingsAsync();
        Assert.Contains("There is no design yet.", await owner.TextAsync($"/houses/{bare}/design/siting"), StringComparison.Ordinal);
    }

    private static async Task SaveAsync(HttpClient owner, int house, Dictionary<string, string> typed)
    {
        var answer = await owner.SubmitAsync($"/houses/{house}/design/siting", typed, SitingForm);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
    }

    private static async Task<IDocument> PageAsync(HttpClient owner, int house) => await new HtmlParser().ParseDocumentAsync(await owner.GetStringAsync($"/houses/{house}/design/siting"));

    private Task<SuctionDesign> DesignAsync(int id) => office.WithDbAsync(db => db.Designs.AsNoTracking().SingleAsync(d => d.Id == id));
}
