using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Service;

public sealed class ServiceTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Settle = "form[action*='handler=Settle']";

    private async Task<(int HouseId, int SystemId, string Url)> CallAsync(string tag, string gauge = "0.5", string outdoor = "-4")
    {
        var (houseId, _, systemId) = await office.HouseWithRunningSystemAsync(tag);
        var desk = await office.SignInAsOfficeAsync();
        var taken = await desk.SubmitAsync($"/houses/{houseId}/service", new() { ["Input.Sign"] = "GaugeLower", ["Input.Gauge"] = gauge, ["Input.Outdoor"] = outdoor, ["Input.Name"] = "Ines", ["Input.Phone"] = "555-0111" }, "main form[method=post]:not([action*=handler])");
        Assert.True(taken.StatusCode == HttpStatusCode.Redirect, await taken.TextAsync());
        return (houseId, systemId, taken.Headers.Location!.ToString());
    }

    [Fact]
    public async Task A_call_lists_causes_in_order_with_why_what_to_check_and_the_caution()
    {
        var (_, _, url) = await CallAsync("SV-1");
        var crew = await office.SignInAsInstallerAsync();
        var text = await crew.TextAsync(url);
        Assert.InRange(text.IndexOf("Ice in the outdoor pipe", StringComparison.Ordinal), 1, text.IndexOf("Air leaks in", StringComparison.Ordinal));
        foreach (var words in new[] { "Look first at:", "It is −4 °F outdoors", "Do not climb on ice", "40 % less than the 0.84 inWC", "The maker's warranty on the fan runs until Mar 2, 2031" }) Assert.Contains(words, text, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(await office.SignInAsOwnerAsync(), url);
    }

    [Fact]
    public async Task A_new_fan_changes_the_part_and_keeps_the_old_one_on_record()
    {
        var (houseId, systemId, url) = await CallAsync("SV-2");
        var desk = await office.SignInAsOfficeAsync();
        var fan = await office.FanAsync("Harrow 24");
        var settled = await desk.SubmitAsync(url, new()
        {
            ["Outcome.Found"] = "FanFailed", ["Outcome.Done"] = "Fan changed", ["Outcome.Cover"] = "Billed", ["Outcome.NewFanId"] = $"{fan}", ["Outcome.NewFanSerial"] = "ZZ-9", ["Outcome.GaugeAfter"] = "0.9",
            ["Outcome.NewBattery"] = "true", ["Outcome.NewStartUp"] = "true",
        }, Settle);
        Assert.True(settled.StatusCode == HttpStatusCode.Redirect, await settled.TextAsync());
        var s = await office.SystemOfAsync(houseId);
        Assert.Equal(224.2, s.StartUpGaugePa!.Value, 1);
        var fans = s.Components.Where(c => c.Kind == ComponentKind.Fan).OrderBy(c => c.Id).ToList();
        Assert.Equal(["Harrow 18", "Harrow 24"], fans.Select(f => f.Model));
        Assert.NotNull(fans[0].RemovedOn);
        Assert.Equal(("ZZ-9", (DateOnly?)null), (fans[1].Serial, fans[1].RemovedOn));
        Assert.Contains("Write the invoice", await desk.TextAsync(url), StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Invoices.AnyAsync(i => i.HouseId == houseId)));
        Assert.Equal(systemId, s.Id);
    }

    [Fact]
    public async Task An_outcome_half_filled_in_is_refused_and_kept()
    {
        var (_, _, url) = await CallAsync("SV-3");
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync(url, new() { ["Outcome.Done"] = "", ["Outcome.On"] = "3/1/2020", ["Outcome.NewFanSerial"] = "QQ-1", ["Outcome.NewStartUp"] = "true" }, Settle);
        var body = await answer.TextAsync();
        Assert.Contains("Choose what was found.", body, StringComparison.Ordinal);
        Assert.Contains("Choose the new fan that has this serial number.", body, StringComparison.Ordinal);
        Assert.Contains("QQ-1", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Call_back_rates_are_calls_over_the_years_all_systems_ran()
    {
        var now = OfficeApp.Start.UtcDateTime;
        var rates = await office.WithDbAsync(async db =>
        {
            var (_, systemId, _) = await CallAsync("SV-4");
            (await db.Systems.SingleAsync(s => s.Id == systemId)).ActivatedAtUtc = now.AddDays(-2 * 365.25);
            foreach (var (found, asked) in new[] { (Cause.AlarmBattery, -700), (Cause.AlarmBattery, -30), (Cause.WaterInPipe, -20) })
                db.ServiceCalls.Add(new ServiceCall { Number = $"S-T-{asked}", SendingKey = $"t{asked}", HouseId = (await db.Systems.SingleAsync(s => s.Id == systemId)).HouseId, InstalledSystemId = systemId, State = CallState.Settled, Found = found, AskedAtUtc = now.AddDays(asked) });
            await db.SaveChangesAsync();
            return await CallBackRates.ReadAsync(db, now);
        });
        var battery = rates.Rows.Single(r => r.Cause == Cause.AlarmBattery);
        Assert.Equal((2, 1), (battery.Calls, battery.InFirstYear));
        // 2 calls on systems that ran two years in all, besides those switched on this morning: 100 a hundred systems a year.
        Assert.InRange(battery.PerHundredYears(rates.SystemYears)!.Value, 99, 101);
    }

    [Fact]
    public async Task A_recall_lists_every_house_with_the_fan_and_writes_to_each_once()
    {
        var email = await office.HouseWithRunningSystemAsync("RC-1", email: "rc1@house.example");
        var paper = await office.HouseWithRunningSystemAsync("RC-2", email: "");
        var swapped = await office.HouseWithRunningSystemAsync("RC-3", email: "rc3@house.example");
        await office.WithDbAsync(async db =>
        {
            foreach (var c in await db.Systems.Where(s => s.Id == email.SystemId || s.Id == paper.SystemId || s.Id == swapped.SystemId).SelectMany(s => s.Components).Where(c => c.Kind == ComponentKind.Fan).ToListAsync())
                (c.Model, c.RemovedOn) = ("Brack 9", c.InstalledSystemId == swapped.SystemId ? new DateOnly(2026, 3, 2) : null);
            await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        var opened = await desk.SubmitAsync("/work/recalls", new() { ["Input.Model"] = "Brack 9", ["Input.Reason"] = "A bearing may run hot." });
        Assert.True(opened.StatusCode == HttpStatusCode.Redirect, await opened.TextAsync());
        var url = opened.Headers.Location!.ToString();
        var text = await desk.TextAsync(url);
        Assert.Contains("RC-1", text, StringComparison.Ordinal);
        Assert.Contains("RC-2", text, StringComparison.Ordinal);
        Assert.DoesNotContain("RC-3", text, StringComparison.Ordinal);
        var recallId = int.Parse(url.Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture);
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => office.WithDbAsync(db => WriteToRecalled.RunAsync(db, recallId, new MailSettings(), OfficeApp.Start.UtcDateTime, "test")))));
        await desk.SubmitAsync(url, [], "form[action*='handler=Close']");
        var (mails, notices, letters) = await office.WithDbAsync(async db => (
            await db.Outbox.CountAsync(m => m.Key.StartsWith($"recall:{recallId}:")), await db.RecallNotices.CountAsync(n => n.FanRecallId == recallId),
            await db.Documents.CountAsync(d => d.Kind == MitigationOffice.Business.Documents.PaperKind.RecallLetter && d.HouseId == paper.HouseId)));
        Assert.Equal((1, 2, 1), (mails, notices, letters));
        Assert.Contains("letter to print", await desk.TextAsync(url), StringComparison.Ordinal);
        Assert.StartsWith("/not-allowed", (await (await office.SignInAsInstallerAsync()).GetAsync(url)).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("HX-77", "HX-50", "HX-100", true)]
    [InlineData("HX-9", "HX-50", "HX-100", false)]
    [InlineData("hx0077", "HX-50", "", true)]
    [InlineData("", "HX-50", "HX-100", true)]
    [InlineData("GX-77", "HX-50", "HX-100", false)]
    [InlineData("HX-100", "HX-50", "HX-100", true)]
    public void Serial_numbers_are_counted_as_people_count_them(string serial, string from, string to, bool meant) =>
        Assert.Equal(meant, RecallList.IsMeant(serial, from, to));
}
