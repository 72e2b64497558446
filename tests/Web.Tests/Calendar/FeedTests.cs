using System.Globalization;
using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Calendar;

/// <summary>Feeds written by Ical.Net and read by <see cref="CalendarFile"/>, which knows the standard only.</summary>
public sealed class FeedTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Plan = "form[action*='handler=Plan']";

    private async Task<string> MakeLinkAsync(HttpClient person, string form = "form[action*='handler=Make']")
    {
        var made = await person.SubmitAsync("/account/calendar", [], form);
        var page = await person.GetAsync(made.Headers.Location);
        return new Uri(new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await page.Content.ReadAsStringAsync()).QuerySelector("code")!.TextContent).AbsolutePath;
    }

    private async Task<List<CalendarFile.Component>> EventsAsync(string path)
    {
        var answer = await office.Visitor().GetAsync(path);
        Assert.Equal(("text/calendar", "utf-8"), (answer.Content.Headers.ContentType!.MediaType, answer.Content.Headers.ContentType.CharSet));
        var calendar = CalendarFile.Read(await answer.Content.ReadAsByteArrayAsync());
        Assert.Equal("2.0", calendar["VERSION"]);
        Assert.StartsWith("-//Mitigation Office//", calendar["PRODID"], StringComparison.Ordinal);
        Assert.All(calendar.Parts, e => Assert.Equal("VEVENT", e.Name));
        Assert.Equal(calendar.Parts.Count, calendar.Parts.Select(e => e["UID"]).Distinct().Count());
        foreach (var e in calendar.Parts) Assert.Matches(@"^\d{8}T\d{6}Z$", e["DTSTAMP"]);
        return calendar.Parts;
    }

    private Task<string> CleoAsync() => office.WithDbAsync(async db => $"p{await db.Users.Where(u => u.FullName == "Cleo Marsh").Select(u => u.Id).SingleAsync()}");

    [Fact]
    public async Task A_day_keeps_its_identity_when_it_is_moved_and_says_so_when_it_is_taken_off()
    {
        var (house, jobId) = await office.HouseWithJobAsync(h => h.Street = "1 Przędzalniana „Weiß“ 🏠 Straße; a, b \\ very long name so that the line must be folded somewhere");
        var (desk, crew, url) = (await office.SignInAsOfficeAsync(), await office.SignInAsInstallerAsync(), $"/houses/{house.HouseId}/work");
        var feed = await MakeLinkAsync(crew);
        // The night of March 8, 2026 the clocks go forward: 8 in the morning is 14:00 UTC on the 6th and 13:00 UTC on the 9th.
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "3/6/2026", ["Input.Days[0].ArriveAt"] = "8 am", ["Input.Days[0].Who"] = await CleoAsync(), ["Input.Days[1].Day"] = "3/10/2026", ["Input.Days[1].Who"] = await CleoAsync() }, Plan);
        var before = (await EventsAsync(feed)).Where(e => e["SUMMARY"].Contains("Przędzalniana", StringComparison.Ordinal)).ToList();
        Assert.Equal(2, before.Count);
        Assert.Equal("20260306T140000Z", before[0]["DTSTART"]);
        Assert.Equal(("20260310", "20260311", "DATE"), (before[1]["DTSTART"], before[1]["DTEND"], before[1].Find("DTSTART")!.Parameters["VALUE"]));
        Assert.Equal($"{(await office.JobAsync(jobId)).Number} · {house.Street}, Birchford", before[0]["SUMMARY"]);
        Assert.Equal($"{house.Street}, Birchford", before[0]["LOCATION"]);
        office.Clock.Advance(TimeSpan.FromMinutes(5));
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "3/9/2026" }, Plan);
        var moved = (await EventsAsync(feed)).Single(e => e["UID"] == before[0]["UID"]);
        Assert.Equal(("20260309T130000Z", "1", "CONFIRMED"), (moved["DTSTART"], moved["SEQUENCE"], moved["STATUS"]));
        Assert.True(string.CompareOrdinal(moved["DTSTAMP"], before[0]["DTSTAMP"]) > 0);
        await desk.SubmitAsync(url, new() { ["Input.Days[1].Day"] = "" }, Plan);
        var gone = (await EventsAsync(feed)).Single(e => e["UID"] == before[1]["UID"]);
        Assert.Equal(("1", "CANCELLED"), (gone["SEQUENCE"], gone["STATUS"]));
    }

    [Fact]
    public async Task A_person_taken_out_of_a_day_sees_it_cancelled_and_another_never_saw_it()
    {
        var (house, _) = await office.HouseWithJobAsync();
        var (desk, crew, url) = (await office.SignInAsOfficeAsync(), await office.SignInAsInstallerAsync(), $"/houses/{house.HouseId}/work");
        var (mine, hers) = (await MakeLinkAsync(crew), await MakeLinkAsync(desk));
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "4/9/2026", ["Input.Days[0].Who"] = await CleoAsync() }, Plan);
        await desk.SubmitAsync(url, new() { ["Appointment.Kind"] = "Inspector", ["Appointment.Who"] = "City inspection", ["Appointment.Phone"] = "555-0177", ["Appointment.Day"] = "4/10/2026", ["Appointment.At"] = "1 pm" }, "form[action*='handler=Appointment']:not([action*=Off])");
        bool Here(CalendarFile.Component e) => e["LOCATION"].StartsWith(house.Street, StringComparison.Ordinal);
        var first = (await EventsAsync(mine)).Where(Here).ToList();
        Assert.Equal(["CONFIRMED", "CONFIRMED"], first.Select(e => e["STATUS"]));
        Assert.Equal("20260410T180000Z", first.Single(e => e["SUMMARY"].StartsWith("Inspector", StringComparison.Ordinal))["DTSTART"]);
        Assert.DoesNotContain(await EventsAsync(hers), Here);
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Who"] = "" }, Plan);
        var day = (await EventsAsync(mine)).Single(e => Here(e) && e["UID"] == first[0]["UID"]);
        Assert.Equal(("CANCELLED", "1"), (day["STATUS"], day["SEQUENCE"]));
        await desk.SubmitAsync(url, [], "form[action*='handler=AppointmentOff']");
        Assert.Equal("CANCELLED", (await EventsAsync(mine)).Single(e => e["UID"] == first[1]["UID"])["STATUS"]);
        var all = await MakeLinkAsync(desk, "form:has(input[name=everything])");
        Assert.Contains(await EventsAsync(all), Here);
        var raw = await office.Visitor().GetStringAsync(all);
        foreach (var secret in new[] { "Ines", "house.example", "555-0177" }) Assert.DoesNotContain(secret, raw, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_link_that_was_ended_says_so_and_an_unknown_one_leads_nowhere()
    {
        var crew = await office.SignInAsInstallerAsync();
        var feed = await MakeLinkAsync(crew);
        var whole = await office.Visitor().GetAsync(feed);
        using var again = new HttpRequestMessage(HttpMethod.Get, feed) { Headers = { { "If-None-Match", whole.Headers.ETag!.Tag } } };
        Assert.Equal(HttpStatusCode.NotModified, (await office.Visitor().SendAsync(again)).StatusCode);
        var id = await office.WithDbAsync(db => db.CalendarLinks.OrderByDescending(l => l.Id).Select(l => l.Id).FirstAsync());
        await crew.SubmitAsync("/account/calendar", [], $"form:has(input[value='{id.ToString(CultureInfo.InvariantCulture)}'])");
        var gone = await office.Visitor().GetAsync(feed);
        Assert.Equal(HttpStatusCode.Gone, gone.StatusCode);
        Assert.Contains("has been ended", await gone.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var unknown = await office.Visitor().GetAsync($"/calendar/{new string('B', 43)}.ics");
        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
        Assert.Contains("leads nowhere", await unknown.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.StartsWith("/not-allowed", (await WorkTests.PostWithTokenAsync(crew, "/account/calendar?handler=Make", new() { ["everything"] = "true" })).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }
}
