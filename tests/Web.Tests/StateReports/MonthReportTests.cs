using System.Globalization;
using System.Net;
using System.Text;
using CsvHelper;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Commands;
using MitigationOffice.Web.Tests.FollowUp;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.StateReports;

public sealed class MonthReportTests : IAsyncLifetime
{
    private static readonly DateOnly February = new(2026, 2, 1);
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    private DateTime Now => office.Clock.GetUtcNow().UtcDateTime;

    private Task<ReportPreview> PreviewAsync(DateOnly month) => office.WithDbAsync(db => MonthReport.PreviewAsync(db, month, Now));

    private Task<ReportRun> FreezeAsync(DateOnly month) => office.WithDbAsync(db => MonthReport.FreezeAsync(db, month, "Ada Quill", Now, withGaps: true));

    private Task<byte[]> BytesAsync(ReportRun run) => office.WithDbAsync(db => db.Documents.Where(d => d.Id == run.CsvDocumentId).Select(d => d.Bytes).SingleAsync());

    private static List<Dictionary<string, string>> Parse(byte[] csv)
    {
        using var reader = new CsvReader(new StreamReader(new MemoryStream(csv), new UTF8Encoding(false, true)), CultureInfo.InvariantCulture);
        reader.Read();
        reader.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (reader.Read()) rows.Add(reader.HeaderRecord!.ToDictionary(h => h, h => reader.GetField(h)!));
        return rows;
    }

    private async Task<string> TagAsync(DateTime activated, string street = "14 Larkspur Hill Road")
    {
        var (_, system) = await office.AddHouseWithSystemAsync("", activated, street: street);
        return await office.WithDbAsync(db => db.Systems.Where(s => s.Id == system).Select(s => s.TagNumber).SingleAsync());
    }

    [Fact]
    public async Task A_system_is_in_the_month_of_the_companys_own_clock()
    {
        // Chicago is six hours behind UTC in winter: 05:59 UTC on 1 March is still February there.
        var last = await TagAsync(new DateTime(2026, 3, 1, 5, 59, 0, DateTimeKind.Utc));
        await TagAsync(new DateTime(2026, 3, 1, 6, 0, 0, DateTimeKind.Utc));
        await TagAsync(new DateTime(2026, 2, 1, 5, 59, 0, DateTimeKind.Utc));
        var first = await TagAsync(new DateTime(2026, 2, 1, 6, 0, 0, DateTimeKind.Utc));
        Assert.Equal([first, last], (await PreviewAsync(February)).Rows.Select(r => r.Tag));
    }

