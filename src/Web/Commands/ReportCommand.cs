using System.CommandLine;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

public static class ReportCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var report = new Command("report", "The reports to the state.");
        report.Subcommands.Add(Of(args, data, PeriodKind.Month, "month", "Year and month, 2026-10.", ProfileBook.General));
        report.Subcommands.Add(Of(args, data, PeriodKind.Quarter, "quarter", "Year and quarter, 2026-Q4.", null));
        report.Subcommands.Add(Of(args, data, PeriodKind.Year, "year", "The year, 2026.", null));
        report.Subcommands.Add(Of(args, data, PeriodKind.Days, "days", "The closing day, 2026-10-17; it begins after the report before.", null));
        return report;
    }

    private static Command Of(string[] args, Option<string?> data, PeriodKind kind, string name, string words, string? usual)
    {
        var command = new Command(name, "Freeze a report whose period is over and write its files; one frozen before is written again as it was.");
        var which = new Argument<string>(name) { Description = words };
        var profile = new Option<string>("--profile") { Description = $"The profile's code, as under State reports, Rules and profiles.{(usual is null ? "" : $" Without it {usual}.")}", Required = usual is null };
        if (usual is not null) profile.DefaultValueFactory = _ => usual;
        var outOption = new Option<string>("--out") { Description = "The folder the files go into.", Required = true };
        var signed = new Option<string>("--signed-by") { Description = "The person who signs.", DefaultValueFactory = _ => "" };
        var gaps = new Option<bool>("--with-gaps") { Description = "Freeze even where values are missing." };
        which.Validators.Add(result =>
        {
            if (ReportPeriod.DayOf(kind, result.GetValueOrDefault<string>()) is null) result.AddError($"Write the {name} as {ReportPeriod.Example(kind)}.");
        });
        command.Arguments.Add(which);
        foreach (var option in new Option[] { profile, outOption, signed, gaps }) command.Options.Add(option);
        command.SetAction((parse, cancel) => CommandLine.GuardAsync(() => RunAsync(
            args, parse.GetValue(data), kind, new(parse.GetValue(profile)!, parse.GetValue(which)!, parse.GetValue(outOption)!, parse.GetValue(signed)!, parse.GetValue(gaps)), cancel)));
        return command;
    }

    /// <summary>What was asked for on the command line.</summary>
    public sealed record Asked(string Profile, string Period, string Folder, string SignedBy, bool WithGaps);

    private static async Task RunAsync(string[] args, string? data, PeriodKind kind, Asked asked, CancellationToken cancel)
    {
        await using var app = OfficeHost.Build(args, data, "none", demo: false);
        await app.PrepareAsync(demo: false, cancel);
        await using var scope = app.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
        var found = await ProfileBook.FindAsync(db, asked.Profile, cancel) ?? throw new InvalidOperationException($"There is no profile “{asked.Profile}”. There are {string.Join(", ", (await ProfileBook.ReadAsync(db, cancel)).Where(p => p.Profile.Reports).Select(p => p.Profile.Code))}.");
        if (found.Profile.Period != kind) throw new InvalidOperationException(found.Profile.Reports ? $"The profile {asked.Profile} is not reported by the {kind.ToString().ToLowerInvariant()}: use report {found.Profile.Period.ToString().ToLowerInvariant()}." : $"The profile {asked.Profile} asks for no report.");
        foreach (var path in await WriteAsync(db, asked, scope.ServiceProvider.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime, cancel)) await Console.Out.WriteLineAsync(path);
    }

    /// <summary>Freezes where needed, and writes the stored bytes; the paths of the files. Nothing is frozen where the folder takes no files.</summary>
    public static async Task<IReadOnlyList<string>> WriteAsync(OfficeDb db, Asked asked, DateTime nowUtc, CancellationToken cancel)
    {
        await DemandFolderAsync(asked.Folder, cancel);
        var run = await db.ReportRuns.AsNoTracking().SingleOrDefaultAsync(r => r.ProfileCode == asked.Profile && r.Period == asked.Period, cancel)
            ?? await FreezeReport.RunAsync(db, asked.Profile, asked.Period, "the command line", asked.SignedBy, nowUtc, asked.WithGaps, cancel);
        var (ids, paths) = (run.DocumentIds.ToList(), new List<string>());
        foreach (var file in await db.Documents.AsNoTracking().Where(d => ids.Contains(d.Id)).OrderBy(d => d.Id).ToListAsync(cancel))
        {
            paths.Add(Path.Combine(asked.Folder, file.FileName));
            await File.WriteAllBytesAsync(paths[^1], file.Bytes, cancel);
        }

        return paths;
    }

    private static async Task DemandFolderAsync(string folder, CancellationToken cancel)
    {
        try
        {
            Directory.CreateDirectory(folder);
            var trial = Path.Combine(folder, Path.GetRandomFileName());
            await File.WriteAllBytesAsync(trial, [], cancel);
            File.Delete(trial);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new InvalidOperationException($"No file can be written into {folder}: {e.Message} Nothing was frozen.");
        }
    }
}
