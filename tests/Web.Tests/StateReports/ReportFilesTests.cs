using System.Globalization;
using System.Text;
using ExcelDataReader;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Files;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Tests.FollowUp;
using Sylvan.Data.Csv;
using UglyToad.PdfPig;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>The files, read by other libraries than wrote them: CSV by CsvHelper and Sylvan, XLSX by ExcelDataReader, PDF by PdfPig.</summary>
public sealed class ReportFilesTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public async Task InitializeAsync()
    {
        await office.InitializeAsync();
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        var (house, system) = await office.AddHouseWithSystemAsync("a@b.example", Utc(2026, 2, 10), street: "7 \"Old\" Mill, Rear");
        await office.AddTestAsync(house, Utc(2026, 2, 14));
        await office.WithDbAsync(async db =>
        {
            db.Set<EarlierTest>().Add(new EarlierTest { HouseId = house, PCiL = 11.25m, Device = "Charcoal", EndedOn = new DateOnly(2026, 1, 5), MadeBy = "M-1" });
            (await db.Systems.SingleAsync(x => x.Id == system)).DifferencesFromDesign = "Two lines:\r\nelbow added, \"tight\" Ł 漢";
            (await db.Houses.SingleAsync()).Zip = "01234";
            await db.SaveChangesAsync();
        });
    }

    public Task DisposeAsync() => office.DisposeAsync();

    [Fact]
    public async Task The_csv_holds_what_the_records_hold_for_two_readers()
    {
        var run = await office.FreezeAsync("2026-02");
        var bytes = await office.BytesAsync(run.CsvDocumentId);
        var row = Assert.Single(ReportVerbs.Parse(bytes));
        Assert.Equal(("7 \"Old\" Mill, Rear", "Alder", "Wren Alder", "555-0123"), (row["street"], row["county"], row["customer"], row["customer_phone"]));
        Assert.Equal(("11.3", "1.3", "2026-02-10", "Continuous monitor"), (row["pre_test_pcil"], row["post_test_pcil"], row["fan_activation_date"], row["post_test_method"]));
        // 224 Pa / 249.089 Pa per inWC = 0.8993 inWC (NIST SP 811 gives 249.0889 Pa for the inch of water at 4 °C; from memory).
        Assert.Equal(("0.90", "1840.00", "Basement", "Ada Quill"), (row["start_up_suction_inwc"], row["cost"], row["foundation_type"], row["signed_by"]));
        Assert.Equal("Two lines:\r\nelbow added, \"tight\" Ł 漢", row["notes"]);
        Assert.Equal(ReportFields.General.Select(f => f.Name), row.Keys);
        Assert.NotEqual(0xEF, bytes[0]);
        Assert.DoesNotContain("\n", Encoding.UTF8.GetString(bytes).Replace("\r\n", "", StringComparison.Ordinal), StringComparison.Ordinal);

        await using var second = await CsvDataReader.CreateAsync(new StreamReader(new MemoryStream(bytes), new UTF8Encoding(false)));
        Assert.True(await second.ReadAsync());
        Assert.Equal(row.Values, Enumerable.Range(0, second.FieldCount).Select(second.GetString));
        Assert.Equal(row.Keys, Enumerable.Range(0, second.FieldCount).Select(second.GetName));
        Assert.False(await second.ReadAsync());
    }

    [Fact]
    public async Task The_workbook_has_dates_as_dates_numbers_as_numbers_and_the_rest_as_text()
    {
        var run = await office.FreezeAsync("2026-02");
        var csv = Assert.Single(await office.RowsAsync(run));
        using var book = ExcelReaderFactory.CreateReader(new MemoryStream(await office.BytesAsync(run.XlsxDocumentId)));
        Assert.Equal("Report", book.Name);
        Assert.True(book.Read());
        Assert.Equal(csv.Keys, Enumerable.Range(0, book.FieldCount).Select(book.GetString));
        Assert.True(book.Read());
        foreach (var (name, i) in csv.Keys.Select((k, i) => (k, i)))
        {
            var (value, text) = (book.GetValue(i), csv[name]);
            if (text.Length == 0) Assert.Null(value);
            else if (ReportFields.Find(name)!.Kind == FieldKind.Day) Assert.Equal(text, Assert.IsType<DateTime>(value).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
            else if (ReportFields.Find(name)!.Kind == FieldKind.Number) Assert.Equal(decimal.Parse(text, CultureInfo.InvariantCulture), (decimal)Assert.IsType<double>(value));
            else Assert.Equal(text.Replace("\r\n", "\n", StringComparison.Ordinal), Assert.IsType<string>(value).Replace("\r\n", "\n", StringComparison.Ordinal));
        }

        Assert.Equal("01234", csv["zip"]);
        Assert.False(book.Read());
        Assert.True(book.NextResult());
        Assert.True(book.Read());
        Assert.Equal(("Systems counted", 1.0), (book.GetString(0), book.GetDouble(1)));
    }

    [Fact]
    public async Task The_list_on_paper_has_its_title_block_and_totals()
    {
        var run = await office.FreezeAsync("2026-02");
        using var pdf = PdfDocument.Open(await office.BytesAsync(run.PdfDocumentId));
        var text = string.Concat(pdf.GetPages().Select(p => p.Text));
        foreach (var words in new[] { "General, monthly: February 2026", "Lantern Ridge Radon", "TEST-001", "Systems counted", "1840.00", "7 \"Old\" Mill", "Confirm with your state", "Ada Quill" })
            Assert.Contains(words, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_table_gives_the_same_bytes()
    {
        async Task<byte[][]> OnceAsync()
        {
            var preview = await office.PreviewAsync("2026-02");
            return [ReportCsv.Bytes(preview.Table), await ReportXlsx.BytesAsync(preview.Table, preview.Totals), ReportPaper.Make(preview.Table, preview.Totals, "B", Utc(2026, 3, 1), TimeZoneInfo.Utc)];
        }

        var first = await OnceAsync();
        await Task.Delay(TimeSpan.FromSeconds(2.1));
        var second = await OnceAsync();
        for (var i = 0; i < first.Length; i++) Assert.True(first[i].AsSpan().SequenceEqual(second[i]), $"File {i} differs.");
    }

    [Fact]
    public async Task A_profile_writes_its_own_heads_order_forms_words_and_fixed_values()
    {
        await office.AddProfileAsync("""
            {"code":"own","name":"Own","period":"month","files":["csv","xlsx"],"fee":{"cents":2550},"fields":[
              {"name":"Tag No.","from":"tag"},{"name":"Form","value":"M-1"},{"name":"On","from":"fan_activation_date","format":"MM/dd/yyyy"},
              {"name":"After","from":"post_test_pcil","format":"0.00"},{"name":"Kind","from":"building_type","map":{"Single family":"01"}},{"name":"Before","from":"pre_test_pcil","format":"0"}]}
            """);
        var run = await office.FreezeAsync("2026-02", "own");
        var lines = Encoding.UTF8.GetString(await office.BytesAsync(run.CsvDocumentId)).Split("\r\n");
        Assert.Equal("Tag No.,Form,On,After,Kind,Before", lines[0]);
        Assert.Equal("M-1,02/10/2026,1.30,01,11", lines[1][(lines[1].IndexOf(',', StringComparison.Ordinal) + 1)..]);
        Assert.Equal((Money.FromDollars(25.50m), (int?)null), (run.Fee, run.PdfDocumentId));
        using var book = ExcelReaderFactory.CreateReader(new MemoryStream(await office.BytesAsync(run.XlsxDocumentId)));
        Assert.True(book.Read() && book.Read());
        Assert.Equal("01", book.GetString(4));
    }
}
