using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Documents.Pictures;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Systems;

/// <summary>Makes the label and the packet of a system and stores them; earlier ones stay stored.</summary>
public static class PrintPapers
{
    /// <param name="results">Radon results before and after, a line each.</param>
    /// <param name="publicAddress">Where the office is reached from outside: the code on the label leads there, to a link made for this printing.</param>
    public static Task<bool> RunAsync(OfficeDb db, int systemId, IReadOnlyList<string> results, Uri publicAddress, LabelSize size, DateTime nowUtc, string by) => db.WriteAsync(async () =>
    {
        var system = await db.Systems.Include(s => s.Components).Include(s => s.FinalSuctions).Include(s => s.DraftChecks).FirstOrDefaultAsync(s => s.Id == systemId);
        if (system is null) return false;
        var token = OwnPage.Add(db, systemId, "label and packet", nowUtc, by);
        var paper = await GatherAsync(db, system, results, nowUtc) with { OwnPage = new Uri(publicAddress, OwnPage.PathOf(token)).AbsoluteUri };
        var label = StoredDocument.Of(LabelPaper.Make(paper, size), PaperKind.Label, $"Label, tag {system.TagNumber}", $"label-{Safe(system.TagNumber)}.pdf", "application/pdf", system.HouseId, nowUtc, by);
        var packet = StoredDocument.Of(PacketPaper.Make(paper), PaperKind.Packet, $"Packet, tag {system.TagNumber}", $"packet-{Safe(system.TagNumber)}.pdf", "application/pdf", system.HouseId, nowUtc, by);
        db.Documents.AddRange(label, packet);
        await db.SaveChangesAsync();
        (system.LabelDocumentId, system.PacketDocumentId) = (label.Id, packet.Id);
        await db.SaveChangesAsync();
        return true;
    });

