using System.CommandLine;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

public static class ReportCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var report = new Command("report", "The reports to the state.");
        var month = new Command("month", "Freeze a month that is over and write its file; a month frozen before is written again as it was.");
        var which = new Argument<string>("month") { Description = "Year and month, 2026-10." };
        var outOption = new Option<string>("--out") { Description = "The folder the file goes into.", Required = true };
        var gaps = new Option<bool>("--with-gaps") { Description = "Freeze even where values are missing." };
        which.Validators.Add(result =>
        {
            if (ReportMonth.Read(result.GetValueOrDefault<string>()) is null) result.AddError("Write the month as year and month, for example 2026-10.");
        });
        month.Arguments.Add(which);
        month.Options.Add(outOption);
        month.Options.Add(gaps);
        month.SetAction((parse, cancel) => CommandLine.GuardAsync(() => RunAsync(
            args, parse.GetValue(data), ReportMonth.Read(parse.GetValue(which))!.Value, parse.GetValue(outOption)!, parse.GetValue(gaps), cancel)));
        report.Subcommands.Add(month);
        return report;
    }

    private static async Task RunAsync(string[] args, string? data, DateOnly month, string folder, bool withGaps, CancellationToken cancel)
    {
        await using var app = OfficeHost.Build(args, data, "none", demo: false);
        await app.PrepareAsync(demo: false, cancel);
        await using var scope = app.Services.CreateAsyncScope();
        var path = await WriteAsync(
            scope.ServiceProvider.GetRequiredService<OfficeDb>(), month, folder, withGaps, scope.ServiceProvider.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime, cancel);
        await Console.Out.WriteLineAsync(path);
    }

    /// <summary>Freezes where needed, and writes the stored bytes.</summary>
    public static async Task<string> WriteAsync(OfficeDb db, DateOnly month, string folder, bool withGaps, DateTime nowUtc, CancellationToken cancel)
    {
        var run = await db.ReportRuns.AsNoTracking().SingleOrDefaultAsync(r => r.Month == month && r.Layout == ReportLayout.General, cancel)
            ?? await MonthReport.FreezeAsync(db, month, "the command line", nowUtc, withGaps, cancel);
        var file = await db.Documents.AsNoTracking().SingleAsync(d => d.Id == run.CsvDocumentId, cancel);
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, file.FileName);
        await File.WriteAllBytesAsync(path, file.Bytes, cancel);
        return path;
    }
}
