using System.Text.Json.Nodes;
using CsCheck;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;

namespace MitigationOffice.Business.Tests.Design;

public sealed class DesignFileRefusalTests
{
    [Theory]
    [InlineData("site.elevatonM", "3", "Unknown field “elevatonM” at site.elevatonM (line 1)")]
    [InlineData("floorPlan.areas[1].corners[2].z", "3", "Unknown field “z” at floorPlan.areas[1].corners[2].z")]
    [InlineData("furtherPoints[1].branch[0].colour", "\"red\"", "at furtherPoints[1].branch[0].colour")]
    [InlineData("climate.days[4].TAVG", "3", "Unknown field “TAVG” at climate.days[4].TAVG")]
    [InlineData("site.elevationM", null, "Missing (line 1): site.elevationM.")]
    [InlineData("test", null, "Missing (line 1): test.")]
    [InlineData("furtherPoints[0].joinsAfterPiece", null, "furtherPoints[0].joinsAfterPiece")]
    [InlineData("fans[2].points[1].watts", null, "Missing (line 1): fans[2].points[1].watts.")]
    [InlineData("floorPlan.holes[0].at", null, "floorPlan.holes[0].at")]
    [InlineData("site.elevationM", "\"high\"", "The field site.elevationM is not of the kind it must be (line 1)")]
    [InlineData("site.elevationM", "\"NaN\"", "The field site.elevationM is not of the kind")]
    [InlineData("site.elevationM", "null", "The field site.elevationM is not of the kind")]
    [InlineData("site.winterDays", "150.5", "The field site.winterDays is not of the kind")]
    [InlineData("route[0].kind", "\"hose\"", "The field route[0].kind is not of the kind")]
    [InlineData("climate.days[3].DATE", "\"2023-02-30\"", "The field climate.days[3].DATE is not of the kind")]
    [InlineData("floorPlan.areas", "{}", "The field floorPlan.areas is not of the kind")]
    [InlineData("fans[1]", "null", "fans[1] is null; a value is needed.")]
    [InlineData("site.elevationM", "90000", "site.elevationM is 90000 m; it must lie from -100 to 4000 m.")]
    [InlineData("site.elevationM", "1e999", "site.elevationM is too large for a number.")]
    [InlineData("test.settings[0].pitVacuumPa", "-205", "test.settings[0].pitVacuumPa is -205 Pa; it must lie from 1 to 20000 Pa.")]
    [InlineData("prices.indoorAirShare", "40", "prices.indoorAirShare is 40 (share); it must lie from 0 to 1 (share).")]
    [InlineData("floorPlan.gridM", "2", "floorPlan.gridM is 2 m; it must lie from 0.05 to 0.25 m.")]
    [InlineData("floorPlan.areas[0].corners", "[]", "floorPlan.areas[0].corners holds 0 corners; it must hold from 3 to 500.")]
    [InlineData("outdoorRun.windMPerS", "300", "outdoorRun.windMPerS is 300 m/s; it must lie from 0 to 30 m/s.")]
    [InlineData("route[9].insulationM", "13", "route[9].insulationM is 13 m")]
    [InlineData("discharge.openings[0].distanceM", "-1", "discharge.openings[0].distanceM is -1 m; it must lie from 0 to 300 m.")]
    [InlineData("furtherPoints[1].joinsAfterPiece", "40", "furtherPoints[1].joinsAfterPiece is 40; the line it joins has 4 pieces before its end.")]
    [InlineData("furtherPoints[0].joinsAfterPiece", "9", "furtherPoints[0].joinsAfterPiece is 9; the line it joins has 7 pieces before the fan.")]
    [InlineData("furtherPoints[0].joinsInto", "\"laundry\"", "furtherPoints[0].joinsInto: The branch of suction point garage leads round in a ring")]
    [InlineData("furtherPoints[0].branch[1].kind", "\"fan\"", "furtherPoints[0].branch[1].kind: The branch of suction point garage has a fan")]
    [InlineData("furtherPoints[0].branch[2].size", "\"9in\"", "furtherPoints[0].branch[2].size: There is no pipe size “9in”")]
    [InlineData("furtherPoints[0].name", "\" \"", "furtherPoints[0].name: Every further suction point needs a name.")]
    [InlineData("furtherPoints[0].test.settings[0].flowM3PerS", null, "furtherPoints[0].test: No flow is known")]
    [InlineData("fans", "[]", "fans: The catalogue holds no fan.")]
    [InlineData("furtherPoints[1].joinsInto", "\"attic\"", "furtherPoints[1].joinsInto: Suction point laundry joins attic, which is no suction point of this design")]
    [InlineData("furtherPoints[1].name", "\"garage\"", "furtherPoints holds the name “garage” twice; each needs its own.")]
    [InlineData("test.holes[1].label", "\"near stair\"", "test.holes holds the label “near stair” twice")]
    [InlineData("fans[1].model", "\"Harrow 11\"", "fans holds the model “Harrow 11” twice")]
    [InlineData("test.settings[0].fan", "\"Harrow 99\"", "test.settings[0].fan is “Harrow 99”; no fan of that model stands in fans.")]
    [InlineData("chosenFan", "\"Harrow 99\"", "chosenFan is “Harrow 99”")]
    [InlineData("test.holes[0].fanOnPa", "[-41.0]", "test.holes[0].fanOnPa has 1 readings for 2 settings")]
    [InlineData("floorPlan.suctionPoints[0].at.xM", "40", "floorPlan: 'stair' at (40, 2) m lies outside every slab of the plan.")]
    [InlineData("floorPlan.areas[0].corners[1].xM", "900", "floorPlan: Number of grid cells over the plan")]
    [InlineData("floorPlan.setting", "3", "floorPlan.setting is 3; the test has 2.")]
    [InlineData("floorPlan.holes[5].vacuumPa", null, "floorPlan.holes[5] has no vacuumPa, and the test has no hole “hall” to take it from.")]
    [InlineData("floorPlan.setting", "2", "floorPlan.holes[3] has no vacuumPa, and hole “laundry” was not read at setting 2.")]
    [InlineData("route[0].size", "\"9in\"", "route[0].size: There is no pipe size “9in”")]
    [InlineData("route[7].kind", "\"pipe\"", "route: The route has no fan.")]
    [InlineData("discharge.rules", "\"us-xx\"", "discharge.rules: There are no siting rules “us-xx”.")]
    [InlineData("discharge.mounting", "\"hanging\"", "The field discharge.mounting is not of the kind")]
    [InlineData("format", "2", "The file's format is 2; this program reads format 1.")]
    [InlineData("climate.unit", "\"celsius\"", "climate: Line")]
    [InlineData("climate.unit", null, "Missing (line 1): climate.unit.")]
    [InlineData("climate.days", null, "climate needs either days or csv, one of them.")]
    [InlineData("climate.csv", "\"DATE,TMIN,TMAX\"", "climate needs either days or csv, one of them.")]
    public void What_is_wrong_is_named_in_one_sentence(string path, string? json, string says) =>
        Assert.Contains(says, Example.Refusal(path, json), StringComparison.Ordinal);

