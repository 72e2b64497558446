using System.Globalization;
using System.Text;
using CsvHelper;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Tests.FollowUp;

namespace MitigationOffice.Web.Tests.StateReports;

public static class ReportVerbs
{
    public static DateTime Now(this OfficeApp office) => office.Clock.GetUtcNow().UtcDateTime;

    public static Task<ReportPreview> PreviewAsync(this OfficeApp office, string period, string profile = ProfileBook.General) => office.WithDbAsync(async db =>
    {
        var head = await ReportHead.ReadAsync(db, profile);
        return await PreviewReport.RunAsync(db, head!, head!.PeriodOf(period)!, office.Now());
    });

    public static Task<ReportRun> FreezeAsync(this OfficeApp office, string period, string profile = ProfileBook.General) =>
        office.WithDbAsync(db => FreezeReport.RunAsync(db, profile, period, "Bram Oster", "Ada Quill", office.Now(), withGaps: true));

    public static Task<byte[]> BytesAsync(this OfficeApp office, int? document) => office.WithDbAsync(db => db.Documents.Where(d => d.Id == document).Select(d => d.Bytes).SingleAsync());

    public static async Task<List<Dictionary<string, string>>> RowsAsync(this OfficeApp office, ReportRun run) => Parse(await office.BytesAsync(run.CsvDocumentId));

    public static List<Dictionary<string, string>> Parse(byte[] csv)
    {
        using var reader = new CsvReader(new StreamReader(new MemoryStream(csv), new UTF8Encoding(false, true)), CultureInfo.InvariantCulture);
        reader.Read();
        reader.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (reader.Read()) rows.Add(reader.HeaderRecord!.ToDictionary(h => h, h => reader.GetField(h)!));
        return rows;
    }

    public static async Task<string> TagAsync(this OfficeApp office, DateTime activated, string street = "14 Larkspur Hill Road", string zone = "", string state = "MN")
    {
        var (house, system) = await office.AddHouseWithSystemAsync("", activated, street: street, zone: zone);
        return await office.WithDbAsync(async db =>
        {
            (await db.Houses.SingleAsync(h => h.Id == house)).State = state;
            var unit = await db.Systems.SingleAsync(s => s.Id == system);
            unit.CompletedOn = Business.Data.HouseTime.DayOf(activated, Business.Data.HouseTime.Zone(zone));
            await db.SaveChangesAsync();
            return unit.TagNumber;
        });
    }

    public static Task ChangeAsync(this OfficeApp office, string tag, Action<Business.Systems.InstalledSystem, Business.Houses.House> change) => office.WithDbAsync(async db =>
    {
        var system = await db.Systems.SingleAsync(s => s.TagNumber == tag);
        change(system, await db.Houses.SingleAsync(h => h.Id == system.HouseId));
        await db.SaveChangesAsync();
    });

    /// <summary>Adds a profile from its text; it must be right.</summary>
    public static Task AddProfileAsync(this OfficeApp office, string json) => office.WithDbAsync(async db =>
    {
        var (profile, problems) = ReadProfile.Of(json);
        Assert.Empty(problems);
        Assert.Null(await ProfileBook.KeepAsync(db, profile!, null, "Ada Quill", office.Now()));
    });
}
