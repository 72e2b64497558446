using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quality;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Tests.Monitor;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>The demo's instruments, a monitor's file, quality checks, kits and hours in radon. All made up.</summary>
internal sealed class DemoQuality(OfficeDb db, Actor actor)
{
    public const string Monitor = "HG-2207";

    /// <summary>As the crew writes it; its calibration has run out two weeks ago.</summary>
    public const string Manometer = "Millrace digital, DM-31";

    public async Task InstrumentsAsync(DateOnly today)
    {
        if (await db.Instruments.AnyAsync()) return;
        db.Instruments.AddRange(
            New(InstrumentKind.ContinuousMonitor, Monitor, "Hourglass 2", today.AddDays(-800), today.AddDays(-440), today.AddDays(-80)),
            New(InstrumentKind.ContinuousMonitor, "HG-1985", "Hourglass 2", today.AddDays(-345)),
            New(InstrumentKind.Manometer, "DM-31", "Millrace digital", today.AddDays(-380)),
            New(InstrumentKind.Anemometer, "AV-7", "Weathervane hot wire", today.AddDays(-120)));
        db.Instruments.Add(new Instrument { Kind = InstrumentKind.CharcoalBatch, Serial = "CB-0926", SerialKey = "CB0926", Model = "Tin, four days", UseBy = today.AddDays(140) });
        await db.SaveChangesAsync();
    }

    private static Instrument New(InstrumentKind kind, string serial, string model, params DateOnly[] calibrated) => new()
    {
        Kind = kind, Serial = serial, SerialKey = Instrument.KeyOf(serial), Model = model, KeptBy = "Cleo Marsh",
        Calibrations = [.. calibrated.Select((day, i) => new Calibration { DoneOn = day, DueOn = day.AddMonths(Calibration.UsualMonths), DoneBy = "Birchford Test House", Certificate = $"BT-{1000 + i * 37 + serial.Length}" })],
    };

    /// <summary>A file as a monitor writes it: its own lines first, standard time, an hour a row; the first hours still high.</summary>
    public static string File(DateTime startedUtc, TimeZoneInfo zone, int hours, decimal level)
    {
        var text = new StringBuilder($"Hourglass 2 radon monitor\r\nSerial number: {Monitor}\r\nTime,Radon (pCi/L),Temperature (F),Humidity (%)\r\n");
        for (var h = -3; h < hours + 2; h++)
        {
            var swing = Math.Round((decimal)Math.Sin((h + 9) / 24.0 * 2 * Math.PI) * level * 0.22m, 1, MidpointRounding.AwayFromZero) + (h * 7 % 5 - 2) * 0.1m;
            var radon = Math.Max(0.1m, level + swing + Math.Max(0, 4 - h) * 0.6m);
            text.Append(CultureInfo.InvariantCulture, $"{startedUtc.AddHours(h) + zone.BaseUtcOffset:MM/dd/yyyy HH:mm},{radon:0.0},{66 + (h + 3) % 24 / 8},{44 + (h + 3) % 12}\r\n");
        }

        return text.ToString();
    }

    public async Task KeepFileAsync(RadonTest test, DateTime fanOnUtc, TimeZoneInfo zone, decimal level, DateTime nowUtc)
    {
        await MatchInstruments.RunAsync(db, test, zone);
        var text = File(test.StartedAtUtc, zone, 72, level);
        var document = StoredDocument.Of(Encoding.UTF8.GetBytes(text), PaperKind.MonitorFile, $"Readings of {Monitor}, as they came", $"{Monitor}.csv", "text/csv", test.HouseId, nowUtc, actor.Name);
        db.Documents.Add(document);
        await db.SaveChangesAsync();
        var table = MonitorTable.Of(text).Table!;
        var habit = GuessHabit.Of(table, null);
        var reading = ReadMonitorFile.Of(table, habit, zone, Monitor);
        var refused = await KeepMonitorFile.RunAsync(db, new(test.Devices[0].Id, document.Id, habit, reading, GapCause.NotSaid, actor.Name), fanOnUtc, zone, nowUtc);
        if (refused.Count > 0) throw new InvalidOperationException(refused[0].Words);
    }

