using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Diagnosis;

namespace MitigationOffice.Web.Tests.Diagnosis;

[Trait("Database", "either")]
public sealed class PfeTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Readings_typed_in_several_ways_are_kept_in_pascal_with_suction_as_minus()
    {
        var house = await office.HouseWithReadingsAsync();
        var test = await TestAsync(house);
        Assert.Equal([363.67, 224.18], test.Settings.OrderBy(s => s.Position).Select(s => Math.Round(s.PitVacuumPa, 2, MidpointRounding.AwayFromZero)));
        Assert.Equal([-345, -213, -12.1, -7.4, -6, -3.7], test.TestHoles.OrderBy(h => h.Position).SelectMany(h => h.Readings.OrderBy(r => r.FanSettingId)).Select(r => r.FanOnPa));
        Assert.Equal(8.38, test.TestHoles.Single(h => h.Label == "far").DistanceM!.Value, 2);
        Assert.Equal("3.7", test.TestHoles.Single(h => h.Label == "far").Readings.Single(r => r.FanOnPa == -3.7).AsEntered);
    }

    [Fact]
    public async Task A_reading_with_a_plus_stays_pressure_and_is_warned_about_not_refused()
    {
        var house = await office.PlainHouseAsync();
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", new()
        {
            ["Input.Outdoor"] = "20", ["Input.Settings[0].Label"] = "vacuum", ["Input.Settings[0].PitVacuum"] = "-500 Pa",
            ["Input.Holes[0].FanOff"] = "0.5", ["Input.Holes[0].On[0]"] = "+2.4", ["Input.Holes[1].On[0]"] = "700",
        });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var text = await owner.TextAsync(answer.Headers.Location!.OriginalString);
        Assert.Contains("T1: the gauge shows +2.4 Pa with vacuum, less suction than with the fan off (+0.5 Pa)", text, StringComparison.Ordinal);
        Assert.Contains("T2: 700 Pa of suction is more than the 2.01 inWC at the pit", text, StringComparison.Ordinal);
        Assert.Contains("The house has 2 test holes; 3 are owed", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inches_of_water_written_down_as_pascals_are_noticed_and_places_on_the_plan_give_the_distances()
    {
        var house = await office.PlainHouseAsync();
        var owner = await office.SignInAsOwnerAsync();
        var form = new Dictionary<string, string>
        {
            ["Input.Outdoor"] = "20", ["Input.Suction[0].At"] = "20,13", ["Input.Settings[0].Label"] = "vacuum", ["Input.Settings[0].PitVacuum"] = "2", ["Input.Settings[0].Flow"] = "40",
            ["Input.Holes[0].At"] = "20,1", ["Input.Holes[0].On[0]"] = "0.014", ["Input.Holes[1].On[0]"] = "0.02",
        };
        var text = await owner.TextAsync((await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", form)).Headers.Location!.OriginalString);
        Assert.Contains("Every hole reads less than 0.1 Pa", text, StringComparison.Ordinal);
        Assert.Contains("0.014 inWC is 3.5 Pa", text, StringComparison.Ordinal);
        Assert.Contains("12 ft", text, StringComparison.Ordinal);
        form["Input.Holes[0].On[0]"] = "0.014 inWC";
        text = await owner.TextAsync((await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", form)).Headers.Location!.OriginalString);
        Assert.DoesNotContain("Every hole reads less", text, StringComparison.Ordinal);
        Assert.Contains("3.5", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_read_is_refused_beside_its_field_and_the_typing_stays()
    {
        var house = await office.PlainHouseAsync();
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", new()
        {
            ["Input.Outdoor"] = "900 °F", ["Input.Settings[0].PitVacuum"] = "strong", ["Input.Holes[0].Label"] = "stairs",
            ["Input.Holes[0].On[1]"] = "-4", ["Input.Holes[1].Label"] = "Stairs",
        });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains("900 °F is out of range", WebUtility.HtmlDecode(html), StringComparison.Ordinal);
        Assert.Contains("Write the suction at the pit as a number", html, StringComparison.Ordinal);
        Assert.Contains("There is a reading for setting 2, but setting 2 is empty", html, StringComparison.Ordinal);
        Assert.Contains("Two holes are called Stairs", html, StringComparison.Ordinal);
        Assert.Contains("value=\"strong\"", html, StringComparison.Ordinal);
        Assert.Equal(0, await office.WithDbAsync(db => db.PressureFieldTests.CountAsync(t => t.HouseId == house)));
    }

    [Fact]
    public async Task An_empty_form_is_refused_and_says_what_is_needed()
    {
        var house = await office.PlainHouseAsync();
        var answer = await (await office.SignInAsOwnerAsync()).SubmitAsync($"/houses/{house}/diagnosis/readings", new() { ["Input.Outdoor"] = "", ["Input.Day"] = "" });
        var text = await answer.TextAsync();
        Assert.Contains("Write the outdoor temperature.", text, StringComparison.Ordinal);
        Assert.Contains("Write at least the suction at the pit", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task More_rows_come_without_losing_what_was_typed_and_without_saving()
    {
        var house = await office.PlainHouseAsync();
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", new() { ["Input.Holes[0].Label"] = "stairs" }, button: "button[formaction$='of=holes']");
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains("value=\"stairs\"", html, StringComparison.Ordinal);
        Assert.Contains("Input.Holes[8].Label", html, StringComparison.Ordinal);
        Assert.Equal(0, await office.WithDbAsync(db => db.PressureFieldTests.CountAsync(t => t.HouseId == house)));
    }

    [Fact]
    public async Task Correcting_readings_changes_their_rows_and_drops_the_emptied_ones()
    {
        var house = await office.HouseWithReadingsAsync();
        var before = await TestAsync(house);
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync($"/houses/{house}/diagnosis/readings/{before.Id}", new()
        {
            ["Input.Holes[2].Label"] = "", ["Input.Holes[2].Distance"] = "", ["Input.Holes[2].FanOff"] = "", ["Input.Holes[2].On[0]"] = "", ["Input.Holes[2].On[1]"] = "",
            ["Input.Holes[1].On[1]"] = "-7.9", ["Input.Settings[2].Label"] = "vacuum", ["Input.Settings[2].PitVacuum"] = "10 inWC", ["Input.Holes[0].On[2]"] = "-900",
        });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var after = await TestAsync(house);
        Assert.Equal(["beside", "middle"], after.TestHoles.OrderBy(h => h.Position).Select(h => h.Label));
        Assert.Equal(3, after.Settings.Count);
        Assert.Equal(-7.9, after.TestHoles.Single(h => h.Label == "middle").Readings.Single(r => r.FanSettingId == before.Settings.Single(s => s.Position == 1).Id).FanOnPa);
        Assert.Contains(after.TestHoles.Single(h => h.Label == "beside").Readings, r => r.FanOnPa == -900);
        Assert.Equal(before.Version + 1, after.Version);
    }

    [Fact]
    public async Task A_form_overtaken_by_another_keeps_the_typing_and_saves_nothing()
    {
        var house = await office.HouseWithReadingsAsync();
        var test = await TestAsync(house);
        var owner = await office.SignInAsOwnerAsync();
        await owner.SubmitAsync($"/houses/{house}/diagnosis/readings/{test.Id}", new() { ["Input.Notes"] = "first" });
        var late = await owner.SubmitAsync($"/houses/{house}/diagnosis/readings/{test.Id}", new() { ["Input.Notes"] = "second", ["Version"] = $"{test.Version}" });
        Assert.Contains("They saved “first”; you wrote “second”.", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Equal("first", (await TestAsync(house)).Notes);
    }

    [Fact]
    public async Task The_sheet_shows_the_newest_test_with_its_drawing_in_words_and_links_the_others()
    {
        var house = await office.HouseWithReadingsAsync();
        var owner = await office.SignInAsOwnerAsync();
        await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", new() { ["Input.Day"] = "2026-02-20", ["Input.Outdoor"] = "10", ["Input.Settings[0].PitVacuum"] = "1" });
        var html = WebUtility.HtmlDecode(await (await owner.GetAsync($"/houses/{house}/diagnosis")).Content.ReadAsStringAsync());
        Assert.Contains("Feb 20, 2026", html, StringComparison.Ordinal);
        Assert.Contains(">Jan 14, 2026</a>", html, StringComparison.Ordinal);
        var older = await owner.GetAsync($"/houses/{house}/diagnosis?test={(await office.WithDbAsync(db => db.PressureFieldTests.Where(t => t.HouseId == house).MinAsync(t => t.Id)))}");
        Assert.Contains("beside 345 Pa, middle 12.1 Pa, far 6 Pa. The weakest is far.", WebUtility.HtmlDecode(await older.Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Beside_the_readings_stand_flow_watts_shares_and_the_ground()
    {
        var house = await office.HouseWithReadingsAsync();
        var text = await (await office.SignInAsOwnerAsync()).TextAsync($"/houses/{house}/diagnosis");
        Assert.Contains("off its curve", text, StringComparison.Ordinal);
        Assert.Contains("by its curve", text, StringComparison.Ordinal);
        Assert.Contains("94.9 %", text, StringComparison.Ordinal);
        Assert.Contains("at 1 inWC of suction", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Watts_that_contradict_the_fans_curve_are_named()
    {
        var house = await office.PlainHouseAsync();
        var fans = await office.TwoFansAsync();
        var typed = DiagnosisVerbs.TradeReadings(fans.Large, fans.Small);
        typed["Input.Settings[1].Watts"] = "27";
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync($"/houses/{house}/diagnosis/readings", typed);
        Assert.Contains("Test 15: 27 W were measured where its curve gives 15.", await owner.TextAsync(answer.Headers.Location!.OriginalString), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Unknown_houses_and_other_houses_tests_are_not_found()
    {
        var house = await office.HouseWithReadingsAsync();
        var other = await office.PlainHouseAsync();
        var owner = await office.SignInAsOwnerAsync();
        var id = (await TestAsync(house)).Id;
        foreach (var url in new[] { "/houses/99999/diagnosis", "/houses/99999/diagnosis/readings", $"/houses/{other}/diagnosis/readings/{id}", $"/houses/{other}/diagnosis?test={id}" })
            Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync(url)).StatusCode);
    }

    [Fact]
    public async Task An_installer_may_type_readings_in()
    {
        var house = await office.PlainHouseAsync();
        var crew = await office.SignInAsInstallerAsync();
        var answer = await crew.SubmitAsync($"/houses/{house}/diagnosis/readings", new() { ["Input.Outdoor"] = "20", ["Input.Settings[0].PitVacuum"] = "0.8" });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
    }

    private Task<PressureFieldTest> TestAsync(int house) => office.WithDbAsync(db => db.PressureFieldTests
        .Include(t => t.Settings).Include(t => t.TestHoles).ThenInclude(h => h.Readings).Where(t => t.HouseId == house).SingleAsync());
}
