using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Files;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Migrations.Sqlite;

namespace MitigationOffice.Benchmarks.Reports;

/// <summary>A month of 10,000 systems: preview, freezing with its three files, and what the same rows cost the libraries below alone.</summary>
internal static class ReportRatio
{
    private const int Systems = 10_000;
    private static readonly DateTime Now = new(2026, 11, 2, 12, 0, 0, DateTimeKind.Utc);

    internal static async Task<int> PrintAsync()
    {
        var folder = Directory.CreateTempSubdirectory("office-reports-");
        try
        {
            var file = Path.Combine(folder.FullName, "office.db");
            await ApartAsync("reports-fill", file);
            await MeasureAsync(file);
            await ApartAsync("reports-next", file);
            return 0;
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            folder.Delete(recursive: true);
        }
    }

    /// <summary>By a process of its own, so that what one step leaves behind is not taken for the memory of another.</summary>
    private static async Task ApartAsync(string step, string file)
    {
        var program = Environment.ProcessPath!;
        using var process = Process.Start(program, [.. Path.GetFileNameWithoutExtension(program) == "dotnet" ? new[] { Environment.GetCommandLineArgs()[0] } : [], step, file]);
        await process.WaitForExitAsync();
    }

    internal static async Task<int> NextAsync(string file)
    {
        Say("preview of the next month", await BestAsync(5, () => PreviewAsync(file, Now.AddMonths(1), "2026-11")));
        return 0;
    }

    internal static async Task<int> FillAsync(string file)
    {
        await ManySystems.FillAsync(() => Open(file), Systems);
        return 0;
    }

    private static OfficeDb Open(string file) => new OfficeDbFactory().CreateDbContext([$"Data Source={file}"]);

    private static async Task MeasureAsync(string file)
    {
        var now = Now;
        Console.WriteLine($"before anything is read: largest working set {Memory()}");
        var raw = await BestAsync(5, () => RawAsync(file));
        Say("reading the rows by SQLite alone", raw);
        Say($"preview of {Systems} systems", await BestAsync(5, () => PreviewAsync(file, now)), raw, "SQLite alone");
        await FilesAsync(file, now);
        GC.Collect();
        var freeze = await BestAsync(1, async () =>
        {
            await using var db = Open(file);
            return await FreezeReport.RunAsync(db, ProfileBook.General, "2026-10", "Bram Oster", "Ada Quill", now, withGaps: true);
        });
        Say("freeze, all three files and the rows kept", freeze, raw, "reading by SQLite alone");
    }

    /// <summary>The largest memory since the last call, MB; on Linux the mark is set back, elsewhere it is that of the whole run.</summary>
    private static string Memory()
    {
        using var me = Process.GetCurrentProcess();
        var most = me.PeakWorkingSet64 / 1048576.0;
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        if (OperatingSystem.IsLinux()) File.WriteAllText("/proc/self/clear_refs", "5");
        return string.Create(CultureInfo.InvariantCulture, $"{most:0} MB");
    }

    private static async Task FilesAsync(string file, DateTime now)
    {
        await using var db = Open(file);
        var head = (await ReportHead.ReadAsync(db, ProfileBook.General))!;
        var one = await PreviewReport.RunAsync(db, head, head.PeriodOf("2026-10")!, now);
        var bare = await BestAsync(2, () => Task.FromResult(BarePdf.Make(one.Table)));
        Say("  a PDF of the same cells by its library alone, no tags, nothing wrapped", bare);
        Say("  PDF", await BestAsync(2, () => Task.FromResult(ReportPaper.Make(one.Table, one.Totals, "Ada Quill", now, TimeZoneInfo.Utc))), bare, "its library alone");
        Say("  CSV", await BestAsync(3, () => Task.FromResult(ReportCsv.Bytes(one.Table))));
        Say("  XLSX", await BestAsync(3, () => ReportXlsx.BytesAsync(one.Table, one.Totals)));
    }

    private static async Task<ReportPreview> PreviewAsync(string file, DateTime now, string period = "2026-10")
    {
        await using var db = Open(file);
        var head = (await ReportHead.ReadAsync(db, ProfileBook.General))!;
        return await PreviewReport.RunAsync(db, head, head.PeriodOf(period)!, now);
    }

    private static async Task<int> RawAsync(string file)
    {
        await using var db = Open(file);
        await db.Database.OpenConnectionAsync();
        var cells = 0;
        foreach (var sql in new[]
        {
            "SELECT s.*, h.* FROM \"Systems\" s JOIN \"Houses\" h ON h.\"Id\" = s.\"HouseId\" ORDER BY s.\"ActivatedAtUtc\", s.\"Id\"", "SELECT * FROM \"FoundationArea\"",
            "SELECT o.*, c.* FROM \"HouseOwners\" o JOIN \"Customers\" c ON c.\"Id\" = o.\"CustomerId\"", "SELECT * FROM \"EarlierTest\"", "SELECT t.*, d.* FROM \"RadonTests\" t LEFT JOIN \"TestDevice\" d ON d.\"RadonTestId\" = t.\"Id\"", "SELECT * FROM \"SystemComponent\"",
        })
        {
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = sql;
            await using var reader = await command.ExecuteReaderAsync();
            var row = new object[reader.FieldCount];
            while (await reader.ReadAsync()) cells += reader.GetValues(row);
        }

        return cells;
    }

    /// <summary>The best of some rounds: time on the wall and of the processor, ms. On a machine with other work only the second tells.</summary>
    private static async Task<(double Wall, double Cpu)> BestAsync<T>(int rounds, Func<Task<T>> act)
    {
        var best = (Wall: double.MaxValue, Cpu: double.MaxValue);
        using var me = Process.GetCurrentProcess();
        for (var i = 0; i < rounds; i++)
        {
            me.Refresh();
            var (start, before) = (Stopwatch.GetTimestamp(), me.TotalProcessorTime);
            await act();
            me.Refresh();
            best = (Math.Min(best.Wall, Stopwatch.GetElapsedTime(start).TotalMilliseconds), Math.Min(best.Cpu, (me.TotalProcessorTime - before).TotalMilliseconds));
        }

        return best;
    }

    private static void Say(string what, (double Wall, double Cpu) took, (double Wall, double Cpu)? bare = null, string than = "") =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: {took.Wall:0} ms, processor {took.Cpu:0} ms{(bare is { } b ? $", {took.Cpu / b.Cpu:0.0} times {than}" : "")}, largest working set {Memory()}"));
}
