using System.Globalization;
using System.Net;
using System.Text.Json;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Web.Tests.Design;

/// <summary>A design with several suction points, from the form to the materials.</summary>
[Trait("Database", "either")]
public sealed class BranchesTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Two_points_hold_what_one_cannot_and_the_sheet_shows_the_whole_tree()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, a, b) = await office.TwicePumpedHouseAsync(owner);
        var alone = DesignVerbs.Route();
        alone["Input.TestId"] = a.ToString(CultureInfo.InvariantCulture);
        await owner.SubmitAsync($"/houses/{house}/design/route", alone);
        Assert.Contains("No fan of the catalogue holds.", await owner.TextAsync($"/houses/{house}/design"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync($"/houses/{house}/design/route", BranchVerbs.Tree(a, b))).StatusCode);
        var text = await owner.TextAsync($"/houses/{house}/design");
        var design = await office.WithDbAsync(db => db.Designs.AsNoTracking().WithRoute().SingleAsync(d => d.HouseId == house && d.Revision == "B"));
        var report = JsonSerializer.Deserialize<DesignReport>(design.ReportJson!, DesignFileText.Json)!;
        Assert.NotNull(report.RecommendedFan);
        Assert.Contains($"Take {report.RecommendedFan}.", text, StringComparison.Ordinal);
        Assert.Equal(["", "B"], report.Shown!.Points.Select(p => p.Name));
        Assert.Equal(9, report.Shown.Holes.Count);
        Assert.Equal(41, report.SystemCurve.Count);
        Assert.Equal(2, report.Coverage!.WithShownFan!.SuctionPoints.Count);
        foreach (var words in new[] { "What each suction point draws", "most from B", "Along the branch of B, to where it joins", "Ground at B", "3 in tee", "Under the whole slab", "at 2 suction points", "A further pit, B" })
            Assert.Contains(words, text, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/design?revision=B");
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/design/route/{design.Id}");
        Assert.Equal([0, 1], design.Pieces.Select(p => p.Branch).Distinct().Order());
        Assert.Equal((1, "B", (int?)b, 0, 2), design.Branches.Select(x => (x.Number, x.Name, x.PressureFieldTestId, x.JoinsBranch, x.JoinsAfterPiece)).Single());
    }

    [Fact]
    public async Task Points_and_pieces_are_added_and_taken_out_without_script_and_typing_stays()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, _, b) = await office.TwicePumpedHouseAsync(owner);
        var url = $"/houses/{house}/design/route";
        var first = await PageAsync(await owner.SubmitAsync(url, new() { ["Input.Notes"] = "zig & zag" }, button: "button[formaction$='handler=Point']"));
        Assert.Equal("zig & zag", first.QuerySelector("[name='Input.Notes']")!.TextContent.Trim());
        Assert.NotEqual("", Selected(first, "Input.Points[0].TestId"));
        Assert.NotEqual(Selected(first, "Input.TestId"), Selected(first, "Input.Points[0].TestId"));
        Assert.Equal("Tee", Selected(first, "Input.Points[0].Pieces[3].Kind"));
        Assert.DoesNotContain("Fan", first.QuerySelectorAll("[name='Input.Points[0].Pieces[0].Kind'] option").Select(o => o.GetAttribute("value")));
        var typed = BranchVerbs.Tree(0, b);
        BranchVerbs.Branch(typed, 1, "C", b, "3", ("Pipe", "5", ""));
        typed["Input.Points[1].JoinsInto"] = "1";
        typed["Input.TestId"] = "";
        for (var i = 0; i < 6; i++) typed[$"Input.Pieces[{i.ToString(CultureInfo.InvariantCulture)}].Size"] = "4in";
        var inserted = await PageAsync(await owner.PostRowsAsync(url, "More&at=1", typed));
        Assert.Equal("3", Typed(inserted, "Input.Points[0].JoinsAfter"));
        Assert.Equal("3", Typed(inserted, "Input.Points[1].JoinsAfter"));
        var onBranch = await PageAsync(await owner.PostRowsAsync(url, "More&point=0&at=0", typed));
        Assert.Equal(("", "8 ft"), (Typed(onBranch, "Input.Points[0].Pieces[0].Length"), Typed(onBranch, "Input.Points[0].Pieces[1].Length")));
        Assert.Equal(("2", "4"), (Typed(onBranch, "Input.Points[0].JoinsAfter"), Typed(onBranch, "Input.Points[1].JoinsAfter")));
        var more = await PageAsync(await owner.PostRowsAsync(url, "More&point=0", typed));
        Assert.Equal(7, more.QuerySelectorAll("[name^='Input.Points[0].Pieces'][name$='Length']").Length);
        var less = await PageAsync(await owner.PostRowsAsync(url, "Point&without=0", typed));
        Assert.Equal(("C", "2", ""), (Typed(less, "Input.Points[0].Name"), Typed(less, "Input.Points[0].JoinsAfter"), Selected(less, "Input.Points[0].JoinsInto")));
        Assert.Null(less.QuerySelector("[name='Input.Points[1].Name']"));
        Assert.Equal(HttpStatusCode.OK, (await owner.PostRowsAsync(url, "More&point=7&at=-3", typed)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await owner.PostRowsAsync(url, "Point&without=99", typed)).StatusCode);
        Assert.Equal(0, await office.WithDbAsync(db => db.Designs.CountAsync(d => d.HouseId == house)));
    }

    [Fact]
    public async Task What_is_wrong_with_a_branch_is_told_at_its_field_and_nothing_is_saved()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, a, b) = await office.TwicePumpedHouseAsync(owner);
        var url = $"/houses/{house}/design/route";
        await RefusedAsync("Input.Points[0].JoinsAfter", "5", "The fan is piece 5 of the route, and a branch must join before it. Write a number from 0, at the pit, to 4.");
        await RefusedAsync("Input.Points[0].JoinsAfter", "soon", "Write the number of the piece as a number");
        await RefusedAsync("Input.Points[0].JoinsAfter", "", "Write the number of the piece.");
        await RefusedAsync("Input.Points[0].JoinsInto", "1", "leads round in a ring");
        await RefusedAsync("Input.Points[0].JoinsInto", "9", "Choose the line that this branch joins.");
        await RefusedAsync("Input.Points[0].TestId", "", "Choose the PFE test that drew at this point");
        await RefusedAsync("Input.Points[0].TestId", "999999", "That PFE test belongs to another house.");
        await RefusedAsync("Input.Points[0].TestId", a.ToString(CultureInfo.InvariantCulture), "Another suction point answers this PFE test already.");
        await RefusedAsync("Input.Points[0].Name", "", "Give this suction point a name");
        await RefusedAsync("Input.Points[0].Pieces[1].Kind", "Fan", "The one fan stands in the route; take the fan out of this branch.");
        await RefusedAsync("Input.Points[0].Pieces[2].Length", "0", "A pipe of no length does nothing");
        await RefusedAsync("Input.Points[0].Pieces[2].Length", "<b>30</b>", "Write the length as a number");
        var bare = BranchVerbs.Tree(a, b);
        foreach (var key in bare.Keys.Where(k => k.StartsWith("Input.Points[0].Pieces", StringComparison.Ordinal)).ToList()) bare.Remove(key);
        Assert.Contains("This branch has no pipe. Write its pieces from its pit to where it joins.", await (await owner.SubmitAsync(url, bare)).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(0, await office.WithDbAsync(db => db.Designs.CountAsync(d => d.HouseId == house)));

        async Task RefusedAsync(string field, string value, string words)
        {
            var typed = BranchVerbs.Tree(a, b);
            typed[field] = value;
            var page = await PageAsync(await owner.SubmitAsync(url, typed));
            Assert.Contains(words, page.QuerySelector("#refusals")!.TextContent, StringComparison.Ordinal);
            Assert.Contains(page.QuerySelectorAll("[aria-invalid=true]"), c => c.GetAttribute("name")!.StartsWith("Input.Points[0].", StringComparison.Ordinal));
            if (!field.EndsWith("Kind", StringComparison.Ordinal) && !field.EndsWith("Id", StringComparison.Ordinal) && !field.EndsWith("Into", StringComparison.Ordinal)) Assert.Equal(value, Typed(page, field));
        }
    }

    [Fact]
    public async Task A_test_with_suction_at_two_holes_at_once_answers_no_point_of_several()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, a, _) = await office.TwicePumpedHouseAsync(owner);
        await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", Plan.PlanVerbs.NineHoles());
        var both = await office.WithDbAsync(db => db.PressureFieldTests.Where(t => t.HouseId == house).OrderByDescending(t => t.Id).Select(t => t.Id).FirstAsync());
        var text = await (await owner.SubmitAsync($"/houses/{house}/design/route", BranchVerbs.Tree(a, both))).TextAsync();
        Assert.Contains("That PFE test drew at 2 holes at once. A suction point needs a test with suction at it alone.", text, StringComparison.Ordinal);
        Assert.Contains("holes A and B at once", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_look_draws_the_branch_while_it_is_typed_and_tells_what_lacks()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, design) = await office.TwoPointHouseAsync(owner);
        var url = $"/houses/{house}/design/route/{design}";
        var look = await (await owner.SubmitAsync(url, new() { ["Input.Points[0].Pieces[2].Length"] = "44" }, button: "button[formaction$='handler=Compute']")).Content.ReadAsStringAsync();
        Assert.Contains("A further pit, B", look, StringComparison.Ordinal);
        Assert.Contains("44 ft of 3 in pipe", look, StringComparison.Ordinal);
        Assert.Contains("Weakest hole in design winter", look, StringComparison.Ordinal);
        var lacks = await (await owner.SubmitAsync(url, new() { ["Input.Points[0].JoinsAfter"] = "9" }, button: "button[formaction$='handler=Compute']")).TextAsync();
        Assert.Contains("Not computed yet. The fan is piece 5 of the route", lacks, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_mouth_s_page_and_a_weather_record_leave_the_branches_in_the_computation()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, design) = await office.TwoPointHouseAsync(owner);
        var before = await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).Select(d => d.Version).SingleAsync());
        var answer = await owner.SubmitAsync($"/houses/{house}/design/siting", new() { ["Input.AboveGrade"] = "17" }, "#siting-form");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var after = await office.WithDbAsync(db => db.Designs.AsNoTracking().WithRoute().SingleAsync(d => d.Id == design));
        Assert.NotEqual(before, after.Version);
        Assert.Equal(2, JsonSerializer.Deserialize<DesignReport>(after.ReportJson!, DesignFileText.Json)!.Shown!.Points.Count);
        await Assert.ThrowsAsync<InvalidOperationException>(() => office.WithDbAsync(async db => await GatherDesign.FileAsync(db, await db.Designs.Include(d => d.Pieces).SingleAsync(d => d.Id == design))));
    }

    [Fact]
    public async Task A_change_keeps_the_rows_a_copy_takes_the_branches_and_a_point_can_go_again()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, design) = await office.TwoPointHouseAsync(owner);
        var url = $"/houses/{house}/design/route/{design}";
        var before = await RowsAsync(design);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync(url, new() { ["Input.Points[0].Name"] = "Family room", ["Input.Points[0].Pieces[2].Length"] = "31" })).StatusCode);
        Assert.Equal(before, await RowsAsync(design));
        Assert.Contains("Family room", await office.WithDbAsync(db => db.Audit.Where(x => x.HouseId == house && x.Subject == "SuctionBranch" && x.Act == "Modified").Select(x => x.Changes).SingleAsync()), StringComparison.Ordinal);
        await owner.SubmitAsync($"/houses/{house}/design", new(), form: "form[action*='handler=Copy']");
        var copy = await office.WithDbAsync(db => db.Designs.AsNoTracking().WithRoute().SingleAsync(d => d.HouseId == house && d.Revision == "B"));
        Assert.Equal(("Family room", 4), (copy.Branches.Single().Name, copy.Line(1).Count));
        Assert.NotNull(copy.ReportJson);
        var empty = new Dictionary<string, string> { ["Input.Points[0].Name"] = "", ["Input.Points[0].TestId"] = "", ["Input.Points[0].JoinsAfter"] = "" };
        for (var i = 0; i < 4; i++) foreach (var part in new[] { "Kind", "Length", "Rise", "LossK" }) empty[$"Input.Points[0].Pieces[{i.ToString(CultureInfo.InvariantCulture)}].{part}"] = "";
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync($"/houses/{house}/design/route/{copy.Id}", empty)).StatusCode);
        var gone = await office.WithDbAsync(db => db.Designs.AsNoTracking().WithRoute().SingleAsync(d => d.Id == copy.Id));
        Assert.Empty(gone.Branches);
        Assert.All(gone.Pieces, p => Assert.Equal(0, p.Branch));
        Assert.Equal(before, await RowsAsync(design));
    }

    [Fact]
    public async Task Materials_quote_job_and_as_built_take_the_branch_along()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, design) = await office.TwoPointHouseAsync(owner);
        var materials = await owner.TextAsync($"/houses/{house}/design/materials");
        foreach (var words in new[] { "Pipe, 3 in", "Tee, 3 in", "Hanger or strap, 3 in" }) Assert.Contains(words, materials, StringComparison.Ordinal);
        var lines = await owner.GetStringAsync($"/houses/{house}/design/materials?handler=Csv");
        Assert.Contains("\"Suction pit: core, hand pit, sleeve and seal\",2,each", lines, StringComparison.Ordinal);
        await office.WithDbAsync(async db =>
        {
            var customer = new Business.Customers.Customer { Name = "Tree Owner", Email = "tree@house.example" };
            db.Add(customer);
            await db.SaveChangesAsync();
            db.Add(new Business.Houses.HouseOwner { HouseId = house, CustomerId = customer.Id, FromDay = new DateOnly(2020, 1, 1) });
            await db.SaveChangesAsync();
            var revision = (await Business.Quotes.DraftQuote.ForHouseAsync(db, house, design, office.Clock))!;
            Assert.Contains("from 2 pits under the slab", revision.Scope, StringComparison.Ordinal);
            var full = (await Business.Quotes.Papers.GatherPaper.OfAsync(db, revision.Id))!;
            var section = Assert.Single(await Business.Quotes.Papers.GatherPaper.SectionsAsync(db, full));
            Assert.Contains("A further pit, B", section.Picture.Description, StringComparison.Ordinal);
        });
    }

    private async Task<List<(int, int)>> RowsAsync(int design) => await office.WithDbAsync(async db =>
        (await db.Designs.Where(d => d.Id == design).SelectMany(d => d.Pieces).OrderBy(p => p.Branch).ThenBy(p => p.Position).Select(p => new { p.Id, p.Branch }).ToListAsync()).ConvertAll(p => (p.Id, p.Branch)));

    private static async Task<AngleSharp.Html.Dom.IHtmlDocument> PageAsync(HttpResponseMessage answer)
    {
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync());
    }

    private static string Typed(AngleSharp.Html.Dom.IHtmlDocument page, string name) => page.QuerySelector($"[name='{name}']")?.GetAttribute("value") ?? "";

    private static string Selected(AngleSharp.Html.Dom.IHtmlDocument page, string name) => ((AngleSharp.Html.Dom.IHtmlSelectElement)page.QuerySelector($"[name='{name}']")!).Value ?? "";
}
