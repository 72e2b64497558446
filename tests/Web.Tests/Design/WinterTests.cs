using System.Globalization;
using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Web.Tests.Design;

[Trait("Database", "either")]
public sealed class WinterTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task The_winter_page_tells_in_numbers_what_its_charts_draw_and_agrees_with_the_sheet()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var owner = await office.SignInAsOwnerAsync();
        var forecast = await ForecastAsync(design);
        var html = await owner.GetStringAsync($"/houses/{house}/design/winter");
        var text = await owner.TextAsync($"/houses/{house}/design/winter");
        Assert.Equal(8, html.Split("<svg class=\"chart").Length - 1);
        Assert.Contains("var(--accent)", html, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", html, StringComparison.Ordinal);
        Assert.Contains(forecast.Conclusion, text, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"Days at risk a winter: {forecast.AtRisk.Days:0} ({forecast.AtRisk.Low:0} to {forecast.AtRisk.High:0})"), text, StringComparison.Ordinal);
        Assert.Contains("made up from the design temperature", text, StringComparison.Ordinal);
        Assert.Contains("docs/calculations/freezing.md", text, StringComparison.Ordinal);
        Assert.Contains(forecast.Conclusion, await owner.TextAsync($"/houses/{house}/design"), StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/design/winter");
    }

    /// <summary>Common practice, no source: the gauge on the suction side falls as the mouth ices up, to nothing when it is shut.</summary>
    [Fact]
    public async Task The_gauge_falls_as_ice_closes_to_nothing_when_shut()
    {
        var (_, design) = await office.HouseWithDesignAsync();
        var forecast = await ForecastAsync(design);
        var system = forecast.Input.System!;
        var readings = new[] { 1, 0.75, 0.5, 0.25, 0.1, 0 }.Select(open => WinterCharts.GaugePa(forecast, system, open)).ToList();
        Assert.Equal(readings.OrderDescending(), readings);
        Assert.Equal(system.OpenGaugePa, readings[0], 6);
        Assert.Equal(0, readings[^1]);
        Assert.True(readings[3] < 0.97 * readings[0]);
    }

    [Fact]
    public async Task A_stations_record_takes_the_place_of_the_made_up_winter_and_can_be_set_aside()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var owner = await office.SignInAsOwnerAsync();
        var answer = await SendAsync(owner, house, Record(3, -14), RecordUnit.TenthsOfCelsius, "Lantern Ridge airfield");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var text = await owner.TextAsync($"/houses/{house}/design/winter");
        Assert.Contains("3 winters", text, StringComparison.Ordinal);
        Assert.Contains("Lantern Ridge airfield", text, StringComparison.Ordinal);
        Assert.Contains("an average winter of the record", text, StringComparison.Ordinal);
        var recorded = await ForecastAsync(design);
        Assert.False(recorded.AtRisk.MadeUp);
        Assert.Equal(3, recorded.AtRisk.Winters);
        var stored = await office.WithDbAsync(db => db.Designs.Where(d => d.Id == design).Select(d => d.ReportJson!).SingleAsync());
        Assert.Contains(recorded.Conclusion, stored, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/design/winter");
        Assert.Contains("\"csv\": \"DATE,TMIN,TMAX", await owner.GetStringAsync($"/houses/{house}/design/{design}/file.json"), StringComparison.Ordinal);
        await owner.SubmitAsync($"/houses/{house}/design/climate", new(), form: "form[action*='handler=Aside'], form[action*='Aside']");
        Assert.True((await ForecastAsync(design)).AtRisk.MadeUp);
        Assert.Contains("set aside", await owner.TextAsync($"/houses/{house}/design/winter"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_colder_record_puts_more_days_at_risk()
    {
        var (house, design) = await office.HouseWithDesignAsync();
        var owner = await office.SignInAsOwnerAsync();
        await SendAsync(owner, house, Record(2, -2), RecordUnit.TenthsOfCelsius, "mild");
        var mild = (await ForecastAsync(design)).AtRisk.Days;
        await SendAsync(owner, house, Record(2, -30), RecordUnit.TenthsOfCelsius, "hard");
        var hard = (await ForecastAsync(design)).AtRisk.Days;
        Assert.True(hard > mild + 5, FormattableString.Invariant($"{mild} and {hard}"));
        Assert.Equal(1, await office.WithDbAsync(db => db.Climates.CountAsync(c => c.HouseId == house)));
    }

    [Theory]
    [InlineData("not a record at all", "no column DATE")]
    [InlineData("", "Choose a file or paste its lines.")]
    [InlineData("DATE,TMIN\n2024-01-01,-5", "no column TMAX")]
    [InlineData("DATE,TMIN,TMAX\n2024-01-01,-50,20\n2024-01-02,-60,10", "no whole winter")]
    [InlineData("DATE,TMIN,TMAX\n01/02/2024,-50,20", "is not a date written like 2024-01-31")]
    public void What_is_no_record_of_a_winter_is_refused_in_words(string text, string words)
    {
        var (record, refusal) = TakeClimate.Read(text, RecordUnit.TenthsOfCelsius);
        Assert.Null(record);
        Assert.Contains(words, refusal, StringComparison.Ordinal);
    }

    /// <summary>The three units of the station files, each read as each: right only as itself.</summary>
    [Theory]
    [InlineData(RecordUnit.TenthsOfCelsius)]
    [InlineData(RecordUnit.Celsius)]
    [InlineData(RecordUnit.Fahrenheit)]
    public void A_wrong_unit_is_refused_and_the_right_one_read(RecordUnit written)
    {
        foreach (var read in Enum.GetValues<RecordUnit>())
        {
            var (record, refusal) = TakeClimate.Read(Record(2, -12, written), read);
            Assert.Equal(read == written, record is not null);
            Assert.True(read == written || refusal!.Contains(TakeClimate.WordsOf(read), StringComparison.Ordinal), $"{written} as {read}: {refusal}");
        }
    }

    [Fact]
    public void A_winter_with_a_long_gap_is_left_out_and_named_and_the_others_stay()
    {
        var lines = Record(3, -12).Split('\n').Where(l => !l.Contains(",2022-01-1", StringComparison.Ordinal));
        var (record, refusal) = TakeClimate.Read(string.Join('\n', lines), RecordUnit.TenthsOfCelsius);
        Assert.Null(refusal);
        Assert.Equal(2, record!.Winters.Count);
        Assert.Contains(record.Problems, p => p.Contains("Winter 2021-2022 left out", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_refused_file_changes_nothing_and_the_typing_stays()
    {
        var (house, _) = await office.HouseWithDesignAsync();
        var owner = await office.SignInAsOwnerAsync();
        await SendAsync(owner, house, Record(2, -12), RecordUnit.TenthsOfCelsius, "kept");
        var answer = await SendAsync(owner, house, "DATE,TMIN,TMAX\n2024-01-01,-50,20", RecordUnit.Fahrenheit, "typed anew");
        var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains("Not read, nothing is changed", html, StringComparison.Ordinal);
        Assert.Contains("2024-01-01,-50,20", html, StringComparison.Ordinal);
        Assert.Contains("value=\"typed anew\"", html, StringComparison.Ordinal);
        var (most, why) = TakeClimate.Read("DATE,TMIN,TMAX\n" + string.Concat(Enumerable.Repeat("2024-01-01,-50,20\n", 100_000)), RecordUnit.TenthsOfCelsius);
        Assert.Null(most);
        Assert.Contains("The file has 100,001 lines", why, StringComparison.Ordinal);
        Assert.Contains("no text file", TakeClimate.Read("PK\u0003\0\0", RecordUnit.Celsius).Refusal, StringComparison.Ordinal);
        Assert.Equal("kept", await office.WithDbAsync(db => db.Climates.Where(c => c.HouseId == house).Select(c => c.Station).SingleAsync()));
    }

    [Fact]
    public async Task An_installer_sees_the_winter_but_no_cost()
    {
        var (house, _) = await office.HouseWithDesignAsync();
        var crew = await office.SignInAsInstallerAsync();
        foreach (var page in new[] { "design", "design/winter" })
        {
            var text = await crew.TextAsync($"/houses/{house}/{page}");
            Assert.DoesNotContain("$", text, StringComparison.Ordinal);
            Assert.Contains("feet outdoors", text, StringComparison.Ordinal);
        }

        Assert.Contains(" a winter", await (await office.SignInAsOwnerAsync()).TextAsync($"/houses/{house}/design/winter"), StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> SendAsync(HttpClient client, int house, string text, RecordUnit unit, string station) =>
        client.SubmitAsync($"/houses/{house}/design/climate", new() { ["Station"] = station, ["Unit"] = unit.ToString(), ["Text"] = text }, form: "form[enctype]");

    private Task<FreezeReport> ForecastAsync(int design) => office.WithDbAsync(async db =>
    {
        var result = await ComputeDesign.ReadAsync(db, await db.Designs.AsNoTracking().WithRoute().SingleAsync(d => d.Id == design));
        return ComputeReport.Winter(result.Inputs!.File, result.Report!.ShownFan).Forecast!;
    });

    /// <summary>Whole winters from September 2020: a plain wave through the year, with a cold spell each February.</summary>
    private static string Record(int winters, double januaryC, RecordUnit unit = RecordUnit.TenthsOfCelsius)
    {
        var lines = new List<string> { "STATION,DATE,TMAX,TMIN" };
        for (var day = new DateOnly(2020, 9, 1); day < new DateOnly(2020 + winters, 9, 1); day = day.AddDays(1))
        {
            var mean = (januaryC + 24) / 2 - (24 - januaryC) / 2 * Math.Cos(2 * Math.PI * (day.DayOfYear - 16) / 365.25) - (day is { Month: 2, Day: < 8 } ? 8 : 0);
            lines.Add(string.Create(CultureInfo.InvariantCulture, $"\"RIDGE, LANTERN\",{day:yyyy-MM-dd},{In(mean + 5, unit):0},{In(mean - 5, unit):0}"));
        }

        return string.Join('\n', lines);
    }

    private static double In(double c, RecordUnit unit) => unit switch { RecordUnit.TenthsOfCelsius => c * 10, RecordUnit.Fahrenheit => c * 1.8 + 32, _ => c };
}
