using System.Globalization;
using System.Net;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Web.Commands;
using MitigationOffice.Web.Tests.Diagnosis;

namespace MitigationOffice.Web.Tests.Design;

[Trait("Database", "either")]
public sealed class DesignSheetTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    /// <summary>Common practice, no source: a 42 W fan gave 6.0 Pa at the weakest hole, a 15 W fan 3.7 Pa and 3.0 Pa once the
    /// pipe was in, and the smaller one was right.</summary>
    [Fact]
    public async Task The_smaller_fan_that_still_holds_wins_and_one_sentence_says_why()
    {
        await office.WithDbAsync(db => db.Company.ExecuteUpdateAsync(c => c.SetProperty(x => x.ElectricityCentsPerKWh, 11m).SetProperty(x => x.DesignWinterC, -5).SetProperty(x => x.JanuaryMeanC, 3)));
        var (house, design) = await office.HouseWithDesignAsync();
        var report = await ReportAsync(design);
        Assert.Equal("Test 15", report.RecommendedFan);
        var small = report.Fans.Single(f => f.Model == "Test 15");
        var large = report.Fans.Single(f => f.Model == "Test 42");
        Assert.True(small.Holds && large.Holds);
        Assert.InRange(small.WeakestNowPa, 2.7, 3.7);
        Assert.InRange(large.WeakestNowPa, 4.5, 6.1);
        Assert.Equal("far", small.WeakestHole);
        var text = await (await office.SignInAsOwnerAsync()).TextAsync($"/houses/{house}/design");
        Assert.Contains("Take Test 15.", text, StringComparison.Ordinal);
        Assert.Matches("The Test 15 \\(1[0-9] W\\) holds [23]\\.[0-9] Pa at the weakest hole, .* the Test 42 \\(4[0-9] W\\) pulls more than is needed", text);
        Assert.Contains(Money.FromDollars((decimal)small.ElectricityDollarsPerYear).ToString(), text, StringComparison.Ordinal);
        Assert.Equal(small.Watts * 8.76 * 0.11, small.ElectricityDollarsPerYear, 6);
    }

    [Fact]
    public async Task The_page_and_the_verb_give_the_same_numbers()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var owner = await office.SignInAsOwnerAsync();
        var file = await owner.GetStringAsync($"/houses/{house}/design/{design}/file.json");
        var verb = JsonSerializer.Deserialize<DesignReport>(DesignCommand.Report(file), DesignFileText.Json)!;
        Assert.Equal(JsonSerializer.Serialize(await ReportAsync(design), DesignFileText.Json), JsonSerializer.Serialize(verb, DesignFileText.Json));
        var text = await owner.TextAsync($"/houses/{house}/design");
        foreach (var fan in verb.Fans.Where(f => f.OnCurve))
        {
            Assert.Contains(Pages.Design.DesignWords.Suction(fan.WeakestWinterPa), text, StringComparison.Ordinal);
            Assert.Contains(Measures.Power.Show(fan.Watts), text, StringComparison.Ordinal);
            Assert.Contains(Measures.Flow.Show(fan.FlowM3PerS), text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task An_unknown_field_of_a_design_file_is_refused_by_name()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var file = await (await office.SignInAsOwnerAsync()).GetStringAsync($"/houses/{house}/design/{design}/file.json");
        var wrong = Assert.Throws<FormatException>(() => DesignCommand.Report(file.Replace("\"targetPa\"", "\"goalPa\": 3, \"targetPa\"", StringComparison.Ordinal)));
        Assert.Contains("Unknown field “goalPa”", wrong.Message, StringComparison.Ordinal);
        var missing = Assert.Throws<FormatException>(() => DesignCommand.Report(file.Replace("\"targetPa\": 1,", "", StringComparison.Ordinal)));
        Assert.Contains("targetPa", missing.Message, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => DesignCommand.Report("{ not json"));
    }

    [Fact]
    public async Task A_route_without_a_fan_or_without_a_pipe_is_refused_and_keeps_its_typing()
    {
        var house = await office.HouseWithReadingsAsync();
        var owner = await office.SignInAsOwnerAsync();
        var typed = DesignVerbs.Route();
        typed["Input.Pieces[4].Kind"] = "";
        var answer = await owner.SubmitAsync($"/houses/{house}/design/route", typed);
        var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains("The route has no fan. Add one piece “Fan”", html, StringComparison.Ordinal);
        Assert.Contains("value=\"8 ft\"", html, StringComparison.Ordinal);
        Assert.Equal(0, await office.WithDbAsync(db => db.Designs.CountAsync(d => d.HouseId == house)));
        var empty = await owner.SubmitAsync($"/houses/{house}/design/route", new());
        Assert.Contains("Write the length.", await empty.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Absurd_pieces_are_refused_in_words()
    {
        var house = await office.HouseWithReadingsAsync();
        var typed = DesignVerbs.Route();
        typed["Input.Pieces[0].Length"] = "-4";
        typed["Input.Pieces[2].Rise"] = "40 ft";
        typed["Input.Pieces[5].Count"] = "many";
        typed["Input.Pieces[1].Size"] = "13in";
        var text = await (await (await office.SignInAsOwnerAsync()).SubmitAsync($"/houses/{house}/design/route", typed)).TextAsync();
        Assert.Contains("-4 is out of range: the length must be between 0 ft and", text, StringComparison.Ordinal);
        Assert.Contains("A piece cannot rise more than it is long.", text, StringComparison.Ordinal);
        Assert.Contains("Write the count as a number", text, StringComparison.Ordinal);
        Assert.Contains("Choose a pipe size from the list.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_piece_can_be_put_between_others_without_losing_typing()
    {
        var house = await office.HouseWithReadingsAsync();
        var answer = await (await office.SignInAsOwnerAsync()).SubmitAsync($"/houses/{house}/design/route", new() { ["Input.Pieces[1].Length"] = "77" }, button: "button[formaction$='at=1']");
        var document = new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await answer.Content.ReadAsStringAsync());
        Assert.Equal("", document.QuerySelector("[name='Input.Pieces[1].Length']")!.GetAttribute("value"));
        Assert.Equal("77", document.QuerySelector("[name='Input.Pieces[2].Length']")!.GetAttribute("value"));
    }

    [Fact]
    public async Task A_fan_whose_curve_does_not_reach_says_so_and_the_others_are_still_computed()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var weak = new Business.Shop.Fan { Model = "Test stub", Connection = "4in", Points = [new() { FlowM3PerS = 0, StaticPressurePa = 200, Watts = 3 }, new() { FlowM3PerS = 0.0005, StaticPressurePa = 190, Watts = 3 }, new() { FlowM3PerS = 0.001, StaticPressurePa = 180, Watts = 3 }] };
        await office.WithDbAsync(async db => { db.Add(weak); await db.SaveChangesAsync(); });
        try
        {
            var text = await (await office.SignInAsOwnerAsync()).TextAsync($"/houses/{house}/design");
            Assert.Contains("It would move more air here than its curve was measured for", text, StringComparison.Ordinal);
            Assert.Contains("changed since this was last kept", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Test stub", await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).Select(d => d.ReportJson!).SingleAsync()), StringComparison.Ordinal);
        }
        finally
        {
            await office.WithDbAsync(db => db.Fans.Where(f => f.Model == "Test stub").ExecuteDeleteAsync());
        }
    }

    [Fact]
    public async Task A_frozen_design_keeps_its_report_and_a_copy_is_open_and_fresh()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var before = await ReportAsync(design);
        await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).ExecuteUpdateAsync(d => d.SetProperty(x => x.FrozenAtUtc, OfficeApp.Start.UtcDateTime)));
        var test = await office.WithDbAsync(db => db.PressureFieldTests.Where(t => t.HouseId == house).Select(t => t.Id).SingleAsync());
        var owner = await office.SignInAsOwnerAsync();
        await owner.SubmitAsync($"/houses/{house}/diagnosis/readings/{test}", new() { ["Input.Holes[2].On[1]"] = "-2.0", ["Input.Holes[2].On[0]"] = "-3.0" });
        var text = await owner.TextAsync($"/houses/{house}/design");
        Assert.Contains("Revision A went out with a quote", text, StringComparison.Ordinal);
        Assert.Contains("have changed since; copy it to a new revision", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.GetAsync($"/houses/{house}/design/route/{design}")).StatusCode);
        Assert.Equal(before.Fans[0].WeakestNowPa, (await ReportAsync(design)).Fans[0].WeakestNowPa);
        var copied = await owner.SubmitAsync($"/houses/{house}/design", new(), form: "form[action*='handler=Copy']");
        Assert.Equal($"/houses/{house}/design?revision=B", copied.Headers.Location!.OriginalString);
        var copy = await office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == house && d.Revision == "B").Select(d => new { d.Id, d.FrozenAtUtc, Pieces = d.Pieces.Count }).SingleAsync());
        Assert.Null(copy.FrozenAtUtc);
        Assert.Equal(6, copy.Pieces);
        Assert.True((await ReportAsync(copy.Id)).Fans.Max(f => f.WeakestNowPa) < before.Fans.Max(f => f.WeakestNowPa));
    }

    [Fact]
    public async Task A_stored_report_of_another_shape_is_computed_afresh_and_a_frozen_one_says_so()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).ExecuteUpdateAsync(d => d.SetProperty(x => x.ReportJson, "{\"old\": 1}")));
        var owner = await office.SignInAsOwnerAsync();
        Assert.Contains("Fans side by side", await owner.TextAsync($"/houses/{house}/design"), StringComparison.Ordinal);
        await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).ExecuteUpdateAsync(d => d.SetProperty(x => x.FrozenAtUtc, OfficeApp.Start.UtcDateTime)));
        Assert.Contains("written by another version of the program", await owner.TextAsync($"/houses/{house}/design"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chosen_fan_is_what_the_sheet_and_the_losses_are_about()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var fans = await office.TwoFansAsync();
        var owner = await office.SignInAsOwnerAsync();
        await owner.SubmitAsync($"/houses/{house}/design", new() { ["fan"] = fans.Large.ToString(CultureInfo.InvariantCulture) }, form: "form[action*='handler=Fan']");
        var report = await ReportAsync(design);
        Assert.Equal("Test 42", report.ShownFan);
        var shown = report.Fans.Single(f => f.Model == "Test 42");
        Assert.Equal(shown.FanPressurePa, report.Losses.Sum(l => l.PressurePa), 3);
        Assert.Matches("Test 42[^§]*chosen[^§]*Fan of this design", await owner.TextAsync($"/houses/{house}/design"));
    }

    [Fact]
    public async Task Freezing_and_siting_stand_on_the_sheet_with_their_sources()
    {
        var (house, _) = await office.HouseWithDesignAsync();
        var text = await (await office.SignInAsOwnerAsync()).TextAsync($"/houses/{house}/design");
        Assert.Contains("Sixteen feet outdoors", text, StringComparison.Ordinal);
        Assert.Contains("EPA 402-R-93-078", text, StringComparison.Ordinal);
        Assert.Contains("passes", text, StringComparison.Ordinal);
        Assert.Contains("Where the numbers come from", text, StringComparison.Ordinal);
        Assert.Contains("licensed electrician", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_chart_is_an_image_with_every_fan_in_it()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var answer = await (await office.SignInAsOwnerAsync()).GetAsync($"/houses/{house}/design/{design}/fans.svg");
        Assert.Equal("image/svg+xml", answer.Content.Headers.ContentType!.MediaType);
        var svg = await answer.Content.ReadAsStringAsync();
        Assert.Contains("Test 42", svg, StringComparison.Ordinal);
        Assert.Contains("needed here", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", svg, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_house_without_readings_or_a_shop_without_fans_is_told_what_to_do()
    {
        var house = await office.PlainHouseAsync();
        var owner = await office.SignInAsOwnerAsync();
        Assert.Contains("First write down a PFE test", await owner.TextAsync($"/houses/{house}/design"), StringComparison.Ordinal);
        var (other, design) = await office.HouseWithDesignAsync();
        var file = await office.WithDbAsync(async db => (await GatherDesign.FileAsync(db, await db.Designs.WithRoute().SingleAsync(d => d.Id == design)))!);
        var refused = Assert.Throws<DesignRefused>(() => ComputeReport.Of(file with { Fans = [] }));
        Assert.Contains("Put fans with their measured curves", refused.Message, StringComparison.Ordinal);
        foreach (var url in new[] { $"/houses/{other}/design?revision=Z", $"/houses/{house}/design/{design}/fans.svg", $"/houses/{house}/design/{design}/file.json", $"/houses/{house}/design/route/{design}" })
            Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync(url)).StatusCode);
    }

    [Fact]
    public async Task An_installer_sees_the_design_but_no_prices()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var crew = await office.SignInAsInstallerAsync();
        var html = await (await crew.GetAsync($"/houses/{house}/design")).Content.ReadAsStringAsync();
        Assert.Contains("Fans side by side", html, StringComparison.Ordinal);
        Assert.DoesNotContain("Ten years", html, StringComparison.Ordinal);
        Assert.DoesNotContain("\"priceDollars\": 140", await crew.GetStringAsync($"/houses/{house}/design/{design}/file.json"), StringComparison.Ordinal);
    }

    /// <summary>Arithmetic over 8760 h at 11 ¢/kWh, the trade's "about a dollar a watt a year".</summary>
    [Theory]
    [InlineData(42, 40.47)]
    [InlineData(15.2, 14.65)]
    public void A_watt_costs_about_a_dollar_a_year(double watts, double dollars) =>
        Assert.Equal($"${dollars:0.00}", Pages.Design.DesignWords.Dollars(Engineering.Energy.RunningCost.Dollars(Engineering.Energy.RunningCost.FanKWhPerYear(watts), 11)));

    [Fact]
    public async Task The_verb_answers_0_for_a_design_and_1_for_what_is_none()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var good = Path.Combine(office.Folder, "good.json");
        var bad = Path.Combine(office.Folder, "bad.json");
        await File.WriteAllTextAsync(good, await (await office.SignInAsOwnerAsync()).GetStringAsync($"/houses/{house}/design/{design}/file.json"));
        await File.WriteAllTextAsync(bad, "{}");
        Assert.Equal(0, await CommandLine.RunAsync(["design", good]));
        Assert.Equal(1, await CommandLine.RunAsync(["design", bad]));
        Assert.Equal(1, await CommandLine.RunAsync(["design", bad + ".none"]));
        Assert.Equal(2, await CommandLine.RunAsync(["design"]));
    }

    [Fact]
    public void Revision_letters_go_on_after_Z() =>
        Assert.Equal(["A", "B", "AA", "BA", "AAA"], new[] { null, "A", "Z", "AZ", "ZZ" }.Select(RevisionLetters.After));

    private Task<DesignReport> ReportAsync(int design) => office.WithDbAsync(async db =>
        JsonSerializer.Deserialize<DesignReport>((await db.Designs.Where(d => d.Id == design).Select(d => d.ReportJson).SingleAsync())!, DesignFileText.Json)!);
}