    public async Task ChecksAsync(DateOnly today, DateTime nowUtc)
    {
        if (await db.QualityChecks.AnyAsync()) return;
        (int Ago, decimal First, decimal Second)[] pairs = [(330, 4.8m, 5.6m), (290, 6.1m, 5.4m), (241, 4.4m, 4.9m), (198, 8.2m, 7.1m), (150, 5.0m, 7.0m), (111, 4.6m, 5.1m), (74, 5.9m, 5.3m), (40, 4.2m, 4.7m), (260, 2.4m, 3.0m), (130, 3.3m, 2.9m), (33, 2.2m, 2.7m)];
        db.QualityChecks.AddRange(pairs.Select((p, i) => new QualityCheck { Kind = CheckKind.Pair, DeviceKind = DeviceKind.Charcoal, Day = today.AddDays(-p.Ago), Serial = $"CB-{110 + 2 * i}", SecondSerial = $"CB-{111 + 2 * i}", PCiL = p.First, AgainstPCiL = p.Second, Notes = "before the work" }));
        (int Ago, decimal Shown)[] spikes = [(300, 21.4m), (205, 18.2m), (118, 24.9m), (36, 20.6m)];
        db.QualityChecks.AddRange(spikes.Select((s, i) => new QualityCheck { Kind = CheckKind.Spike, DeviceKind = DeviceKind.Charcoal, Day = today.AddDays(-s.Ago), Serial = $"CB-{300 + i}", PCiL = s.Shown, AgainstPCiL = 20m, Notes = "chamber of Birchford Test House" }));
        db.QualityChecks.AddRange(new[] { (250, 0.2m), (95, 0.3m) }.Select((b, i) => new QualityCheck { Kind = CheckKind.Blank, DeviceKind = DeviceKind.Charcoal, Day = today.AddDays(-b.Item1), Serial = $"CB-{350 + i}", PCiL = b.Item2, AgainstPCiL = 0.5m }));
        db.QualityChecks.Add(new QualityCheck { Kind = CheckKind.Blank, DeviceKind = DeviceKind.Charcoal, Day = today.AddDays(-4), Serial = "CB-352" });
        await db.SaveChangesAsync();
        var warned = await db.QualityChecks.Where(c => c.PCiL == 5.0m && c.AgainstPCiL == 7.0m).OrderBy(c => c.Id).Select(c => c.Id).FirstAsync();
        db.QualityActions.Add(new QualityAction { Point = $"check:{warned}", Words = "One of the two stood in the draught of a register; the next pairs agree.", AtUtc = nowUtc.AddDays(-140), By = "Ada Quill" });
        await db.SaveChangesAsync();
    }

    public async Task KitsAsync(DateOnly today)
    {
        if (await db.TestKits.AnyAsync()) return;
        var house = await db.Systems.Where(s => !db.RadonTests.Any(t => t.InstalledSystemId == s.Id)).OrderBy(s => s.Id).Select(s => new { s.HouseId, Owner = db.HouseOwners.Where(o => o.HouseId == s.HouseId && o.ToDay == null).OrderBy(o => o.Id).Select(o => o.Customer!.Name).FirstOrDefault() }).FirstOrDefaultAsync();
        if (house is null) return;
        var batch = await db.Instruments.Where(i => i.Kind == InstrumentKind.CharcoalBatch).OrderBy(i => i.Id).Select(i => (int?)i.Id).FirstOrDefaultAsync();
        db.TestKits.AddRange(new[] { "CB-401", "CB-402" }.Select(s => new TestKit { HouseId = house.HouseId, Serial = s, SerialKey = Instrument.KeyOf(s), BatchId = batch, OutOn = today.AddDays(-11), BackBy = today.AddDays(-1), HandedTo = house.Owner ?? "the house owner" }));
        await db.SaveChangesAsync();
    }

    /// <summary>Hours of Cleo and Ada on their jobs of the last year, at levels known from the tests before the work.</summary>
    public async Task ExposureAsync(DateTime nowUtc)
    {
        if (await db.ExposureDays.AnyAsync()) return;
        var people = await db.Users.Where(u => u.FullName == "Cleo Marsh" || u.FullName == "Ada Quill").OrderByDescending(u => u.FullName).Select(u => u.Id).ToListAsync();
        var jobs = await db.Jobs.Where(j => j.DoneOn != null).OrderBy(j => j.DoneOn).Select(j => new { j.HouseId, Day = j.DoneOn!.Value, House = db.Houses.Where(h => h.Id == j.HouseId).Select(h => new { h.Street, h.City, PCiL = h.EarlierTests.OrderBy(t => t.Id).Select(t => t.PCiL).FirstOrDefault() }).OrderBy(h => h.Street).First() }).ToListAsync();
        db.ExposureDays.AddRange(jobs.SelectMany(j => people.Select((person, i) => new ExposureDay
        {
            StaffMemberId = person, Day = j.Day, HouseId = j.HouseId, Where = $"{j.House.Street}, {j.House.City}", PCiL = j.House.PCiL, Hours = i == 0 ? 6.5m : 2m, HowKnown = "radon test before the work", WrittenBy = "Cleo Marsh", WrittenAtUtc = nowUtc,
        })));
        await db.SaveChangesAsync();
    }
}