    [Theory]
    [InlineData("", "it is not valid JSON")]
    [InlineData("null", "The file holds null; a design is expected.")]
    [InlineData("[1]", "The file is not one JSON object")]
    [InlineData("{} {}", "Missing")]
    [InlineData("{\"targetPa\": NaN}", "The file cannot be read at targetPa (line 1): it is not valid JSON.")]
    [InlineData("{\"format\": 1, \"format\": 1}", "The field format stands there twice (line 1).")]
    [InlineData("{\"format\": 1,", "it is not valid JSON")]
    public void What_is_no_design_file_is_refused(string text, string says) => Assert.Contains(says, Example.Refusal(text), StringComparison.Ordinal);

    [Fact]
    public void A_huge_file_and_a_deep_one_are_refused_at_once()
    {
        Assert.Contains("has more than 8000000 characters", Example.Refusal(new string(' ', DesignFileText.LongestFile + 1)), StringComparison.Ordinal);
        Assert.Contains("The field format is not of the kind", Example.Refusal(Example.Text.Replace("\"format\": 1,", "\"format\": " + new string('[', 5000) + new string(']', 5000) + ",", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Contains("The file is not one JSON object", Example.Refusal(new string('[', 100_000)), StringComparison.Ordinal);
        Assert.Contains("Unknown field “a” at a", Example.Refusal(string.Concat(Enumerable.Repeat("{\"a\":", 100_000))), StringComparison.Ordinal);
    }

    [Fact]
    public void Several_points_that_ran_at_once_each_need_their_own_suction()
    {
        var root = JsonNode.Parse(Example.Text)!;
        root["floorPlan"]!["suctionPoints"]!.AsArray().Add(JsonNode.Parse("""{ "at": { "xM": 9, "yM": 3 }, "pitVacuumPa": 100 }"""));
        Assert.StartsWith("floorPlan.suctionPoints[0].pitVacuumPa is missing", Example.Refusal(root.ToJsonString()), StringComparison.Ordinal);
        root["floorPlan"]!["suctionPoints"]![0]!["pitVacuumPa"] = 205;
        Assert.StartsWith("floorPlan.holes[0].vacuumPa is missing", Example.Refusal(root.ToJsonString()), StringComparison.Ordinal);
    }

    [Fact]
    public void A_gap_in_the_weather_record_is_refused_unless_accepted()
    {
        var root = JsonNode.Parse(Example.Text)!;
        var days = root["climate"]!["days"]!.AsArray();
        days.RemoveRange(60, 2);
        Assert.Equal(1, Faults(root));
        days.RemoveRange(80, 10);
        Assert.Contains("climate: Winter 2022-2023 left out: it has a gap too long to fill after 2023-01-21.", Example.Refusal(root.ToJsonString()), StringComparison.Ordinal);
        root["climate"]!["acceptFaults"] = true;
        Assert.Equal(1, ComputeReport.Of(DesignFileText.Read(root.ToJsonString())).Freeze!.Winters);
        days.RemoveRange(days.Count - 100, 20);
        Assert.Contains("climate: the record holds no whole winter", Example.Refusal(root.ToJsonString()), StringComparison.Ordinal);

        // Two days missing are filled from their neighbours and named as a warning.
        static int Faults(JsonNode root) => ComputeReport.Of(DesignFileText.Read(root.ToJsonString())).Freeze!.Warnings.Count(w => w.StartsWith("2 missing days of the record were filled", StringComparison.Ordinal));
    }

    [Fact]
    public void A_doubled_day_a_bad_line_and_a_lacking_column_are_refused()
    {
        var root = JsonNode.Parse(Example.Text)!;
        root["climate"]!["days"]![5]!["DATE"] = "2022-11-05";
        Assert.Contains("climate: 2022-11-05 is there more than once", Example.Refusal(root.ToJsonString()), StringComparison.Ordinal);
        Assert.Contains("climate: Line 5 left out: TMIN 90 °C is above TMAX", Example.Refusal("climate.days[3].TMIN", "900"), StringComparison.Ordinal);
        root["climate"] = JsonNode.Parse("""{ "unit": "celsius", "csv": "DATE,TMIN\n2024-01-01,-3" }""");
        Assert.Contains("climate.csv: The header has no column TMAX", Example.Refusal(root.ToJsonString()), StringComparison.Ordinal);
    }

    /// <summary>A whole year whose tenths are small enough to pass for degrees, day by day.</summary>
    [Fact]
    public void Tenths_that_pass_for_degrees_are_seen_by_their_swing()
    {
        var root = JsonNode.Parse(Example.Text)!;
        root["climate"]!["unit"] = "celsius";
        foreach (var day in root["climate"]!["days"]!.AsArray()) (day!["TMIN"], day["TMAX"]) = (-40, 35);
        Assert.Contains("climate: Lowest and highest differ by 75.0 K on average", Example.Refusal(root.ToJsonString()), StringComparison.Ordinal);
    }

    /// <summary>Any one number of the file replaced by any other: a report or one sentence, never anything else.</summary>
    [Fact]
    public void No_number_whatever_breaks_the_computation()
    {
        var paths = Numbers(JsonNode.Parse(Example.Text)!, "").Where(p => !p.StartsWith("climate.days", StringComparison.Ordinal) && p != "outdoorRun.trials").ToArray();
        Assert.InRange(paths.Length, 150, 400);
        string[] values = ["0", "-1", "1", "0.5", "1e-300", "-1e9", "1e9", "1e308", "3", "12", "100", "-0.0", "2147483648", "9007199254740993", "1e999"];
        var text = Example.With("outdoorRun.trials", "0");
        Gen.Select(Gen.Int[0, paths.Length - 1], Gen.Int[0, values.Length - 1]).Sample((p, v) =>
        {
            var (path, value) = (paths[p], values[v]);
            var root = JsonNode.Parse(text)!;
            root.AsObject().Remove("climate");
            Example.Set(root, path, JsonNode.Parse(value));
            try
            {
                Assert.NotEmpty(ComputeReport.Of(DesignFileText.Read(root.ToJsonString())).Recommendation);
            }
            catch (FormatException e)
            {
                Assert.NotEmpty(e.Message);
            }
        }, iter: 100);
    }

    private static IEnumerable<string> Numbers(JsonNode node, string path) => node switch
    {
        JsonObject all => all.Where(p => p.Value is not null).SelectMany(p => Numbers(p.Value!, path.Length == 0 ? p.Key : $"{path}.{p.Key}")),
        JsonArray all => all.SelectMany((item, i) => item is null ? [] : Numbers(item, $"{path}[{i}]")),
        _ => node.GetValueKind() == System.Text.Json.JsonValueKind.Number ? [path] : [],
    };
}
