using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Tests.Work;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Systems;

/// <summary>Readings and the calibration of what they were read with.</summary>
[Trait("Database", "either")]
public sealed class ReadWithTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static readonly DateOnly Day = new(2026, 3, 2);

    private static Instrument Made(string serial, params (DateOnly Done, DateOnly? Due)[] calibrated) => new()
    {
        Kind = InstrumentKind.Manometer, Model = "Millrace digital", Serial = serial, SerialKey = Instrument.KeyOf(serial), Calibrations = [.. calibrated.Select(c => new Calibration { DoneOn = c.Done, DueOn = c.Due })],
    };

    [Theory]
    [InlineData("Millrace dm 31", "Millrace digital, DM-31; its calibration ran out on Mar 1, 2026, before this reading of Mar 2, 2026", true)]
    [InlineData("DM-32", "Millrace digital, DM-32, calibrated Mar 2, 2025, good until Mar 2, 2026", false)]
    [InlineData("DM-33", "Millrace digital, DM-33; no calibration from before Mar 2, 2026 is on record", true)]
    [InlineData("DM-34", "Millrace digital, DM-34, calibrated Mar 2, 2026", false)]
    [InlineData("DM-311", "Millrace digital, DM-311; no calibration from before Mar 2, 2026 is on record", true)]
    [InlineData("My own", "My own; not in the register of instruments, so its calibration is not known", false)]
    public void The_words_say_how_the_calibration_stood_on_the_day(string typed, string words, bool inDoubt)
    {
        Instrument[] register =
        [
            Made("DM-31", (new(2024, 1, 1), new(2025, 1, 1)), (new(2025, 3, 1), new(2026, 3, 1))), Made("DM-32", (new(2025, 3, 2), new(2026, 3, 2))),
            Made("DM-33", (new(2026, 3, 3), new(2027, 3, 3))), Made("DM-34", (Day, null)), Made("DM-311"), Made("M1", (Day, null)),
        ];
        Assert.Equal(new ReadWith(words, inDoubt), ReadWith.Of(register, null, typed, Day));
    }

    [Fact]
    public async Task An_instrument_past_its_calibration_is_named_on_the_sheets_in_the_proof_and_in_the_packet()
    {
        await office.WithDbAsync(async db =>
        {
            db.Instruments.Add(Made("DM-77", (new(2025, 2, 1), new(2026, 2, 1))));
            await db.SaveChangesAsync();
        });
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var typed = await office.AsBuiltTypedAsync("RW-1");
        typed["Input.Instrument"] = "Millrace digital, DM-77";
        var recorded = await crew.SubmitAsync($"/houses/{house.HouseId}/work/as-built?job={jobId}", typed);
        Assert.True(recorded.StatusCode == HttpStatusCode.Redirect, await recorded.TextAsync());
        const string words = "Millrace digital, DM-77; its calibration ran out on Feb 1, 2026, before this reading of Mar 2, 2026";
        foreach (var sheet in new[] { "work", "proof" })
        {
            var text = await crew.TextAsync($"/houses/{house.HouseId}/{sheet}");
            Assert.Contains("read with an instrument in doubt", text, StringComparison.Ordinal);
            Assert.Contains(words, text, StringComparison.Ordinal);
        }

        await office.AssertFewStatementsAsync(crew, $"/houses/{house.HouseId}/proof");
        await crew.SubmitAsync($"/houses/{house.HouseId}/work", [], "form[action*='handler=Papers']");
        var packetId = await office.WithDbAsync(db => db.Systems.Where(s => s.JobId == jobId).Select(s => s.PacketDocumentId).SingleAsync());
        using var packet = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{house.HouseId}/papers/{packetId}"));
        Assert.Contains(words, string.Join(' ', packet.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text)), StringComparison.Ordinal);

        // The PFE test of the same house, read with the same device.
        var testId = await office.WithDbAsync(db => db.PressureFieldTests.Where(t => t.HouseId == house.HouseId).Select(t => t.Id).SingleAsync());
        var readings = await crew.SubmitAsync($"/houses/{house.HouseId}/diagnosis/readings/{testId}", new() { ["Input.Instrument"] = "dm77", ["Input.Outdoor"] = "20", ["Input.Settings[0].PitVacuum"] = "1.2" });
        Assert.True(readings.StatusCode == HttpStatusCode.Redirect, await readings.TextAsync());
        Assert.Contains("Millrace digital, DM-77; its calibration ran out on Feb 1, 2026, before this reading of Feb 10, 2026", await crew.TextAsync($"/houses/{house.HouseId}/diagnosis"), StringComparison.Ordinal);
        var linked = await office.WithDbAsync(async db => (Pfe: await db.PressureFieldTests.Where(t => t.Id == testId).Select(t => t.InstrumentId).SingleAsync(), Start: await db.Systems.Where(s => s.JobId == jobId).Select(s => s.InstrumentId).SingleAsync(), Device: await db.Instruments.Where(i => i.SerialKey == "DM77").Select(i => i.Id).SingleAsync()));
        Assert.Equal((linked.Device, linked.Device), (linked.Pfe, linked.Start));
    }
}