    private static async Task<SystemPaper> GatherAsync(OfficeDb db, InstalledSystem s, IReadOnlyList<string> results, DateTime nowUtc)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var house = await db.Houses.AsNoTracking().Include(h => h.Areas).SingleAsync(h => h.Id == s.HouseId);
        var owner = await db.HouseOwners.Where(o => o.HouseId == s.HouseId && o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!.Name).FirstOrDefaultAsync();
        var design = s.SuctionDesignId is { } id ? await db.Designs.AsNoTracking().WithRoute().FirstOrDefaultAsync(d => d.Id == id) : null;
        var contract = await (from j in db.Jobs
                              where j.Id == s.JobId
                              join a in db.Acceptances on j.AcceptanceId equals a.Id
                              join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                              select new { Number = r.Quote!.Number + " " + r.Letter, a.TypedName, a.AtUtc, a.TimeZone }).FirstOrDefaultAsync();
        SystemComponent? Part(ComponentKind kind) => s.Components.Where(c => c.Kind == kind && c.RemovedOn is null).OrderByDescending(c => c.Id).FirstOrDefault();
        var (fan, gauge, alarm) = (Part(ComponentKind.Fan), Part(ComponentKind.Gauge), Part(ComponentKind.Alarm));
        return new SystemPaper
        {
            MadeAtUtc = nowUtc, Company = company.Name, Phone = company.Phone, Email = company.Email, CertificationNumber = company.CertificationNumber,
            StateProgram = company.StateProgram, StateProgramPhone = company.StateProgramPhone, House = house.AddressLine, For = owner ?? "",
            TagNumber = s.TagNumber, CompletedOn = s.CompletedOn, SystemType = s.SystemType, SuctionPoints = s.SuctionPoints, PipeSize = PipeChoices.WordsOf(s.PipeSize), FanPlace = s.FanPlace.ToLowerInvariant(),
            Fan = fan?.Model ?? "", FanSerial = fan?.Serial ?? "", FanWarrantyUntil = fan?.WarrantyUntil, Gauge = gauge?.Model ?? "U-tube manometer",
            StartUpGaugePa = s.StartUpGaugePa, Watts = s.StartUpWatts, ElectricityCentsPerKWh = company.ElectricityCentsPerKWh,
            Alarm = alarm?.Model ?? "", AlarmBatteryOn = alarm?.BatteryFittedOn, AlarmBatteryMonths = company.AlarmBatteryMonths, RetestMonths = company.RetestMonths,
            Besides = [.. s.Components.Where(c => c.RemovedOn is null && c.Kind is not (ComponentKind.Fan or ComponentKind.Gauge or ComponentKind.Alarm)).OrderBy(c => c.Id).Select(c => c.Model)],
            Readings = [.. s.FinalSuctions.OrderBy(f => f.Id).Select(f => new FinalReading(f.HoleLabel, f.SuctionPa, f.PredictedPa) { FanOffPa = f.FanOffPa })],
            SecondBranch = s.SecondBranch, TakenOverParts = s.TakenOverParts, Ice = IceWords(design),
            Wiring = s.Electrician.Length == 0 ? "" : $"{s.Electrician}{(s.ElectricianLicence.Length == 0 ? "" : $", licence {s.ElectricianLicence}")}{(s.WiringSignedOn is { } signed ? $", signed off {HouseTime.Show(signed)}" : ", not signed off yet")}",
            Contract = contract is null ? "" : $"Offer {contract.Number}, signed by {contract.TypedName} on {HouseTime.Show(HouseTime.DayOf(contract.AtUtc, HouseTime.Zone(contract.TimeZone)))}; the signed copy was mailed that day and is kept by us.",
            ReadWith = ReadWith.Of(await ReadWith.InstrumentsAsync(db), s.InstrumentId, s.Instrument, s.CompletedOn)?.Words ?? "",
            DraftChecks = [.. s.DraftChecks.OrderBy(c => c.Id).Select(c => c.InWords)], Photos = await PhotosAsync(db, s.JobId),
            DifferencesFromDesign = s.DifferencesFromDesign, Backdraft = s.Backdraft, LeftRunning = s.LeftRunning, Results = results,
            Section = Section(house, design, s, fan?.Model ?? ""),
        };
    }

    /// <summary>Small enough that a packet of six can be mailed.</summary>
    private static async Task<IReadOnlyList<(byte[] Bytes, string Caption)>> PhotosAsync(OfficeDb db, int? jobId) =>
        [.. (await db.JobPhotos.Where(p => p.JobId == jobId && p.InPacket).OrderBy(p => p.Id).Take(CaptionPhotos.MostInPacket).Join(db.Documents, p => p.DocumentId, d => d.Id, (p, d) => new { p.Caption, d.Bytes }).ToListAsync())
            .Select(p => (CleanPicture.Of(p.Bytes, PacketPhotoPx).Bytes, p.Caption))];

    private const int PacketPhotoPx = 1000;

    private static string IceWords(SuctionDesign? design) => ForeseenSuction.WinterOf(design?.ReportJson) is not { } w ? ""
        : w.DaysAtRiskHigh < 1 ? "no day of risk foreseen in a usual winter"
        : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{w.DaysAtRisk:0} days at risk foreseen in a winter ({w.DaysAtRiskLow:0} to {w.DaysAtRiskHigh:0})");

    /// <summary>The section through the house as it was built; where no design stands behind it, without a route.</summary>
    private static HouseFacts Section(House house, SuctionDesign? design, InstalledSystem s, string fan) =>
        (design is null ? SectionOfTest.Of(house, house.Street, UnitSystem.US) : SectionOfDesign.Of(design, null, house, house.Street, UnitSystem.US)) with
        {
            FanWords = s.StartUpWatts is { } watts ? $"{fan}, {SystemPaper.Number(watts)} W" : fan,
            Holes = [.. s.FinalSuctions.OrderBy(f => f.Id).Select(f => new HoleMark(f.HoleLabel, f.SuctionPa))],
            StartUpPa = s.StartUpGaugePa,
        };

    private static string Safe(string tag) => new([.. tag.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')]);
}
