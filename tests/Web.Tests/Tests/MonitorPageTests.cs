using System.Globalization;
using System.Net;
using System.Text;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Tests.Monitor;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Tests;

/// <summary>A monitor's file from the upload to the verdict. Fan on Mar 2 8:00; closed Mar 3 18:00; test from Mar 6 10:00 CST over the spring change.</summary>
[Trait("Database", "either")]
public sealed class MonitorPageTests(OfficeApp office) : IClassFixture<OfficeApp>, IAsyncLifetime
{
    private static readonly DateTime Started = new(2026, 3, 6, 16, 0, 0, DateTimeKind.Utc);
    private static int _serial = 100;

    public Task InitializeAsync()
    {
        if (office.Clock.GetUtcNow() < OfficeApp.Start.AddDays(12)) office.Clock.SetUtcNow(OfficeApp.Start.AddDays(12));
        return Task.CompletedTask;
    }

    public Task DisposeAsync() => Task.CompletedTask;

    private static string File(IEnumerable<string> values, string serial = "")
    {
        var text = new StringBuilder(serial.Length > 0 ? $"Serial: {serial}\n" : "").Append("Time,Radon (pCi/L)\n");
        foreach (var (value, n) in values.Select((v, n) => (v, n))) text.Append(CultureInfo.InvariantCulture, $"{Started.AddHours(n - 6):MM/dd/yyyy HH:mm},{value}\n");
        return text.ToString();
    }

    /// <summary>Four hours of 9.9, then 2.0 and 3.0 in turn: by hand 2.50 over the 92 hours that count.</summary>
    private static IEnumerable<string> Hours(int count = 96) => Enumerable.Range(0, count).Select(n => n < 4 ? "9.9" : n % 2 == 0 ? "2.0" : "3.0");