    [Fact]
    public async Task The_file_holds_what_the_records_hold()
    {
        var (house, system) = await office.AddHouseWithSystemAsync("a@b.example", Utc(2026, 2, 10), street: "7 \"Old\" Mill, Rear");
        await office.AddTestAsync(house, Utc(2026, 2, 14));
        await office.WithDbAsync(async db =>
        {
            db.Set<EarlierTest>().Add(new EarlierTest { HouseId = house, PCiL = 11.25m, Device = "Charcoal", EndedOn = new DateOnly(2026, 1, 5), MadeBy = "M-1" });
            var s = await db.Systems.SingleAsync(x => x.Id == system);
            s.DifferencesFromDesign = "Two lines:\r\nelbow added, \"tight\"";
            await db.SaveChangesAsync();
        });
        var bytes = await BytesAsync(await FreezeAsync(February));
        var row = Assert.Single(Parse(bytes));
        Assert.Equal(("7 \"Old\" Mill, Rear", "Alder", "Wren Alder", "555-0123"), (row["street"], row["county"], row["customer"], row["customer_phone"]));
        Assert.Equal(("11.3", "1.3", "2026-02-10", "Continuous monitor"), (row["pre_test_pcil"], row["post_test_pcil"], row["fan_activation_date"], row["post_test_method"]));
        // 224 Pa / 249.089 Pa per inWC = 0.8993 inWC (NIST SP 811 gives 249.0889 Pa for the inch of water at 4 °C; from memory).
        Assert.Equal(("0.90", "1840.00", "Basement"), (row["start_up_suction_inwc"], row["cost"], row["foundation_type"]));
        Assert.Equal("Two lines:\r\nelbow added, \"tight\"", row["notes"]);
        Assert.Equal("", row["post_test_window"]);
        Assert.Equal(ReportLayout.Columns.Select(c => c.Name), row.Keys);
        Assert.NotEqual(0xEF, bytes[0]);
        Assert.DoesNotContain("\n", Encoding.UTF8.GetString(bytes).Replace("\r\n", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_frozen_never_changes()
    {
        var tag = await TagAsync(Utc(2026, 2, 10));
        var before = await BytesAsync(await FreezeAsync(February));
        await office.WithDbAsync(async db =>
        {
            (await db.Houses.SingleAsync()).Street = "1 Other Road";
            (await db.Company.SingleAsync()).Name = "Other";
            await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        Assert.Equal(before, await desk.GetByteArrayAsync("/state-reports/2026-02?handler=Csv"));
        Assert.Equal(before, await desk.GetByteArrayAsync("/state-reports/2026-02?handler=Csv"));
        Assert.Contains(tag, await desk.TextAsync("/state-reports/2026-02"), StringComparison.Ordinal);
        await Assert.ThrowsAsync<InvalidOperationException>(() => FreezeAsync(February));
        Assert.Empty((await office.WithDbAsync(db => VerifyRecords.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task One_registered_late_is_in_the_next_month_and_never_in_two()
    {
        await TagAsync(Utc(2026, 1, 10));
        await FreezeAsync(new DateOnly(2026, 1, 1));
        var late = await TagAsync(Utc(2026, 1, 20));
        var intime = await TagAsync(Utc(2026, 2, 20));
        var rows = Parse(await BytesAsync(await FreezeAsync(February)));
        Assert.Equal([(late, "2026-01"), (intime, "")], rows.Select(r => (r["tag"], r["late_from_month"])));
        office.ClockTo(new DateOnly(2026, 4, 2), 9);
        Assert.Equal("yes", Assert.Single(Parse(await BytesAsync(await FreezeAsync(new DateOnly(2026, 3, 1)))))["no_work"]);
    }

    [Fact]
    public async Task Systems_from_before_the_first_report_are_counted_and_left_out()
    {
        await TagAsync(Utc(2020, 5, 5));
        await TagAsync(Utc(2026, 2, 5));
        var preview = await PreviewAsync(February);
        Assert.Equal((1, 1), (preview.Rows.Count, preview.BeforeFirst));
    }

    /// <summary>Histories of late entries, months frozen out of order and skipped: every system since the first report is in one run.</summary>
    [Fact]
    public async Task Whatever_the_order_every_system_since_the_first_report_stands_in_exactly_one()
    {
        office.ClockTo(new DateOnly(2027, 1, 5), 9);
        var random = new Random(7);
        await FreezeAsync(new DateOnly(2026, 1, 1));
        foreach (var month in new[] { 3, 2, 6, 5, 4, 9, 12 })
        {
            for (var i = 0; i < 4; i++) await TagAsync(Utc(2026, random.Next(1, month + 1), random.Next(1, 28), random.Next(0, 24)));
            await FreezeAsync(new DateOnly(2026, month, 1));
        }

        var activated = await office.WithDbAsync(db => db.Systems.Where(s => s.ActivatedAtUtc >= Utc(2026, 1, 1, 6)).Select(s => s.Id).Order().ToListAsync());
        var reported = await office.WithDbAsync(db => db.ReportEntries.Select(e => e.InstalledSystemId).Order().ToListAsync());
        Assert.Equal(activated, reported);
    }

    [Fact]
    public async Task Two_who_freeze_at_once_make_one_run()
    {
        await TagAsync(Utc(2026, 2, 10));
        var tries = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(async () =>
        {
            try
            {
                await FreezeAsync(February);
                return 1;
            }
            catch (InvalidOperationException)
            {
                return 0;
            }
        })));
        Assert.Equal(1, tries.Sum());
        Assert.Equal(1, await office.WithDbAsync(db => db.ReportRuns.CountAsync()));
    }

    [Fact]
    public async Task A_missing_value_is_named_with_a_link_to_where_it_is_entered()
    {
        var (house, system) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10));
        await office.WithDbAsync(async db => { (await db.Systems.SingleAsync(s => s.Id == system)).FanPlace = ""; await db.SaveChangesAsync(); });
        var desk = await office.SignInAsOfficeAsync();
        var html = await (await desk.GetAsync("/state-reports/2026-02")).Content.ReadAsStringAsync();
        Assert.Contains($"<a href=\"/houses/{house}/work\">the place of the fan is missing</a>", html, StringComparison.Ordinal);
        Assert.Contains($"<a href=\"/houses/{house}/inquiry\">the radon level before is missing</a>", html, StringComparison.Ordinal);
        var refused = await desk.SubmitAsync("/state-reports/2026-02", [], "form[action*=Freeze]");
        Assert.Contains("values are missing", await refused.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/state-reports/2026-02", new() { ["WithGaps"] = "true" }, "form[action*=Freeze]")).StatusCode);
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+Mill Road")]
    [InlineData("-Mill Road")]
    [InlineData("@Mill Road")]
    public async Task Text_that_a_spreadsheet_takes_for_a_formula_is_refused_with_its_place_and_not_altered(string street)
    {
        await TagAsync(Utc(2026, 2, 10), street);
        Assert.False((await PreviewAsync(February)).MayFreeze);
        var refused = await Assert.ThrowsAsync<InvalidOperationException>(() => FreezeAsync(February));
        Assert.Contains("formula", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_month_that_runs_cannot_be_frozen() =>
        Assert.Contains("not over", (await Assert.ThrowsAsync<InvalidOperationException>(() => FreezeAsync(new DateOnly(2026, 3, 1)))).Message, StringComparison.Ordinal);

    [Fact]
    public async Task A_month_without_work_is_a_report_too()
    {
        var row = Assert.Single(Parse(await BytesAsync(await FreezeAsync(February))));
        Assert.Equal(("yes", "2026-02", "Lantern Ridge Radon", "TEST-001", ""), (row["no_work"], row["report_month"], row["company"], row["company_certification"], row["tag"]));
    }

    [Fact]
    public async Task The_command_writes_the_stored_bytes()
    {
        await TagAsync(Utc(2026, 2, 10));
        var folder = Path.Combine(office.Folder, "out");
        var path = await office.WithDbAsync(db => ReportCommand.WriteAsync(db, February, folder, true, Now, CancellationToken.None));
        var again = await office.WithDbAsync(db => ReportCommand.WriteAsync(db, February, folder, false, Now, CancellationToken.None));
        Assert.Equal("state-report-2026-02.csv", Path.GetFileName(again));
        Assert.Equal(await office.WithDbAsync(db => db.Documents.Select(d => d.Bytes).SingleAsync()), await File.ReadAllBytesAsync(path));
    }

    [Fact]
    public async Task It_is_noted_as_sent_and_a_bad_day_keeps_its_typing()
    {
        await FreezeAsync(February);
        var desk = await office.SignInAsOfficeAsync();
        var refused = await desk.SubmitAsync("/state-reports/2026-02", new() { ["Input.SentOn"] = "soon" });
        Assert.Contains("value=\"soon\"", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync("/state-reports/2026-02", new() { ["Input.SentOn"] = "3/2/2026", ["Input.SentHow"] = "portal, C-77" });
        Assert.Contains("sent Mar 2, 2026", await desk.TextAsync("/state-reports"), StringComparison.Ordinal);
    }
}
