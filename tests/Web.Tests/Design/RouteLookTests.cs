using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Web.Tests.Design;

[Trait("Database", "either")]
public sealed class RouteLookTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task The_look_follows_the_typing_and_stores_nothing()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var owner = await office.SignInAsOwnerAsync();
        var url = $"/houses/{house}/design/route/{design}";
        var before = await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).Select(d => new { d.Version, d.ReportJson, Pieces = d.Pieces.Count }).SingleAsync());
        var best = await office.WithDbAsync(async db => (await ComputeDesign.ReadAsync(db, await db.Designs.AsNoTracking().WithRoute().SingleAsync(d => d.Id == design))).Report!.RecommendedFan);
        Assert.Contains(best is null ? "No fan of the catalogue holds." : $"Take {best}.", await owner.TextAsync(url), StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(owner, url);
        var answer = await owner.SubmitAsync(url, new() { ["Input.Pieces[5].Length"] = "99", ["Input.Pieces[5].Rise"] = "99" }, button: "button[formaction$='handler=Compute']");
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("outdoor run 99 ft", html, StringComparison.Ordinal);
        Assert.Contains("value=\"99\"", html, StringComparison.Ordinal);
        var after = await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).Select(d => new { d.Version, d.ReportJson, Pieces = d.Pieces.Count }).SingleAsync());
        Assert.Equal(before, after);
    }

    [Fact]
    public async Task What_cannot_be_read_is_told_beside_the_drawing_and_a_downspout_is_a_size()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var owner = await office.SignInAsOwnerAsync();
        var url = $"/houses/{house}/design/route/{design}";
        var odd = await (await owner.SubmitAsync(url, new() { ["Input.Pieces[2].Length"] = "eight or so" }, button: "button[formaction$='handler=Compute']")).TextAsync();
        Assert.Contains("Not computed yet. Write the length as a number", odd, StringComparison.Ordinal);
        var spout = await (await owner.SubmitAsync(url, new() { ["Input.Pieces[5].Size"] = "3x4in" }, button: "button[formaction$='handler=Compute']")).TextAsync();
        Assert.Contains("3 × 4 in downspout", spout, StringComparison.Ordinal);
        Assert.Contains("3 in thin wall", spout, StringComparison.Ordinal);
        Assert.Contains("Weakest hole in design winter", spout, StringComparison.Ordinal);
    }

    /// <summary>A second jurisdiction is data: the same mouth, held against two rule sets, gets two verdicts. EPA 402-R-93-078 §14
    /// (from memory) asks for 10 ft to the building next door; 25 Pa. Code 240.308 has its own list.</summary>
    [Fact]
    public async Task Another_jurisdiction_changes_the_verdicts_by_its_data_alone()
    {
        var (_, design) = await office.HouseWithDesignAsync();
        var file = await office.WithDbAsync(async db => (await GatherDesign.FileAsync(db, await db.Designs.WithRoute().SingleAsync(d => d.Id == design)))!);
        var verdicts = SitingRuleSets.All.Select(set => JudgeSiting.Of(file with { Discharge = file.Discharge! with { Rules = set.Id, RainCap = true, FromVerticalDeg = 90 } })!).ToList();
        Assert.True(verdicts.Count >= 2);
        Assert.Equal(verdicts.Count, verdicts.Select(v => v.Jurisdiction).Distinct().Count());
        Assert.True(verdicts.Select(v => string.Join('|', v.Rules.Select(r => r.Rule + r.Outcome))).Distinct().Count() == verdicts.Count);
        Assert.True(verdicts.Select(v => v.Rules.Count(r => r is { Outcome: "fails", Advisory: false })).Distinct().Count() > 1);
    }
}
