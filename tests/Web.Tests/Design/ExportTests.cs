using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using MitigationOffice.Web.Commands;
using static MitigationOffice.Web.Pages.Design.DesignWords;

namespace MitigationOffice.Web.Tests.Design;

/// <summary>What the page shows is what the verb computes from the page's own file: every number, one by one.</summary>
[Trait("Database", "either")]
public sealed partial class ExportTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const UnitSystem Us = UnitSystem.US;

    [Fact]
    public async Task Every_number_of_the_sheet_is_the_verb_s_number_for_the_exported_house()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, design) = await office.TwoPointHouseAsync(owner);
        var text = await owner.GetStringAsync($"/houses/{house}/design/{design}/file.json");
        var file = DesignFileText.Read(text);
        Assert.Equal(("B", 9, 2, 9, 1), (Assert.Single(file.FurtherPoints!).Name, file.Test.Holes.Count, file.FloorPlan!.Areas.Count, file.FloorPlan.Holes.Count, file.FloorPlan.SuctionPoints.Count));
        Assert.NotNull(file.OutdoorRun);
        var verb = JsonSerializer.Deserialize<DesignReport>(DesignCommand.Report(text), DesignFileText.Json)!;
        var kept = await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).Select(d => d.ReportJson!).SingleAsync());
        Assert.Equal(JsonSerializer.Serialize(verb, DesignFileText.Json), JsonSerializer.Serialize(JsonSerializer.Deserialize<DesignReport>(kept, DesignFileText.Json), DesignFileText.Json));
        var page = new HtmlParser().ParseDocument(await owner.GetStringAsync($"/houses/{house}/design"));
        FansAgree(page, verb);
        PointsHolesAndLossesAgree(page, verb);
        CoverageAgrees(page, verb.Coverage!);
        WinterAgrees(page, verb);
        await MapAgreesAsync(owner, house, file, verb.Coverage!);
    }

    [Fact]
    public async Task A_weather_record_travels_with_the_file_and_foretells_the_same_winter()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, design) = await office.TwoPointHouseAsync(owner);
        await office.WithDbAsync(async db =>
        {
            var days = Enumerable.Range(0, 800).Select(i => new DateOnly(2023, 1, 1).AddDays(i)).Select(d => string.Create(CultureInfo.InvariantCulture, $"{d:yyyy-MM-dd},{-12 + 20 * Math.Sin((d.DayOfYear - 105) / 58.0):0.0},{-4 + 20 * Math.Sin((d.DayOfYear - 105) / 58.0):0.0}"));
            db.Climates.Add(new HouseClimate { HouseId = house, Station = "Made up", FileName = "x.csv", Unit = "celsius", ReadBy = "Ada", DaysSha256 = "", Days = string.Join('\n', days), FirstDay = new(2023, 1, 1), LastDay = new(2025, 3, 10), Winters = 2 });
            await db.SaveChangesAsync();
        });
        await owner.SubmitAsync($"/houses/{house}/design", new(), form: "form[action*='handler=Compute']");
        var text = await owner.GetStringAsync($"/houses/{house}/design/{design}/file.json");
        Assert.NotNull(DesignFileText.Read(text).Climate);
        var verb = JsonSerializer.Deserialize<DesignReport>(DesignCommand.Report(text), DesignFileText.Json)!;
        Assert.False(verb.Freeze!.WinterMadeUp);
        WinterAgrees(new HtmlParser().ParseDocument(await owner.GetStringAsync($"/houses/{house}/design")), verb);
    }

    private static void FansAgree(IHtmlDocument page, DesignReport verb)
    {
        var rows = Rows(page, "Fans side by side, best first");
        Assert.Equal(2 * verb.Fans.Count, rows.Count);
        foreach (var (f, i) in verb.Fans.Select((f, i) => (f, i)))
        {
            Assert.Equal(
                [f.Model, $"{Suction(f.WeakestNowPa)} {f.WeakestHole}", $"{Suction(f.WeakestWinterPa)} {Range(f.WeakestWinterLowPa, f.WeakestWinterHighPa)}", Measures.GaugePressure.Show(f.PitVacuumPa),
                    $"{Measures.Flow.Show(f.FlowM3PerS)} {Speed(f.FastestMPerS, Us)}", $"{Measures.Power.Show(f.Watts)} {Dollars(f.ElectricityDollarsPerYear)} a year", WholeDollars(f.TenYearDollars)],
                rows[2 * i]);
            Assert.Contains(f.Why, rows[2 * i + 1].Single(), StringComparison.Ordinal);
        }

        var chart = Rows(page, "Static pressure at rising flow");
        var flows = Enumerable.Range(0, 6).Select(i => verb.SystemCurve[^1].FlowM3PerS * i / 5).ToList();
        Assert.Equal(flows.Select(q => Measures.GaugePressure.Show(PressureAt(verb.SystemCurve, q))).Prepend("needed here"), chart[0]);
        foreach (var (f, row) in verb.Fans.Zip(chart.Skip(1))) Assert.Equal(flows.Select(q => Measures.GaugePressure.Show(PressureAt(f.Curve, q))).Prepend(f.Model), row);
    }

    private static void PointsHolesAndLossesAgree(IHtmlDocument page, DesignReport verb)
    {
        var shown = verb.Shown!;
        Assert.Equal(
            [.. shown.Points.Select(p => (string[])[PointName(p.Name), Measures.Flow.Show(p.FlowM3PerS), Measures.GaugePressure.Show(p.PitVacuumPa), Suction(shown.FanPressurePa - p.PitVacuumPa)]), ["Through the fan", Measures.Flow.Show(shown.FlowM3PerS), "", ""]],
            Rows(page, "What each suction point draws"));
        Assert.Equal(
            shown.Holes.Select(h => (string[])[$"{h.Label} most from {PointName(shown.Points[h.From!.Value].Name)}", $"{TransferOf(verb, h)!.Ratio * 100:0.##} %", Suction(h.NowPa), $"{Suction(h.WinterPa)} {Range(h.WinterLowPa, h.WinterHighPa)}"]),
            Rows(page, "Suction at each hole with"));
        foreach (var (caption, branch) in new[] { ("Where the fan’s pressure goes", (string?)null), ("Along the branch of B", "B") })
            Assert.Equal(
                verb.Losses.Where(l => l.Branch == branch).Select(l => (string[])[
                    l.Words + (l.LengthM > 0 ? ", " + Measures.Length.Show(l.LengthM) : ""), l.LossK?.ToString("0.##", CultureInfo.InvariantCulture) ?? "", l.SpeedMPerS > 0 ? Speed(l.SpeedMPerS, Us) : "", Suction(l.PressurePa)]),
                Rows(page, caption));
    }

    private static void CoverageAgrees(IHtmlDocument page, CoverageResult slab)
    {
        string Spot(CellResult c) => $"{Measures.Pressure.Show(c.VacuumPa)} at {PlanText.Say(new PlanPoint(c.AcrossM, c.UpM), Us)}";
        var rows = Rows(page, "Share of the floor that has at least");
        Assert.Equal(3, rows.Count);
        Assert.Equal([Percent(slab.AsTested.ShareBeyondTarget), Percent(slab.WithShownFan!.ShareBeyondTarget), Percent(slab.WithShownFanWinterShare!.Value)], rows.Select(r => r[1]));
        Assert.Equal(Spot(slab.WithShownFan.WeakestSpot), rows[1][2]);
        Assert.Equal(slab.Holes.Select(h => (string[])[h.Label, Suction(h.ReadPa), Suction(h.MapPa), h.Used ? "yes" : "no"]), Rows(page, "Fan off less fan on"));
        Assert.Contains(Measures.Length.Show(slab.ReachM), page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains($"by a factor of {Ratio(slab.TypicalMissFactor)}", page.Body.TextContent, StringComparison.Ordinal);
    }

    private static void WinterAgrees(IHtmlDocument page, DesignReport verb)
    {
        var (freeze, text) = (verb.Freeze!, Tidy(page.Body!.TextContent));
        Assert.Contains(freeze.Conclusion, text, StringComparison.Ordinal);
        Assert.Contains($"{Days(freeze.DaysAtRisk)} ({Days(freeze.DaysAtRiskLow)} to {Days(freeze.DaysAtRiskHigh)})", text, StringComparison.Ordinal);
        Assert.Contains(Water(freeze.CondensateKgPerDay, Us), text, StringComparison.Ordinal);
        Assert.Contains($"Winter takes{Suction(verb.WinterLossPa)}", text.Replace("Winter takes ", "Winter takes", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(
            freeze.ColdSpell.Select((d, i) => (string[])[$"{i + 1}", $"{Measures.Temperature.Show(d.MinC)}, {Measures.Temperature.Show(d.MaxC)}", WinterCharts.Ice.Show(d.ThickestIceM), Percent(d.OpenShare), d.ManometerPa is { } pa ? Measures.GaugePressure.Show(pa) : "–"]),
            Rows(page, "Ice at each day's end"));
        foreach (var origin in verb.Origins) Assert.Contains(Tidy($"{origin.Name}: {origin.Value}"), text, StringComparison.Ordinal);
    }

    /// <summary>The map's own page, fitted apart from the design, says the same of the day of the readings.</summary>
    private static async Task MapAgreesAsync(HttpClient owner, int house, DesignFile file, CoverageResult slab)
    {
        Assert.Equal(1, file.TargetPa);
        var first = new HtmlParser().ParseDocument(await owner.GetStringAsync($"/houses/{house}/design")).QuerySelector("a[href*='/coverage?test=']")!.GetAttribute("href")!;
        var text = Tidy(await owner.TextAsync(first));
        Assert.Contains($"{Percent(slab.AsTested.ShareBeyondTarget)} of the floor has at least", text, StringComparison.Ordinal);
        Assert.Contains(PlanText.Say(new PlanPoint(slab.AsTested.WeakestSpot.AcrossM, slab.AsTested.WeakestSpot.UpM), Us), text, StringComparison.Ordinal);
    }

    private static List<string[]> Rows(IHtmlDocument page, string caption)
    {
        var table = page.QuerySelectorAll("table").Single(t => Tidy(t.QuerySelector("caption")?.TextContent ?? "").StartsWith(caption, StringComparison.Ordinal));
        return [.. table.QuerySelectorAll("tbody tr, tfoot tr").Select(r => r.Children.Select(c => Tidy(Lines(c))).ToArray())];
    }

    /// <summary>A cell's words, with a space where a line ends.</summary>
    private static string Lines(IElement cell) => new HtmlParser().ParseDocument(cell.InnerHtml.Replace("<br>", " ", StringComparison.Ordinal)).Body!.TextContent;

    private static string Tidy(string text) => Space().Replace(text, " ").Trim();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Space();
}
