using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Tests.Work;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Systems;

/// <summary>The backdraft check, appliance by appliance, and what it stops.</summary>
[Trait("Database", "either")]
public sealed class BackdraftTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static void TwoThatDraw(House h) => h.Appliances.AddRange([new Appliance { Name = "Water heater", Draft = Draft.Natural }, new Appliance { Name = "Furnace", Draft = Draft.Natural }, new Appliance { Name = "Dryer", Draft = Draft.Electric }]);

    private async Task<(string Url, int HouseId, int JobId, HttpClient Crew, Dictionary<string, string> Typed)> BeginAsync(string tag)
    {
        var (house, jobId) = await office.HouseWithJobAsync(TwoThatDraw);
        return ($"/houses/{house.HouseId}/work/as-built?job={jobId}", house.HouseId, jobId, await office.SignInAsInstallerAsync(), await office.AsBuiltTypedAsync(tag));
    }

    [Fact]
    public async Task Every_appliance_that_draws_by_a_chimney_is_asked_for_by_its_name()
    {
        var (url, _, _, crew, _) = await BeginAsync("BD-1");
        var page = new HtmlParser().ParseDocument(await crew.GetStringAsync(url));
        Assert.Equal(["Water heater", "Furnace", ""], page.QuerySelectorAll("#backdraft input[name$='.Appliance']").Select(i => i.GetAttribute("value") ?? ""));
        Assert.False(page.QuerySelector("#Input_NothingDraws")!.HasAttribute("checked"));
    }

    [Theory]
    [InlineData("", "", "true", "false", "Make the backdraft check (Water heater, Furnace) before the system is left running")]
    [InlineData("Draws", "", "true", "false", "Make the backdraft check (Furnace) before the system is left running")]
    [InlineData("Draws", "Spills", "true", "false", "Furnace: the backdraft check failed, this system must not be left running. Switch the system off at its breaker")]
    [InlineData("Spills", "Spills", "true", "false", "Water heater, Furnace: the backdraft check failed, this system must not be left running.")]
    [InlineData("", "", "true", "true", "There is something to check: Water heater, Furnace.")]
    public async Task A_system_is_not_left_running_without_a_good_check_of_each(string heater, string furnace, string running, string nothing, string words)
    {
        var (url, _, jobId, crew, typed) = await BeginAsync($"BD-2{heater}{furnace}{nothing}");
        (typed["Input.Drafts[0].Result"], typed["Input.Drafts[1].Result"], typed["Input.LeftRunning"], typed["Input.NothingDraws"], typed["Input.BackdraftNotes"]) = (heater, furnace, running, nothing, "Owner told");
        var answer = await crew.SubmitAsync(url, typed);
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"HX-77\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Systems.AnyAsync(s => s.JobId == jobId)));
    }

    [Theory]
    [InlineData("Input.Drafts[0].Minutes", "6", "Water heater spilled for more than 5 minutes: that is spilling, not drawing.")]
    [InlineData("Input.Drafts[0].Minutes", "a while", "minutes it spilled")]
    [InlineData("Input.Drafts[2].Appliance", "furnace", "furnace stands here twice")]
    [InlineData("Input.Drafts[2].Result", "Draws", "Write the appliance that was checked.")]
    public async Task What_does_not_fit_together_is_refused_in_words(string field, string value, string words)
    {
        var (url, _, _, crew, typed) = await BeginAsync($"BD-3{value}{field[^6..]}");
        (typed["Input.Drafts[0].Result"], typed["Input.Drafts[1].Result"], typed[field]) = ("Draws", "Draws", value);
        var answer = await crew.SubmitAsync(url, typed);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_appliance_that_is_not_on_sheet_1_blocks_as_well()
    {
        var (url, _, _, crew, typed) = await BeginAsync("BD-4");
        (typed["Input.Drafts[0].Result"], typed["Input.Drafts[1].Result"], typed["Input.Drafts[2].Appliance"], typed["Input.Drafts[2].Result"], typed["Input.BackdraftNotes"]) = ("Draws", "Draws", "Fireplace", "Spills", "Told not to light it");
        Assert.Contains("Fireplace: the backdraft check failed, this system must not be left running.", await (await crew.SubmitAsync(url, typed)).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_failed_check_with_the_system_off_is_recorded_says_what_to_do_and_is_lifted_by_a_passed_one()
    {
        var (url, houseId, _, crew, typed) = await BeginAsync("BD-5");
        (typed["Input.Drafts[0].Result"], typed["Input.Drafts[0].Minutes"], typed["Input.Drafts[1].Result"], typed["Input.Drafts[1].Minutes"], typed["Input.Drafts[1].Notes"]) = ("Draws", "1.5", "Spills", "8", "Dryer and bath fan on");
        typed["Input.LeftRunning"] = "false";
        Assert.Contains("Write what was said to the owner about Furnace.", await (await crew.SubmitAsync(url, typed)).TextAsync(), StringComparison.Ordinal);
        typed["Input.BackdraftNotes"] = "Owner keeps the breaker off";
        var recorded = await crew.SubmitAsync(url, typed);
        Assert.True(recorded.StatusCode == HttpStatusCode.Redirect, await recorded.TextAsync());
        var off = await SystemAsync(houseId);
        Assert.Equal((BackdraftCheck.Failed, false), (off.Backdraft, off.LeftRunning));
        Assert.Equal([("Water heater", DraftResult.Draws, 1.5m), ("Furnace", DraftResult.Spills, 8m)], off.DraftChecks.OrderBy(c => c.Id).Select(c => (c.Appliance, c.Result, c.SpilledMinutes!.Value)));
        var sheet = await crew.TextAsync($"/houses/{houseId}/work");
        Assert.Contains("Furnace: the backdraft check failed. Switch the system off at its breaker", sheet, StringComparison.Ordinal);
        Assert.Contains("Furnace: spills, spilled for 8 min (Dryer and bath fan on)", sheet, StringComparison.Ordinal);

        await crew.SubmitAsync(url, new() { ["Input.Drafts[1].Result"] = "Draws", ["Input.Drafts[1].Minutes"] = "0.5", ["Input.Drafts[1].Notes"] = "", ["Input.LeftRunning"] = "true" });
        var on = await SystemAsync(houseId);
        Assert.Equal((true, BackdraftCheck.Passed, Money.FromDollars(2310.50m), 2, 3), (on.LeftRunning, on.Backdraft, on.Price, on.FinalSuctions.Count, on.Components.Count));
        await crew.SubmitAsync($"/houses/{houseId}/work", [], "form[action*='handler=Papers']");
        using var packet = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{(await SystemAsync(houseId)).PacketDocumentId}"));
        Assert.Contains("Furnace: draws, spilled for 0.5 min", string.Join(' ', packet.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text)), StringComparison.Ordinal);
    }

    private Task<InstalledSystem> SystemAsync(int houseId) => office.WithDbAsync(db => db.Systems.AsNoTracking().Include(s => s.DraftChecks).Include(s => s.FinalSuctions).Include(s => s.Components).SingleAsync(s => s.HouseId == houseId));
}
