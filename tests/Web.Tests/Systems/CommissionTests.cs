using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Tests.Work;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Systems;

public sealed class CommissionTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task The_as_built_is_recorded_in_one_act_by_an_installer()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync("MN-1001");
        var s = await office.SystemOfAsync(houseId);
        Assert.Equal(new DateTime(2026, 3, 2, 14, 0, 0, DateTimeKind.Utc), s.ActivatedAtUtc);
        Assert.Equal(209.2, s.StartUpGaugePa!.Value, 1);
        Assert.Equal("0.84 inWC", s.StartUpGaugeAsEntered);
        Assert.Equal([4.2, 1.6], s.FinalSuctions.OrderBy(f => f.Id).Select(f => f.SuctionPa));
        Assert.Equal(["H1", "H2"], s.FinalSuctions.OrderBy(f => f.Id).Select(f => f.HoleLabel));
        Assert.Equal(Money.FromDollars(2310.50m), s.Price);
        Assert.Equal(-6.1, s.OutdoorC!.Value, 1);
        var fan = s.Components.Single(c => c.Kind == ComponentKind.Fan);
        Assert.Equal(("Harrow 18", "HX-77", new DateOnly(2031, 3, 2)), (fan.Model, fan.Serial, fan.WarrantyUntil));
        Assert.Equal(new DateOnly(2026, 3, 2), s.Components.Single(c => c.Kind == ComponentKind.Alarm).BatteryFittedOn);
        Assert.Contains(s.Components, c => c.Kind == ComponentKind.Gauge);
    }

    [Fact]
    public async Task A_tag_that_hangs_elsewhere_is_refused_with_its_house_however_it_is_written()
    {
        var first = await office.HouseWithRunningSystemAsync("MN-2001");
        var (house, jobId) = await office.HouseWithJobAsync();
        var street = await office.WithDbAsync(db => db.Houses.Where(h => h.Id == first.HouseId).Select(h => h.Street).SingleAsync());
        var crew = await office.SignInAsInstallerAsync();
        var answer = await crew.SubmitAsync($"/houses/{house.HouseId}/work/as-built?job={jobId}", await office.AsBuiltTypedAsync(" mn-2001 "));
        var text = await answer.TextAsync();
        Assert.Contains($"Tag MN-2001 already hangs at {street}, Birchford", text, StringComparison.Ordinal);
        Assert.Contains("HX-77", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Systems.AnyAsync(s => s.JobId == jobId)));
    }

    [Fact]
    public async Task Empty_and_absurd_readings_are_each_refused_in_words_and_nothing_is_half_saved()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{house.HouseId}/work/as-built?job={jobId}";
        var empty = await (await crew.SubmitAsync(url, new() { ["Input.Gauge"] = "" })).TextAsync();
        foreach (var words in new[] { "Write the tag number.", "Write the day of the fan's start.", "Write the gauge reading.", "Write the fan's place." }) Assert.Contains(words, empty, StringComparison.Ordinal);
        var typed = await office.AsBuiltTypedAsync("MN-2002");
        typed["Input.StartUpGauge"] = "-0.84";
        typed["Input.Outdoor"] = "900 °F";
        typed["Input.StartUpWatts"] = "a lot";
        typed["Input.Readings[0].Shown"] = "4.2";
        typed["Input.Readings[2].Hole"] = "h2";
        typed["Input.Readings[2].Shown"] = "-1";
        var absurd = await crew.SubmitAsync(url, typed);
        var text = await absurd.TextAsync();
        foreach (var words in new[] { "-0.84 is out of range: the gauge reading must be between", "900 °F is out of range: the temperature must be between", "Write the power as a number", "H1 reads 4.2 without a minus", "Test hole h2 stands here twice." })
            Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Systems.AnyAsync(s => s.JobId == jobId)));
    }

    [Fact]
    public async Task A_slab_that_really_pushes_is_recorded_as_negative_suction()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var typed = await office.AsBuiltTypedAsync("MN-2003");
        typed["Input.Readings[1].Shown"] = "0.4";
        typed["Input.SlabPushes"] = "true";
        await crew.SubmitAsync($"/houses/{house.HouseId}/work/as-built?job={jobId}", typed);
        Assert.Equal(-0.4, (await office.SystemOfAsync(house.HouseId)).FinalSuctions.Single(f => f.HoleLabel == "H2").SuctionPa, 6);
    }

    [Fact]
    public async Task A_fan_cannot_be_switched_on_in_the_time_to_come()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var answer = await crew.SubmitAsync($"/houses/{house.HouseId}/work/as-built?job={jobId}", await office.AsBuiltTypedAsync("MN-3200", day: "3/1/2036"));
        Assert.Contains("cannot have been switched on in the time to come", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Sending_the_as_built_twice_records_one_system()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var typed = await office.AsBuiltTypedAsync("MN-3300");
        typed["_once"] = "the same sending";
        var url = $"/houses/{house.HouseId}/work/as-built?job={jobId}";
        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => crew.SubmitAsync(url, typed)));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        Assert.Equal(1, await office.WithDbAsync(db => db.Systems.CountAsync(s => s.JobId == jobId)));
    }

    [Fact]
    public async Task A_correction_overtaken_by_another_keeps_what_was_typed()
    {
        var (houseId, jobId, _) = await office.HouseWithRunningSystemAsync("MN-3400");
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{houseId}/work/as-built?job={jobId}";
        await crew.SubmitAsync(url, new() { ["Input.FanSerial"] = "HX-78" });
        var late = await crew.SubmitAsync(url, new() { ["Input.FanSerial"] = "HX-79", ["Version"] = "0" });
        Assert.Contains("They saved “HX-78”; you wrote “HX-79”.", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Equal("HX-78", (await office.SystemOfAsync(houseId)).Components.Single(c => c.Kind == ComponentKind.Fan).Serial);
    }

    [Fact]
    public async Task Label_and_packet_are_made_stored_and_say_what_they_must()
    {
        await office.WithDbAsync(async db =>
        {
            var company = await db.Company.SingleAsync();
            (company.ElectricityCentsPerKWh, company.StateProgram, company.StateProgramPhone) = (11m, "State radon unit", "555-0177");
            await db.SaveChangesAsync();
        });
        var (houseId, _, systemId) = await office.HouseWithRunningSystemAsync("MN-4001");
        var crew = await office.SignInAsInstallerAsync();
        await crew.SubmitAsync($"/houses/{houseId}/work", [], "form[action*='handler=Papers']");
        var s = await office.WithDbAsync(db => db.Systems.AsNoTracking().SingleAsync(x => x.Id == systemId));
        using var label = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{s.LabelDocumentId}"));
        using var packet = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{s.PacketDocumentId}"));
        Assert.Equal((1, 2), (label.NumberOfPages, packet.NumberOfPages));
        Assert.Equal((288, 432), ((int)label.GetPage(1).Width, (int)label.GetPage(1).Height));
        var (onLabel, inPacket) = (Words(label), Words(packet));
        // What a label holds: ANSI/AARST SGM-SF 2017 (12/20), 8.4.2.1.
        foreach (var words in new[] { "Radon reduction system", "Mar 2, 2026", "MN-4001", "0.84 inWC", "at least every two years", "State radon unit", "Lantern Ridge Radon", "555-0100", "TEST-001" }) Assert.Contains(words, onLabel, StringComparison.Ordinal);
        // 15.2 W over 8,760 h at 11 ¢/kWh: $14.65, plain arithmetic.
        foreach (var words in new[] { "Harrow 18", "HX-77", "0.84 inWC", "Chime 2", "$14.65", "Before: 9.6 pCi/L", "licensed electrician", "carbon monoxide" }) Assert.Contains(words, inPacket, StringComparison.Ordinal);
        Assert.Empty((await office.WithDbAsync(db => VerifyRecords.RunAsync(db))).Problems);
    }

    private static string Words(PdfDocument pdf) => string.Join(' ', pdf.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
}
