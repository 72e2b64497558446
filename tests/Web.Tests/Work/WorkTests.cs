using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Tests.Work;

public sealed class WorkTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Plan = "form[action*='handler=Plan']";
    private const string Steps = "form[action*='handler=Steps']";
    private const string Finish = "form[action*='handler=Finish']";

    [Fact]
    public async Task An_accepted_offer_waits_in_the_list_until_its_job_is_opened()
    {
        var house = await office.HouseWithAcceptedOfferAsync();
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains(house.Street, await desk.TextAsync("/work"), StringComparison.Ordinal);
        await desk.SubmitAsync("/work", new() { ["acceptanceId"] = $"{house.AcceptanceId}" }, "form[action*='handler=Open']");
        var job = await office.WithDbAsync(db => db.Jobs.Include(j => j.Steps).SingleAsync(j => j.AcceptanceId == house.AcceptanceId));
        Assert.Matches(@"^J-2026-\d{4}$", job.Number);
        Assert.Equal(JobState.ToPlan, job.State);
        Assert.NotEmpty(job.Steps);
    }

    [Fact]
    public async Task Opening_the_same_job_ten_times_at_once_makes_one()
    {
        var house = await office.HouseWithAcceptedOfferAsync();
        var ids = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => Task.Run(async () =>
        {
            await using var scope = office.Services.CreateAsyncScope();
            return await OpenJob.RunAsync(scope.ServiceProvider.GetRequiredService<OfficeDb>(), house.AcceptanceId, office.Clock);
        })));
        Assert.Single(ids.Distinct());
        Assert.Equal(1, await office.WithDbAsync(db => db.Jobs.CountAsync(j => j.AcceptanceId == house.AcceptanceId)));
    }

    [Fact]
    public async Task A_stale_link_to_a_house_a_job_or_a_paper_is_not_found()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var other = await office.HouseWithAcceptedOfferAsync();
        var desk = await office.SignInAsOfficeAsync();
        foreach (var url in new[] { "/houses/999999/work", $"/houses/{house.HouseId}/work?job=999999", $"/houses/{other.HouseId}/work?job={jobId}", $"/houses/{other.HouseId}/work/as-built?job={jobId}", $"/houses/{house.HouseId}/papers/999999", "/work/week?from=never" })
            Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync(url)).StatusCode);
    }

    [Fact]
    public async Task A_house_without_an_offer_says_where_work_comes_from()
    {
        var houseId = await office.WithDbAsync(async db =>
        {
            var house = new House { Street = "1 Empty Row", City = "Birchford", State = "MN", Zip = "55999" };
            db.Add(house);
            await db.SaveChangesAsync();
            return house.Id;
        });
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("once the owner of the house has accepted an offer", await desk.TextAsync($"/houses/{houseId}/work"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_caution_of_the_checklist_stands_beside_its_step_with_a_source()
    {
        var (house, jobId) = await office.HouseWithJobAsync(h =>
        {
            h.VermiculiteSuspected = true;
            h.Sump = SumpKind.Sealed;
            h.Areas.Add(new FoundationArea { Name = "Crawl", Kind = FoundationKind.CrawlSpace });
            h.Appliances.Add(new Appliance { Name = "Water heater", Draft = Draft.Natural });
        });
        var job = await office.JobAsync(jobId);
        Assert.All(job.Steps.Where(s => s.Caution.Length > 0), s => Assert.NotEmpty(s.CautionSource));
        var text = await (await office.SignInAsInstallerAsync()).TextAsync($"/houses/{house.HouseId}/work");
        foreach (var source in new[] { "29 CFR 1926.1153", "1926.501", "1926.1053", "40 CFR 745", "1926 Subpart AA", "4.3.3", "14.6" }) Assert.Contains(source, text, StringComparison.Ordinal);
        foreach (var words in new[] { "Vermiculite", "licensed electrician", "No wire runs inside the vent pipe", "Fit what was sold besides: Freeze-guard heat cable", "come before anything written here" }) Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Contains(job.Steps, s => s.Words.StartsWith("Make the backdraft check", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_house_of_1990_without_vermiculite_has_no_lead_and_no_attic_step()
    {
        var (_, jobId) = await office.HouseWithJobAsync(h => h.YearBuilt = 1990);
        var job = await office.JobAsync(jobId);
        Assert.DoesNotContain(job.Steps, s => s.CautionSource.Contains("40 CFR 745", StringComparison.Ordinal) || s.Caution.StartsWith("Vermiculite", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_day_inside_the_time_to_cancel_needs_a_written_reason()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var desk = await office.SignInAsOfficeAsync();
        var refused = await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "3/5/2026", ["Input.Crew"] = "North" }, Plan);
        Assert.Contains("The buyer may cancel until the end of Mar 5, 2026", await refused.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"North\"", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(JobState.ToPlan, (await office.JobAsync(jobId)).State);
        await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "3/5/2026", ["Input.CancelWindowWaiver"] = "42 pCi/L, the buyer asked in writing" }, Plan);
        var job = await office.JobAsync(jobId);
        Assert.Equal((JobState.Planned, new DateOnly(2026, 3, 5), "42 pCi/L, the buyer asked in writing"), (job.State, job.Day, job.CancelWindowWaiver));
    }

    [Theory]
    [InlineData("tomorrow", "Write the day of the work as month/day/year")]
    [InlineData("3/1/2026", "the work cannot come before it")]
    [InlineData("2/30/2026", "Write the day of the work as month/day/year")]
    public async Task An_absurd_day_is_refused_in_words(string day, string words)
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = day, ["Input.Days[0].ArriveAt"] = "900 degrees" }, Plan);
        var text = await answer.TextAsync();
        Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Contains("Write the time of arrival as hours and minutes", text, StringComparison.Ordinal);
        Assert.Equal(JobState.ToPlan, (await office.JobAsync(jobId)).State);
    }

    [Fact]
    public async Task Two_jobs_of_one_crew_on_one_day_stand_with_a_warning()
    {
        var desk = await office.SignInAsOfficeAsync();
        var first = await office.HouseWithJobAsync();
        var second = await office.HouseWithJobAsync();
        foreach (var (house, _) in new[] { first, second })
            Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "4/14/2026", ["Input.Crew"] = house.HouseId == first.House.HouseId ? "Crew South" : "crew  south" }, Plan)).StatusCode);
        Assert.Contains($"is planned elsewhere on the same day: {(await office.JobAsync(first.JobId)).Number}", await desk.TextAsync($"/houses/{second.House.HouseId}/work"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_people_planning_the_same_job_see_each_others_plan()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "3/20/2026", ["Input.Crew"] = "North" }, Plan);
        var late = await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "3/21/2026", ["Input.Crew"] = "South", ["Version"] = "0" }, Plan);
        Assert.Contains("They saved “North”; you wrote “South”.", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Equal("North", (await office.JobAsync(jobId)).Crew);
    }

    [Fact]
    public async Task Two_installers_ticking_different_steps_lose_nothing()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var (one, two) = (await office.SignInAsInstallerAsync(), await office.SignInAsOwnerAsync());
        var url = $"/houses/{house.HouseId}/work";
        var steps = (await office.JobAsync(jobId)).Steps.OrderBy(s => s.Position).ToList();
        await one.SubmitAsync(url, new() { ["Steps[0].Done"] = "true", ["Notes"] = "Joint along the north wall sealed" }, Steps);
        // The second one's list was opened before the first one saved: it still says that step 1 was not done.
        await two.SubmitAsync(url, new() { ["Steps[0].Was"] = "false", ["Steps[0].Done"] = "false", ["Steps[1].Done"] = "true", ["Steps[2].NotNeeded"] = "No tile here", ["NotesWas"] = "", ["Notes"] = "", ["NewStep"] = "Paint the pipe" }, Steps);
        var job = await office.JobAsync(jobId);
        Assert.Equal("Cleo Marsh", job.Steps.Single(s => s.Id == steps[0].Id).DoneBy);
        Assert.Equal("Ada Quill", job.Steps.Single(s => s.Id == steps[1].Id).DoneBy);
        Assert.Equal("No tile here", job.Steps.Single(s => s.Id == steps[2].Id).NotNeededBecause);
        Assert.Equal("Joint along the north wall sealed", job.Notes);
        Assert.Equal("Paint the pipe", job.Steps.MaxBy(s => s.Position)!.Words);
    }

    [Fact]
    public async Task Notes_that_somebody_else_changed_are_not_overwritten()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        await crew.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Notes"] = "First" }, Steps);
        var late = await crew.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["NotesWas"] = "", ["Notes"] = "Second" }, Steps);
        Assert.Contains("Someone else wrote notes meanwhile: “First”", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("Second</textarea>", await late.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("First", (await office.JobAsync(jobId)).Notes);
    }

    [Fact]
    public async Task A_job_is_done_only_when_its_steps_are_settled_and_the_as_built_is_recorded()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{house.HouseId}/work";
        var early = await (await crew.SubmitAsync(url, [], Finish)).TextAsync();
        Assert.Contains("Record what was built first", early, StringComparison.Ordinal);
        Assert.Contains("Still open on the checklist: 1 Walk the route", early, StringComparison.Ordinal);
        await crew.SubmitAsync($"{url}/as-built?job={jobId}", await office.AsBuiltTypedAsync($"MN-F{jobId}"));
        var ticks = (await office.JobAsync(jobId)).Steps.Select((_, i) => $"Steps[{i}].Done").ToDictionary(k => k, _ => "true");
        await crew.SubmitAsync(url, ticks, Steps);
        var future = await (await crew.SubmitAsync(url, new() { ["Closing.DoneOn"] = "12/24/2026" }, Finish)).TextAsync();
        Assert.Contains("has not come yet", future, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await crew.SubmitAsync(url, new() { ["Closing.DoneOn"] = "3/2/2026" }, Finish)).StatusCode);
        var job = await office.JobAsync(jobId);
        Assert.Equal((JobState.Done, new DateOnly(2026, 3, 2)), (job.State, job.DoneOn));
    }

    [Fact]
    public async Task A_job_is_called_off_with_its_reason_and_that_can_be_taken_back()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var desk = await office.SignInAsOfficeAsync();
        var url = $"/houses/{house.HouseId}/work";
        Assert.Contains("Write why the job is called off", await (await desk.SubmitAsync(url, [], "form[action*='handler=CallOff']")).TextAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync(url, new() { ["Closing.CalledOffBecause"] = "The house was sold" }, "form[action*='handler=CallOff']");
        Assert.Equal(JobState.CalledOff, (await office.JobAsync(jobId)).State);
        Assert.Contains("Called off. The house was sold", await desk.TextAsync(url), StringComparison.Ordinal);
        await desk.SubmitAsync(url, [], "form[action*='handler=TakeBack']");
        Assert.Equal(JobState.ToPlan, (await office.JobAsync(jobId)).State);
    }

    [Fact]
    public async Task An_installer_sees_no_price_and_may_not_plan_open_or_call_off()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var waiting = await office.HouseWithAcceptedOfferAsync();
        var (crew, desk) = (await office.SignInAsInstallerAsync(), await office.SignInAsOfficeAsync());
        var url = $"/houses/{house.HouseId}/work";
        foreach (var page in new[] { url, $"{url}/as-built?job={jobId}", "/work", "/work/week" })
        {
            var html = await (await crew.GetAsync(page)).Content.ReadAsStringAsync();
            Assert.DoesNotContain("2,310.50", html, StringComparison.Ordinal);
            Assert.DoesNotContain("2310.50", html, StringComparison.Ordinal);
            Assert.DoesNotContain("693.15", html, StringComparison.Ordinal);
        }

        Assert.Contains("2,310.50", await desk.TextAsync(url), StringComparison.Ordinal);
        foreach (var (handler, at) in new[] { ("Plan", house.HouseId), ("CallOff", house.HouseId), ("TakeBack", house.HouseId), ("Open", waiting.HouseId) })
        {
            var denied = await PostWithTokenAsync(crew, $"/houses/{at}/work?handler={handler}", new() { ["acceptanceId"] = $"{waiting.AcceptanceId}", ["Input.Days[0].Day"] = "5/5/2026", ["Closing.CalledOffBecause"] = "no" });
            Assert.StartsWith("/not-allowed", denied.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        }

        Assert.Equal(JobState.ToPlan, (await office.JobAsync(jobId)).State);
        Assert.False(await office.WithDbAsync(db => db.Jobs.AnyAsync(j => j.AcceptanceId == waiting.AcceptanceId)));
    }

    [Fact]
    public async Task The_list_finds_sorts_and_goes_out_as_csv_without_formulas()
    {
        var (house, jobId) = await office.HouseWithJobAsync(h => h.Street = "=2+5 Wren Way, \"rear\"");
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "6/9/2026", ["Input.Days[0].ArriveAt"] = "8:30 am", ["Input.Crew"] = "@North" }, Plan);
        Assert.Contains("Wren Way", await desk.TextAsync("/work?find=wren&sort=-day"), StringComparison.Ordinal);
        Assert.DoesNotContain("Wren Way", await desk.TextAsync("/work?find=nobody"), StringComparison.Ordinal);
        Assert.DoesNotContain("Wren Way", await desk.TextAsync("/work?show=Done"), StringComparison.Ordinal);
        var csv = await desk.GetAsync("/work?find=wren&handler=csv");
        var bytes = await csv.Content.ReadAsByteArrayAsync();
        Assert.Equal([0xEF, 0xBB, 0xBF], bytes[..3]);
        var lines = System.Text.Encoding.UTF8.GetString(bytes[3..]).Split("\r\n");
        Assert.StartsWith($"{(await office.JobAsync(jobId)).Number},\"'=2+5 Wren Way, \"\"rear\"\"\",Birchford", lines[1], StringComparison.Ordinal);
        Assert.Contains("2026-06-09,08:30,'@North", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_week_shows_the_visits_of_each_day_in_order()
    {
        var (house, _) = await office.HouseWithJobAsync();
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "7/15/2026", ["Input.Days[0].ArriveAt"] = "2 pm" }, Plan);
        var text = await desk.TextAsync("/work/week?from=7/18/2026");
        Assert.Contains("Week of Jul 13, 2026", text, StringComparison.Ordinal);
        Assert.Matches(@"Wednesday, Jul 15\s+sheet\s+2:00 PM " + house.Street, text);
    }

    internal static async Task<HttpResponseMessage> PostWithTokenAsync(HttpClient client, string url, Dictionary<string, string> fields)
    {
        var page = new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await (await client.GetAsync("/work")).Content.ReadAsStringAsync());
        fields["_form"] = page.QuerySelector("input[name=_form]")!.GetAttribute("value")!;
        return await client.PostAsync(url, new FormUrlEncodedContent(fields));
    }
}
