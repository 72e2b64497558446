using AngleSharp.Html.Parser;

namespace MitigationOffice.Web.Tests.Work;

/// <summary>The work sheet once the job is done: what one comes back for first, the rest folded, nothing gone.</summary>
public sealed class DoneSheetTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static readonly string[] Parts = ["plan", "permit", "appointments", "checklist", "photos", "changes", "as-built"];

    [Fact]
    public async Task A_done_job_shows_what_was_built_first_and_folds_plan_permit_and_checklist()
    {
        var (houseId, jobId, _) = await office.HouseWithRunningSystemAsync("DS-1");
        var desk = await office.SignInAsOfficeAsync();
        var url = $"/houses/{houseId}/work?job={jobId}";
        var open = new HtmlParser().ParseDocument(await desk.GetStringAsync(url));
        Assert.Equal(Parts, Order(open));
        Assert.Empty(open.QuerySelectorAll("details.fold"));
        var ticks = open.QuerySelectorAll("input[name^='Steps['][name$='.Id']").Select((id, i) => $"Steps[{i}].Done").ToDictionary(n => n, _ => "true");
        await desk.SubmitAsync(url, ticks, "form[action*='handler=Steps']");
        var closed = await desk.SubmitAsync(url, new() { ["Closing.DoneOn"] = "3/2/2026" }, "form[action*='handler=Finish']");
        Assert.True(closed.StatusCode == System.Net.HttpStatusCode.Redirect, await closed.TextAsync());

        var done = new HtmlParser().ParseDocument(await desk.GetStringAsync(url));
        Assert.Equal(["as-built", "photos", "changes", "checklist", "plan", "permit", "appointments"], Order(done));
        Assert.Equal(["checklist", "plan", "permit", "appointments"], done.QuerySelectorAll("details.fold:not([open]) > div[id]").Select(d => d.Id));
        Assert.All(done.QuerySelectorAll("details.fold"), d => Assert.NotNull(d.QuerySelector("summary h2")));
        Assert.Equal(Order(done), done.QuerySelectorAll("nav[aria-label='On this sheet'] a[href^='#']").Select(a => a.GetAttribute("href")![1..]));
        Assert.Equal(ticks.Count, done.QuerySelectorAll("#checklist .big-tick input[checked]").Length);

        // What is refused stands open.
        var refused = await desk.SubmitAsync(url, new() { ["Steps[0].Id"] = "1", ["Notes"] = "late words", ["NotesWas"] = "something else" }, "form[action*='handler=Steps']");
        var again = new HtmlParser().ParseDocument(await refused.Content.ReadAsStringAsync());
        Assert.Empty(again.QuerySelectorAll("details.fold"));
        Assert.Contains("late words", again.QuerySelector("#Notes")!.TextContent, StringComparison.Ordinal);
    }

    private static IEnumerable<string> Order(AngleSharp.Dom.IDocument page) => page.QuerySelectorAll("main [id]").Select(e => e.Id!).Where(Parts.Contains);
}