    private async Task<(int HouseId, int DeviceId, string Serial, HttpClient Desk)> MonitorOutAsync(bool ended = true, DateOnly? calibrated = null)
    {
        var serial = $"M-{Interlocked.Increment(ref _serial)}";
        await office.WithDbAsync(async db =>
        {
            db.Instruments.Add(new Instrument { Kind = InstrumentKind.ContinuousMonitor, Serial = serial, SerialKey = Instrument.KeyOf(serial), Calibrations = [new() { DoneOn = calibrated ?? new DateOnly(2026, 1, 10), DueOn = (calibrated ?? new DateOnly(2026, 1, 10)).AddYears(1) }] });
            await db.SaveChangesAsync();
        });
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var desk = await office.SignInAsOfficeAsync();
        var typed = WorkVerbs.TestTyped("");
        (typed["Input.Started.Day"], typed["Input.Started.Time"], typed["Input.Ended.Day"], typed["Input.Ended.Time"]) = ("3/6/2026", "10:00 am", ended ? "3/10/2026" : "", ended ? "11:00 am" : "");
        (typed["Input.Devices[0].Kind"], typed["Input.Devices[0].Serial"]) = ("ContinuousMonitor", serial);
        var saved = await desk.SubmitAsync($"/houses/{houseId}/proof/test", typed);
        Assert.True(saved.StatusCode == HttpStatusCode.Redirect, await saved.TextAsync());
        var device = await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId).SelectMany(t => t.Devices).Select(d => d.Id).SingleAsync());
        return (houseId, device, serial, desk);
    }

    private static async Task<HttpResponseMessage> UploadAsync(HttpClient client, int houseId, int deviceId, byte[] bytes, string name = "readings.csv")
    {
        var url = $"/houses/{houseId}/proof/monitor?device={deviceId}";
        var page = await new HtmlParser().ParseDocumentAsync(await client.GetStringAsync(url));
        var form = page.QuerySelector("form[enctype]")!;
        using var parts = new MultipartFormDataContent { { new ByteArrayContent(bytes), "upload", name } };
        foreach (var hidden in form.QuerySelectorAll("input[type=hidden]")) parts.Add(new StringContent(hidden.GetAttribute("value") ?? ""), hidden.GetAttribute("name")!);
        return await client.PostAsync(form.GetAttribute("action"), parts);
    }

    private static async Task<string> LookedAtAsync(HttpClient client, int houseId, int deviceId, string text)
    {
        var sent = await UploadAsync(client, houseId, deviceId, Encoding.UTF8.GetBytes(text));
        Assert.True(sent.StatusCode == HttpStatusCode.Redirect, await sent.TextAsync());
        return sent.Headers.Location!.OriginalString;
    }

    private Task<TestDevice> DeviceAsync(int houseId) => office.WithDbAsync(db => db.RadonTests.AsNoTracking().Include(t => t.Devices).Where(t => t.HouseId == houseId).Select(t => t.Devices[0]).SingleAsync());

    private const string Keep = "form[action*='handler=Keep']";

    [Fact]
    public async Task A_file_is_stored_looked_at_kept_and_judged()
    {
        var (houseId, deviceId, serial, desk) = await MonitorOutAsync();
        var text = File(Hours(), serial);
        var look = await LookedAtAsync(desk, houseId, deviceId, text);
        var preview = await desk.TextAsync(look);
        Assert.Contains("2.5 pCi/L", preview, StringComparison.Ordinal);
        Assert.Contains($"Written by device {serial}, as on the test.", preview, StringComparison.Ordinal);
        Assert.Null((await DeviceAsync(houseId)).PCiL);
        var kept = await desk.SubmitAsync(look, [], Keep);
        Assert.True(kept.StatusCode == HttpStatusCode.Redirect, await kept.TextAsync());
        var device = await DeviceAsync(houseId);
        Assert.Equal((2.5m, new DateOnly(2026, 1, 10)), (device.PCiL, device.CalibratedOn));
        var stored = await office.WithDbAsync(db => db.Documents.AsNoTracking().SingleAsync(d => d.HouseId == houseId && d.Kind == PaperKind.MonitorFile));
        Assert.Equal(text, Encoding.UTF8.GetString(stored.Bytes));
        var hours = await desk.GetStringAsync($"/houses/{houseId}/proof/hours?device={deviceId}");
        Assert.Contains("class=\"chart", hours, StringComparison.Ordinal);
        Assert.Contains("4 h first hours of the device", hours, StringComparison.Ordinal);
        Assert.Contains(stored.Sha256, hours, StringComparison.Ordinal);
        var csv = await desk.GetStringAsync($"/houses/{houseId}/proof/hours?device={deviceId}&handler=csv");
        Assert.Equal(98, csv.Split("\r\n").Length);
        Assert.Contains("2026-03-08 03:00 -05:00", csv, StringComparison.Ordinal);
        var test = await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId).Select(t => t.Id).SingleAsync());
        var judged = await desk.SubmitAsync($"/houses/{houseId}/proof/test?test={test}", new() { ["Input.Devices[0].Result"] = "0.1" }, button: "button[formaction]");
        Assert.True(judged.StatusCode == HttpStatusCode.Redirect, await judged.TextAsync());
        var verdict = await office.WithDbAsync(db => db.RadonTests.AsNoTracking().SingleAsync(t => t.HouseId == houseId));
        Assert.Equal((TestOutcome.BelowActionLevel, 2.5m), (verdict.Outcome, verdict.DecidingPCiL));
    }

    [Fact]
    public async Task The_wrong_zone_is_shown_as_not_counting_before_it_is_kept()
    {
        var (houseId, deviceId, _, desk) = await MonitorOutAsync();
        var look = await LookedAtAsync(desk, houseId, deviceId, File(Hours()));
        var wrong = await desk.TextAsync(look + "&Input.TimeColumn=Time&Input.ValueColumn=Radon (pCi/L)&Input.Clock=LocalTime&Input.DropFirstHours=4");
        Assert.Contains("Mar 8, 2026 2:00 AM never came", wrong, StringComparison.Ordinal);
        Assert.DoesNotContain("Keep what is shown", wrong, StringComparison.Ordinal);
        var late = await desk.TextAsync(look + "&Input.TimeColumn=Time&Input.ValueColumn=Radon (pCi/L)&Input.Clock=UniversalTime&Input.DropFirstHours=4");
        Assert.Contains("6 h before the test", late, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_device_remembers_how_it_writes()
    {
        var (houseId, deviceId, serial, desk) = await MonitorOutAsync();
        var look = await LookedAtAsync(desk, houseId, deviceId, File(Hours()).Replace("pCi/L", "x", StringComparison.Ordinal));
        var kept = await desk.SubmitAsync(look, new() { ["Input.Unit"] = "BqM3", ["Input.RowTime"] = "EndsTheHour" }, Keep);
        Assert.True(kept.StatusCode == HttpStatusCode.Redirect, await kept.TextAsync());
        var habit = FileHabit.Read(await office.WithDbAsync(db => db.Instruments.Where(i => i.Serial == serial).Select(i => i.FileHabit).SingleAsync()))!;
        Assert.Equal((RadonUnit.BqM3, RowTime.EndsTheHour, "Radon (x)"), (habit.Unit, habit.RowTime, habit.ValueColumn));
        var again = await new HtmlParser().ParseDocumentAsync(await desk.GetStringAsync(look));
        Assert.Equal("BqM3", again.QuerySelector("#Input_Unit option[selected]")!.GetAttribute("value"));
        // An hour earlier, the first row lies before the test: rows 6 to 96 count, 45 of 2.0 and 46 of 3.0 Bq/m³.
        Assert.Equal(Math.Round(228m / 91m / 37m, 6, MidpointRounding.AwayFromZero), (await DeviceAsync(houseId)).PCiL);
    }

    [Fact]
    public async Task Missing_hours_must_be_explained_and_hours_taken_out_spoil_the_test()
    {
        var (houseId, deviceId, _, desk) = await MonitorOutAsync();
        var rows = File(Hours()).Split('\n').ToList();
        rows.RemoveRange(52, 3);
        var look = await LookedAtAsync(desk, houseId, deviceId, string.Join('\n', rows));
        var silent = await (await desk.SubmitAsync(look, [], Keep)).TextAsync();
        Assert.Contains("3 hours are missing inside the test. Say whether", silent, StringComparison.Ordinal);
        Assert.Null((await DeviceAsync(houseId)).Monitor);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(look, new() { ["Input.Gaps"] = "TakenOut" }, Keep)).StatusCode);
        var text = await desk.TextAsync($"/houses/{houseId}/proof/hours");
        Assert.Contains("3 h were taken out of the inside of the record", text, StringComparison.Ordinal);
        Assert.Contains("the record does not count", text, StringComparison.Ordinal);
        var test = await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId).Select(t => t.Id).SingleAsync());
        await desk.SubmitAsync($"/houses/{houseId}/proof/test?test={test}", [], button: "button[formaction]");
        Assert.Equal(TestOutcome.NotValid, await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId).Select(t => t.Outcome).SingleAsync()));
    }

    [Fact]
    public async Task A_file_of_another_device_and_files_that_are_none_are_refused_in_words()
    {
        var (houseId, deviceId, serial, desk) = await MonitorOutAsync();
        var look = await LookedAtAsync(desk, houseId, deviceId, File(Hours(), "X-999"));
        var other = await desk.TextAsync(look);
        Assert.Contains($"written by device X-999, and the test names {serial}", other, StringComparison.Ordinal);
        Assert.DoesNotContain("Keep what is shown", other, StringComparison.Ordinal);
        foreach (var (bytes, words) in new (byte[], string)[] { ([], "empty"), ([0xFF, 0xD8, 0xFF, 1], "picture"), ("PK\u0003\u0004"u8.ToArray(), "workbook"), ("a letter\nof words\n"u8.ToArray(), "No table was found") })
            Assert.Contains(words, await (await UploadAsync(desk, houseId, deviceId, bytes)).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_end_of_a_running_test_is_taken_from_the_file_and_the_file_can_be_taken_again()
    {
        var (houseId, deviceId, _, desk) = await MonitorOutAsync(ended: false);
        var look = await LookedAtAsync(desk, houseId, deviceId, File(Hours()));
        Assert.Equal(look.Split("file=")[1], (await LookedAtAsync(desk, houseId, deviceId, File(Hours()))).Split("file=")[1]);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(look, [], Keep)).StatusCode);
        Assert.Equal(Started.AddHours(96), await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId).Select(t => t.EndedAtUtc).SingleAsync()));
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(await LookedAtAsync(desk, houseId, deviceId, File(Hours(100))), [], Keep)).StatusCode);
        Assert.Equal(1, await office.WithDbAsync(db => db.MonitorRecords.CountAsync(m => m.TestDeviceId == deviceId)));
    }

    [Fact]
    public async Task A_monitor_out_of_calibration_is_told_while_it_is_out_and_spoils_the_verdict()
    {
        var (houseId, deviceId, serial, desk) = await MonitorOutAsync(calibrated: new DateOnly(2025, 2, 1));
        Assert.Contains($"{serial}: its calibration ran out on Feb 1, 2026", await desk.TextAsync($"/houses/{houseId}/proof"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(await LookedAtAsync(desk, houseId, deviceId, File(Hours())), [], Keep)).StatusCode);
        var test = await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId).Select(t => t.Id).SingleAsync());
        await desk.SubmitAsync($"/houses/{houseId}/proof/test?test={test}", [], button: "button[formaction]");
        var verdict = await office.WithDbAsync(db => db.RadonTests.AsNoTracking().SingleAsync(t => t.Id == test));
        Assert.Equal(TestOutcome.NotValid, verdict.Outcome);
        Assert.Contains("due for calibration by 2026-02-01", verdict.OutcomeWhy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_will_spoil_a_test_is_told_while_the_devices_are_out()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var desk = await office.SignInAsOfficeAsync();
        var typed = WorkVerbs.TestTyped("");
        foreach (var (field, value) in new[] { ("Started.Day", "3/4/2026"), ("Started.Time", "5:00 am"), ("Ended.Day", ""), ("Ended.Time", ""), ("Devices[0].Room", "Upstairs bathroom"), ("Devices[0].Pair", "A"), ("Devices[1].Kind", "Charcoal"), ("Devices[1].Room", "Den"), ("Devices[1].Pair", "A"), ("Devices[1].ApartBy", "10") }) typed["Input." + field] = value;
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync($"/houses/{houseId}/proof/test", typed)).StatusCode);
        var text = await desk.TextAsync($"/houses/{houseId}/proof");
        foreach (var words in new[] { "The test started before Mar 4, 2026 6:00 AM", "does not stand in a bathroom", "the devices stand 10 in apart. More than 8 in are two places" }) Assert.Contains(words, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Devices_of_other_houses_and_unknown_files_answer_not_found()
    {
        var (houseId, deviceId, _, desk) = await MonitorOutAsync();
        var (other, _, _, _) = await MonitorOutAsync();
        foreach (var url in new[] { $"/houses/{other}/proof/monitor?device={deviceId}", $"/houses/{other}/proof/hours?device={deviceId}", $"/houses/{houseId}/proof/monitor?device={deviceId}&file=999999", "/houses/999999/proof/monitor" })
            Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync(url)).StatusCode);
        Assert.Contains("No monitor’s file is kept", await desk.TextAsync($"/houses/{houseId}/proof/hours"), StringComparison.Ordinal);
    }
}
