using System.Globalization;
using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Web.Tests.Diagnosis;
using MitigationOffice.Web.Tests.Plan;

namespace MitigationOffice.Web.Tests.Design;

/// <summary>A house with three foundation areas and nine test holes, read twice: with suction at hole A alone and at hole B alone. Numbers made up:
/// no fan holds the family room from A, nor the basement from B.</summary>
public static class BranchVerbs
{
    private static readonly string[] FromA = ["-58", "-14", "-19", "-16", "-9", "-3", "-3", "-2", "-0.8"];
    private static readonly string[] FromB = ["-0.9", "-2", "-0.8", "-2", "-8", "-13", "-10", "-42", "-12"];

    /// <summary>The nine holes as typed for one of the two days.</summary>
    public static Dictionary<string, string> Readings(char pit)
    {
        var typed = PlanVerbs.NineHoles();
        foreach (var key in typed.Keys.Where(k => k.StartsWith("Input.Suction", StringComparison.Ordinal)).ToList()) typed.Remove(key);
        var (at, flow, read) = pit == 'A' ? ("6,6", "30 cfm", FromA) : ("48,16", "25 cfm", FromB);
        (typed["Input.Suction[0].Label"], typed["Input.Suction[0].At"], typed["Input.Settings[0].Flow"]) = ($"{pit}", at, flow);
        typed["Input.Day"] = pit == 'A' ? "2026-02-10" : "2026-02-11";
        for (var i = 0; i < read.Length; i++) typed[Name($"Input.Holes[{i}].On[0]")] = read[i];
        return typed;
    }

    /// <summary>The route of <see cref="DesignVerbs"/> and the branch from B: 8 ft up, 30 ft across, into the route after its second piece.</summary>
    public static Dictionary<string, string> Tree(int first, int second)
    {
        var typed = DesignVerbs.Route();
        typed["Input.TestId"] = Name($"{first}");
        Branch(typed, 0, "B", second, "2", ("Pipe", "8 ft", "8"), ("Elbow90", "", ""), ("Pipe", "30", "6 in"), ("Tee", "", ""));
        return typed;
    }

    public static void Branch(Dictionary<string, string> typed, int at, string name, int test, string after, params (string Kind, string Length, string Rise)[] pieces)
    {
        var point = Name($"Input.Points[{at}]");
        (typed[$"{point}.Name"], typed[$"{point}.TestId"], typed[$"{point}.JoinsInto"], typed[$"{point}.JoinsAfter"]) = (name, Name($"{test}"), "", after);
        for (var i = 0; i < pieces.Length; i++)
        {
            var piece = Name($"{point}.Pieces[{i}]");
            (typed[$"{piece}.Kind"], typed[$"{piece}.Length"], typed[$"{piece}.Rise"]) = pieces[i];
            (typed[$"{piece}.Size"], typed[$"{piece}.Place"], typed[$"{piece}.Count"]) = ("3in", "Indoors", "1");
        }
    }

    public static async Task<(int House, int TestA, int TestB)> TwicePumpedHouseAsync(this OfficeApp office, HttpClient client)
    {
        await office.TwoFansAsync();
        var house = await office.DrawnHouseAsync(client);
        foreach (var pit in "AB")
        {
            var answer = await client.SubmitAsync($"/houses/{house}/diagnosis/readings", Readings(pit));
            Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        }

        var tests = await office.WithDbAsync(db => db.PressureFieldTests.Where(t => t.HouseId == house).OrderBy(t => t.Day).Select(t => t.Id).ToListAsync());
        return (house, tests[0], tests[1]);
    }

    public static async Task<(int House, int Design)> TwoPointHouseAsync(this OfficeApp office, HttpClient client)
    {
        var (house, a, b) = await office.TwicePumpedHouseAsync(client);
        var answer = await client.SubmitAsync($"/houses/{house}/design/route", Tree(a, b));
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        return (house, await office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == house).Select(d => d.Id).SingleAsync()));
    }

    /// <summary>Presses a button of the route form whose rows are not all on the page yet.</summary>
    public static async Task<HttpResponseMessage> PostRowsAsync(this HttpClient client, string url, string handler, Dictionary<string, string> typed)
    {
        var page = new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await client.GetStringAsync(url));
        var hidden = page.QuerySelectorAll("#route-form input[type=hidden]").Select(i => KeyValuePair.Create(i.GetAttribute("name")!, i.GetAttribute("value") ?? ""));
        return await client.PostAsync($"{url}?handler={handler}", new FormUrlEncodedContent(typed.Concat(hidden)));
    }

    private static string Name(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
