using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Tests.Work;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Systems;

public sealed class HandOverTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task The_signed_list_is_kept_as_it_was_signed_and_cannot_be_changed()
    {
        var (houseId, jobId, systemId) = await office.HouseWithRunningSystemAsync("HO-1");
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{houseId}/work/hand-over?job={jobId}";
        var signed = await crew.SubmitAsync(url, new() { ["Input.Shown"] = "gauge", ["Input.Inspection"] = "Refuses", ["Input.TypedName"] = "Zoë Tarn", ["Input.Strokes"] = "1,1 20,40 60,5;70,20 90,22", ["Input.Notes"] = "Will think about the inspection." });
        Assert.True(signed.StatusCode == HttpStatusCode.Redirect, await signed.TextAsync());
        var kept = await office.WithDbAsync(db => db.HandOvers.AsNoTracking().SingleAsync(h => h.InstalledSystemId == systemId));
        Assert.Equal((InspectionAnswer.Refuses, "Zoë Tarn", "Cleo Marsh"), (kept.Inspection, kept.TypedName, kept.By));
        Assert.StartsWith("+ Where the gauge is, how to read it, and its start-up reading of 0.84 inWC", kept.Lines, StringComparison.Ordinal);
        Assert.Contains("\n- The fan's switch", kept.Lines, StringComparison.Ordinal);
        using var paper = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{kept.DocumentId}"));
        var words = string.Join(' ', paper.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
        foreach (var expected in new[] { "does not agree to an inspection", "Zoë Tarn", "HO-1", "Will think about the inspection.", "Not shown that day." }) Assert.Contains(expected, words, StringComparison.Ordinal);
        await Assert.ThrowsAsync<InvalidOperationException>(() => office.WithDbAsync(async db =>
        {
            (await db.HandOvers.SingleAsync(h => h.Id == kept.Id)).TypedName = "Somebody";
            await db.SaveChangesAsync();
        }));
        Assert.Contains("Handed over", await crew.TextAsync($"/houses/{houseId}/work"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unsigned_list_is_refused_and_keeps_its_ticks()
    {
        var (houseId, jobId, systemId) = await office.HouseWithRunningSystemAsync("HO-2");
        var crew = await office.SignInAsInstallerAsync();
        var answer = await crew.SubmitAsync($"/houses/{houseId}/work/hand-over?job={jobId}", new() { ["Input.Shown"] = "gauge", ["Input.Strokes"] = "1,1 drop table", ["Input.Notes"] = "kept words" });
        var body = await answer.Content.ReadAsStringAsync();
        foreach (var words in new[] { "The house owner types the full name here.", "choose the answer", "The drawn signature could not be read", "kept words" }) Assert.Contains(words, body, StringComparison.Ordinal);
        Assert.NotNull(new AngleSharp.Html.Parser.HtmlParser().ParseDocument(body).QuerySelector("input[value=gauge][checked]"));
        Assert.False(await office.WithDbAsync(db => db.HandOvers.AnyAsync(h => h.InstalledSystemId == systemId)));
    }

    [Fact]
    public async Task The_as_built_keeps_what_was_left_ready_taken_over_and_signed_off()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var (crew, desk, url) = (await office.SignInAsInstallerAsync(), await office.SignInAsOfficeAsync(), $"/houses/{house.HouseId}/work/as-built?job={jobId}");
        var typed = await office.AsBuiltTypedAsync("HO-3");
        (typed["Input.SecondBranch"], typed["Input.TakenOverParts"], typed["Input.WiringSignedOn"], typed["Input.Readings[0].Off"]) = ("Capped tee behind the boiler", "Old roof flashing", "3/2/2026", "0.6");
        Assert.Contains("Write the electrician who signed the wiring off.", await (await crew.SubmitAsync(url, typed)).TextAsync(), StringComparison.Ordinal);
        typed["Input.Electrician"] = "Odell Electric";
        Assert.Equal(HttpStatusCode.Redirect, (await crew.SubmitAsync(url, typed)).StatusCode);
        await desk.SubmitAsync(url, new() { ["Input.TakenOverCredit"] = "45" });
        await crew.SubmitAsync(url, new() { ["Input.FanSerial"] = "HX-80" });
        var s = await office.SystemOfAsync(house.HouseId);
        Assert.Equal(("Capped tee behind the boiler", "Old roof flashing", Money.FromDollars(45), "Odell Electric", new DateOnly(2026, 3, 2)), (s.SecondBranch, s.TakenOverParts, s.TakenOverCredit, s.Electrician, s.WiringSignedOn!.Value));
        Assert.Equal(-0.6, s.FinalSuctions.Single(f => f.HoleLabel == "H1").FanOffPa!.Value, 6);
        await crew.SubmitAsync($"/houses/{house.HouseId}/work", [], "form[action*='handler=Papers']");
        var packetId = await office.WithDbAsync(db => db.Systems.Where(x => x.Id == s.Id).Select(x => x.PacketDocumentId).SingleAsync());
        using var packet = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{house.HouseId}/papers/{packetId}"));
        var words = string.Join(' ', packet.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
        foreach (var expected in new[] { "Capped tee behind the boiler", "Old roof flashing", "Odell Electric, signed off Mar 2, 2026", "fan off −0.6", "Offer Q-T-", "own page" }) Assert.Contains(expected, words, StringComparison.Ordinal);
        Assert.DoesNotContain("$45", words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(200, 15, 4.0, "")]
    [InlineData(140, 15, 4.0, "Gauge on the pipe")]
    [InlineData(200, 25, 4.0, "Fan draws")]
    [InlineData(200, 15, 1.0, "Hole H1")]
    [InlineData(200, 15, 9.0, "Hole H1")]
    public void A_reading_outside_the_band_says_what_to_look_for(double gauge, double watts, double hole, string outside)
    {
        var foreseen = new ForeseenSuction(210, new Dictionary<string, double> { ["H1"] = 4 }) { Watts = 15.5, BandsPa = new Dictionary<string, (double, double)> { ["H1"] = (2.4, 6) } };
        var lines = JudgeBuilt.Of(foreseen, gauge, watts, [new FinalReading("H1", hole)]);
        Assert.Equal(3, lines.Count);
        Assert.Equal(outside, string.Join(", ", lines.Where(l => !l.Inside).Select(l => l.What)));
        Assert.All(lines, l => Assert.Equal(l.Inside, l.LookFor.Length == 0));
    }
}
