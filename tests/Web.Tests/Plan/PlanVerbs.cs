using System.Globalization;
using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Web.Tests.Diagnosis;

namespace MitigationOffice.Web.Tests.Plan;

/// <summary>Houses with a drawn plan and placed holes, typed through the pages.</summary>
public static class PlanVerbs
{
    public const string PlanForm = "#plan-form";

    /// <summary>Three floors: a basement, a family room on a slab beside it, a crawl space behind.</summary>
    public static Dictionary<string, string> ThreeFloors() => new()
    {
        ["Input.Areas[0].Corners"] = "0,0 40,0\n40,28 0,28",
        ["Input.Areas[1].Name"] = "Family room", ["Input.Areas[1].Kind"] = "SlabOnGrade", ["Input.Areas[1].Corners"] = "from 40,6: E 18 N 22 W 18 S 22",
        ["Input.Areas[2].Name"] = "Porch", ["Input.Areas[2].Kind"] = "CrawlSpace", ["Input.Areas[2].Corners"] = "12 ft 6 in,28 28,28 28,33'6\" 12.5,33'6\"",
        ["Input.Footings"] = "22,0 22,28", ["Input.Sump"] = "3, 25",
    };

    /// <summary>A day with two suction holes and nine test holes, each with its place on the plan.</summary>
    public static Dictionary<string, string> NineHoles()
    {
        (string At, string Off, string On)[] holes =
        [
            ("10,6", "0.4", "-58"), ("14,20", "0.5", "-14"), ("3,24", "0.4", "-19"), ("20,3", "0.3", "-16"), ("27,10", "0.6", "-9"),
            ("36,25", "0.7", "-13"), ("38,3", "0.6", "-5"), ("44,10", "0.8", "-22"), ("55,25", "0.9", "-6"),
        ];
        var typed = new Dictionary<string, string>
        {
            ["Input.Day"] = "2026-02-10", ["Input.Outdoor"] = "18", ["Input.Suction[0].Label"] = "A", ["Input.Suction[0].At"] = "6,6",
            ["Input.Suction[1].Label"] = "B", ["Input.Suction[1].Place"] = "Family room", ["Input.Suction[1].At"] = "48,16",
            ["Input.Settings[0].Label"] = "vacuum", ["Input.Settings[0].PitVacuum"] = "250 Pa", ["Input.Settings[0].Flow"] = "60 cfm",
        };
        for (var i = 0; i < holes.Length; i++)
        {
            typed[$"Input.Holes[{i}].Label"] = $"T{i + 1}";
            (typed[$"Input.Holes[{i}].At"], typed[$"Input.Holes[{i}].FanOff"], typed[$"Input.Holes[{i}].On[0]"]) = holes[i];
        }

        return typed;
    }

    public static Task<HttpResponseMessage> DrawAsync(this HttpClient client, int house, Dictionary<string, string> typed) =>
        client.SubmitAsync($"/houses/{house}/plan", typed, PlanForm);

    public static async Task<int> DrawnHouseAsync(this OfficeApp office, HttpClient client)
    {
        var house = await office.PlainHouseAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await client.DrawAsync(house, ThreeFloors())).StatusCode);
        return house;
    }

    public static async Task<int> MeasuredHouseAsync(this OfficeApp office, HttpClient client)
    {
        var house = await office.DrawnHouseAsync(client);
        var answer = await client.SubmitAsync($"/houses/{house}/diagnosis/readings", NineHoles());
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        return house;
    }

    public static string Text(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
