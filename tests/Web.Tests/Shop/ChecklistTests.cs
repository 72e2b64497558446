using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Shop;

[Trait("Database", "either")]
public sealed class ChecklistTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static int RowOf(string code) => WorkSteps.All.ToList().FindIndex(s => s.Code == code);

    [Fact]
    public async Task The_companys_own_words_reach_the_next_job_and_the_programs_come_back()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (route, clean) = (RowOf("route"), RowOf("gauge"));
        var saved = await owner.SubmitAsync("/shop/checklists?kind=SubSlabSuction", new()
        {
            [$"Rows[{route}].Words"] = "Ring the bell, then walk the route.", [$"Rows[{clean}].LeftOut"] = "true", [$"Rows[{WorkSteps.All.Count()}].Words"] = "Photograph the panel.",
        });
        Assert.True(saved.StatusCode == HttpStatusCode.Redirect, await saved.TextAsync());
        var (_, jobId) = await office.HouseWithJobAsync();
        var steps = (await office.JobAsync(jobId)).Steps.Select(s => s.Words).ToList();
        Assert.Contains("Ring the bell, then walk the route.", steps);
        Assert.Contains("Photograph the panel.", steps);
        Assert.DoesNotContain(steps, s => s.StartsWith("Fit the gauge", StringComparison.Ordinal));
        Assert.Equal(3, await office.WithDbAsync(db => db.StepTexts.CountAsync()));
        await owner.SubmitAsync("/shop/checklists?kind=SubSlabSuction", new() { [$"Rows[{route}].Words"] = "", [$"Rows[{clean}].LeftOut"] = "false", [$"Rows[{WorkSteps.All.Count()}].Words"] = "" });
        Assert.Equal(0, await office.WithDbAsync(db => db.StepTexts.CountAsync()));
    }

    [Fact]
    public async Task A_caution_may_be_worded_anew_but_not_taken_away()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (core, roof) = (RowOf("core"), RowOf("roof"));
        var refused = await owner.SubmitAsync("/shop/checklists?kind=SumpOrDrainTileSuction", new() { [$"Rows[{core}].Caution"] = "", [$"Rows[{roof}].LeftOut"] = "true", [$"Rows[{RowOf("route")}].Words"] = "Typed and kept" });
        var body = await refused.Content.ReadAsStringAsync();
        foreach (var words in new[] { "leave one here: this step can hurt someone", "carries a caution for somebody", "Typed and kept" }) Assert.Contains(words, body, StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.StepTexts.AnyAsync(t => t.Kind == SystemKind.SumpOrDrainTileSuction)));
    }

    [Fact]
    public void Every_step_has_a_code_of_its_own() => Assert.Equal(WorkSteps.All.Count(), WorkSteps.All.Select(s => s.Code).Distinct().Count());

    [Fact]
    public async Task Installers_do_not_change_the_checklist() =>
        Assert.StartsWith("/not-allowed", (await (await office.SignInAsInstallerAsync()).GetAsync("/shop/checklists")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
}
