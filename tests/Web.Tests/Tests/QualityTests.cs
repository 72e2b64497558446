using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quality;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Work;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Tests;

/// <summary>Pairs, spikes, blanks, what they owe, kits, and the exposure log.</summary>
public sealed class QualityTests(OfficeApp office) : IClassFixture<OfficeApp>, IAsyncLifetime
{
    private const string JudgeButton = "button[formaction]";

    public Task InitializeAsync()
    {
        if (office.Clock.GetUtcNow() < OfficeApp.Start.AddDays(10)) office.Clock.SetUtcNow(OfficeApp.Start.AddDays(10));
        return Task.CompletedTask;
    }

    public Task DisposeAsync() => Task.CompletedTask;

    private async Task<int> PairAsync(string first, string second, string apart = "4")
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var desk = await office.SignInAsOfficeAsync();
        var typed = WorkVerbs.TestTyped(first);
        foreach (var (field, value) in new[] { ("[0].Pair", "A"), ("[1].Kind", "Charcoal"), ("[1].Room", "Den"), ("[1].Serial", "C-102"), ("[1].Pair", "A"), ("[1].ApartBy", apart), ("[1].Result", second) }) typed["Input.Devices" + field] = value;
        var saved = await desk.SubmitAsync($"/houses/{houseId}/proof/test", typed, button: JudgeButton);
        Assert.True(saved.StatusCode == HttpStatusCode.Redirect, await saved.TextAsync());
        return houseId;
    }

    [Fact]
    public async Task Pairs_of_tests_are_charted_judged_and_what_was_done_is_written_down_once()
    {
        // ANSI/AARST MS-QA 2019, 3.5 and Table 7.1: 5.0 and 7.0 are 33.3 %, a warning; 1.2 and 2.1 differ by 0.9, within.
        var house = await PairAsync("5.0", "7.0");
        await PairAsync("1.2", "2.1");
        await PairAsync("1.0", "5.0", apart: "10");
        var desk = await office.SignInAsOfficeAsync();
        var page = await desk.GetStringAsync("/tests/quality");
        var text = await desk.TextAsync("/tests/quality");
        Assert.Contains("33.3 %", text, StringComparison.Ordinal);
        Assert.Contains("0.9 pCi/L", text, StringComparison.Ordinal);
        Assert.DoesNotContain("1, 5", text, StringComparison.Ordinal);
        Assert.Contains("Look for the cause: placing, seals", text, StringComparison.Ordinal);
        Assert.Contains("aria-labelledby=\"pairs-four-title", page, StringComparison.Ordinal);
        Assert.Contains("aria-labelledby=\"pairs-below-title", page, StringComparison.Ordinal);
        var key = await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == house).Select(t => t.Id).SingleAsync());
        var empty = await desk.SubmitAsync("/tests/quality", new() { ["words"] = " " }, $"form:has(input[value='test:{key}:A'])");
        Assert.Contains("Write what was found and done", await empty.TextAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync("/tests/quality", new() { ["words"] = "A seal was torn; batch sent back." }, $"form:has(input[value='test:{key}:A'])");
        Assert.Contains("A seal was torn; batch sent back.", await desk.TextAsync("/tests/quality"), StringComparison.Ordinal);
        Assert.Equal(1, await office.WithDbAsync(db => db.QualityActions.CountAsync(a => a.Point == $"test:{key}:A")));
    }

    [Fact]
    public async Task Spikes_and_blanks_are_entered_judged_and_counted_against_what_is_owed()
    {
        await PairAsync("1.0", "1.1");
        var desk = await office.SignInAsOfficeAsync();
        Dictionary<string, string> Typed(string kind, string serial, string shown, string against) => new() { ["Input.Kind"] = kind, ["Input.Day"] = "3/10/2026", ["Input.Serial"] = serial, ["Input.PCiL"] = shown, ["Input.Against"] = against };
        // MS-QA 2019, 5.3.3: 13.5 in 10.0 is 35 %, out of control; 12.0 is 20 %, within.
        foreach (var typed in new[] { Typed("Spike", "S-1", "13.5", "10.0"), Typed("Spike", "S-2", "12.0", "10.0"), Typed("Blank", "B-1", "0.6", "0.4"), Typed("Blank", "B-2", "", "") })
            Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/tests/quality/new", typed)).StatusCode);
        var text = await desk.TextAsync("/tests/quality");
        foreach (var words in new[] { "35.0 %", "20.0 %", "Stop using the batch", "above its limit of detection of 0.4", "Blank B-2", "Twelve months", "of 3" }) Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Contains("Quarter 1, 2026", await desk.TextAsync("/tests/quality?by=quarter"), StringComparison.Ordinal);
        Assert.Contains("Spike,2026-03-10", await desk.GetStringAsync("/tests/quality?handler=csv"), StringComparison.Ordinal);
        Assert.Contains("above 0 pCi/L", await (await desk.SubmitAsync("/tests/quality/new", Typed("Spike", "S-3", "1", "0"))).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("second device", await (await desk.SubmitAsync("/tests/quality/new", Typed("Pair", "S-4", "1", "1"))).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("time to come", await (await desk.SubmitAsync("/tests/quality/new", new(Typed("Blank", "S-5", "", "")) { ["Input.Day"] = "3/10/2031" })).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Kits_go_out_are_nagged_for_opened_and_their_result_fills_the_test()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var desk = await office.SignInAsOfficeAsync();
        var (a, b) = ($"K-{houseId}1", $"K-{houseId}2");
        var outUrl = $"/tests/kits/new?house={houseId}";
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(outUrl, new() { ["Input.Serials"] = $"{a}\n{b}", ["Input.OutOn"] = "3/3/2026", ["Input.BackBy"] = "3/9/2026" })).StatusCode);
        Assert.Contains("went out to", await (await desk.SubmitAsync(outUrl, new() { ["Input.Serials"] = a.ToLowerInvariant(), ["Input.OutOn"] = "3/3/2026" })).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("stands twice", await (await desk.SubmitAsync(outUrl, new() { ["Input.Serials"] = "Z1\nz-1", ["Input.OutOn"] = "3/3/2026" })).TextAsync(), StringComparison.Ordinal);
        Assert.Contains($"Kit {a}", await desk.TextAsync("/"), StringComparison.Ordinal);
        Assert.Contains("2 kits are out for this house", await desk.TextAsync($"/houses/{houseId}/proof"), StringComparison.Ordinal);
        Task<TestKit> KitAsync(string serial) => office.WithDbAsync(db => db.TestKits.AsNoTracking().SingleAsync(k => k.Serial == serial));
        var first = await KitAsync(a);
        var early = await desk.SubmitAsync($"/tests/kits/{first.Id}", new() { ["Input.Result"] = "0.9" });
        Assert.Contains("was not opened in a room yet", await early.TextAsync(), StringComparison.Ordinal);
        var opened = new Dictionary<string, string> { ["Input.Closed.Day"] = "3/3/2026", ["Input.Closed.Time"] = "6 pm", ["Input.Started.Day"] = "3/4/2026", ["Input.Started.Time"] = "9 am", ["Input.Devices[0].Room"] = "Den", ["Input.Devices[1].Room"] = "Bedroom" };
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync($"/houses/{houseId}/proof/test?kits=1", opened)).StatusCode);
        Assert.Equal(KitState.Placed, (await KitAsync(a)).State);
        Assert.Contains("the day of closing", await (await desk.SubmitAsync($"/tests/kits/{first.Id}", new() { ["Input.Result"] = "0.9", ["Input.Ended.Time"] = "9 am" })).TextAsync(), StringComparison.Ordinal);
        var result = new Dictionary<string, string> { ["Input.Result"] = "0.9", ["Input.Ended.Day"] = "3/6/2026", ["Input.Ended.Time"] = "10 am", ["Input.SentToLabOn"] = "3/6/2026" };
        var read = await desk.SubmitAsync($"/tests/kits/{first.Id}", result);
        Assert.True(read.StatusCode == HttpStatusCode.Redirect, await read.TextAsync());
        await desk.SubmitAsync($"/tests/kits/{(await KitAsync(b)).Id}", new() { ["Input.Result"] = "1.2" });
        var test = await office.WithDbAsync(db => db.RadonTests.AsNoTracking().Include(t => t.Devices).SingleAsync(t => t.HouseId == houseId));
        Assert.Equal([0.9m, 1.2m], test.Devices.OrderBy(d => d.Id).Select(d => d.PCiL!.Value));
        Assert.NotNull(test.EndedAtUtc);
        await desk.SubmitAsync($"/houses/{houseId}/proof/test?test={test.Id}", [], button: JudgeButton);
        Assert.Equal(TestOutcome.BelowTarget, await office.WithDbAsync(db => db.RadonTests.Where(t => t.Id == test.Id).Select(t => t.Outcome).SingleAsync()));
        Assert.DoesNotContain($"Kit {a}", await desk.TextAsync("/"), StringComparison.Ordinal);
        Assert.Contains(a, await desk.GetStringAsync("/tests/kits?show=read&handler=csv"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_lost_kit_is_written_off_and_dates_out_of_order_are_refused()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var crew = await office.SignInAsInstallerAsync();
        await crew.SubmitAsync($"/tests/kits/new?house={houseId}", new() { ["Input.Serials"] = $"L-{houseId}", ["Input.OutOn"] = "3/3/2026" });
        var kit = await office.WithDbAsync(db => db.TestKits.AsNoTracking().SingleAsync(k => k.HouseId == houseId));
        Assert.Equal(new DateOnly(2026, 3, 13), kit.BackBy);
        Assert.Contains("before the kit went out", await (await crew.SubmitAsync($"/tests/kits/{kit.Id}", new() { ["Input.LostOn"] = "3/1/2026" })).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await crew.SubmitAsync($"/tests/kits/{kit.Id}", new() { ["Input.LostOn"] = "3/11/2026" })).StatusCode);
        Assert.Contains($"L-{houseId}", await crew.TextAsync("/tests/kits?show=lost"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync("/tests/kits/999999")).StatusCode);
        Assert.Contains("Kits go to a house", await crew.TextAsync("/tests/kits/new"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_worker_writes_hours_the_year_is_summed_and_a_wrong_line_is_struck_out_and_stays()
    {
        // 200 pCi/L at a ratio of 0.5 is 1 WL; 17 h of it are 0.1 WLM (definition of the working level month, 170 h).
        var crew = await office.SignInAsInstallerAsync();
        Dictionary<string, string> Typed(string day, string hours, string level) => new() { ["Input.Day"] = day, ["Input.Where"] = "A cold basement", ["Input.Hours"] = hours, ["Input.PCiL"] = level };
        Assert.Equal(HttpStatusCode.Redirect, (await crew.SubmitAsync("/exposure", Typed("3/3/2026", "17", "200"))).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await crew.SubmitAsync("/exposure", Typed("3/3/2025", "17", "200"))).StatusCode);
        var text = await crew.TextAsync("/exposure");
        Assert.Contains("0.100 WLM", text, StringComparison.Ordinal);
        Assert.Contains("Mar 3, 2046", text, StringComparison.Ordinal);
        Assert.Contains("32 Ill. Adm. Code 422.70(e)", text, StringComparison.Ordinal);
        Assert.Contains("more than 24 hours", await (await crew.SubmitAsync("/exposure", Typed("3/3/2026", "8", "4"))).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("still to come", await (await crew.SubmitAsync("/exposure", Typed("3/3/2031", "8", "4"))).TextAsync(), StringComparison.Ordinal);
        var struck = await office.WithDbAsync(db => db.ExposureDays.Where(d => d.Day == new DateOnly(2026, 3, 3)).Select(d => d.Id).SingleAsync());
        var strike = await crew.SubmitAsync("/exposure", new() { ["why"] = "Wrong day", ["line"] = $"{struck}" }, "form[action*='handler=Strike']");
        Assert.True(strike.StatusCode == HttpStatusCode.Redirect, await strike.TextAsync());
        Assert.Contains("0.000 WLM", await crew.TextAsync("/exposure"), StringComparison.Ordinal);
        Assert.Equal(2, await office.WithDbAsync(db => db.ExposureDays.CountAsync()));
        var (ada, cleo) = await office.WithDbAsync(async db => (await db.Users.Where(u => u.FullName == "Ada Quill").Select(u => u.Id).SingleAsync(), await db.Users.Where(u => u.FullName == "Cleo Marsh").Select(u => u.Id).SingleAsync()));
        Assert.StartsWith("/not-allowed", (await crew.GetAsync($"/exposure/{ada}")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Struck out: Wrong day", await desk.TextAsync($"/exposure/{cleo}"), StringComparison.Ordinal);
        Assert.Contains("A cold basement,200,17,0.5", await desk.GetStringAsync($"/exposure/{cleo}?handler=csv"), StringComparison.Ordinal);
        using var pdf = PdfDocument.Open(await crew.GetByteArrayAsync("/exposure?handler=pdf"));
        Assert.Contains("Cleo Marsh", string.Join(' ', pdf.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Courses_are_counted_against_the_hours_a_licence_asks_for()
    {
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync("/shop/licences", new() { ["Rows[0].Holder"] = "Ada Quill", ["Rows[0].Number"] = "MN-9", ["Rows[0].IssuedBy"] = "The state", ["Rows[0].ExpiresOn"] = "4/1/2026", ["Rows[0].HoursNeeded"] = "8" });
        var id = await office.WithDbAsync(db => db.Licences.Where(l => l.Number == "MN-9").Select(l => l.Id).SingleAsync());
        Assert.Contains("8 h of education still missing", await desk.TextAsync("/"), StringComparison.Ordinal);
        var url = $"/shop/licences/{id}";
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(url, new() { ["Input.Day"] = "2/1/2026", ["Input.Title"] = "Sumps", ["Input.Hours"] = "3.5" })).StatusCode);
        Assert.Contains("4.5 h missing", await desk.TextAsync(url), StringComparison.Ordinal);
        Assert.Contains("4.5 h of education still missing", await desk.TextAsync("/"), StringComparison.Ordinal);
        await desk.SubmitAsync(url, [], "form[action*='handler=Turn']");
        Assert.Contains("8 h missing", await desk.TextAsync(url), StringComparison.Ordinal);
        Assert.Contains("Write the name of the course", await (await desk.SubmitAsync(url, new() { ["Input.Day"] = "2/1/2026", ["Input.Hours"] = "3" })).TextAsync(), StringComparison.Ordinal);
    }
}
