using System.CommandLine;
using System.IO.Compression;
using Microsoft.Data.Sqlite;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

/// <summary>The whole office in one file, also while it runs: database, keys, mail files, and a list of their hashes.</summary>
public static class BackupCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var backup = new Command("backup", "Write the whole office into one new .zip file; the office may run meanwhile.");
        var to = new Argument<string>("out") { Description = "The file to make; one that exists is never overwritten." };
        backup.Arguments.Add(to);
        backup.SetAction((parse, cancel) => CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, parse.GetValue(data), "none", demo: false);
            var folder = app.Services.GetRequiredService<DataFolder>();
            RecordsFile.Demand(app.Configuration, folder, "back them up with pg_dump, and copy the data folder's keys and mail beside it.");
            var now = app.Services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime;
            var path = await PrivateFiles.MakeAsync(parse.GetValue(to)!, working => MakeAsync(folder, working, now, cancel));
            await Console.Out.WriteLineAsync(path);
        }));
        return backup;
    }

    private static async Task MakeAsync(DataFolder folder, string working, DateTime nowUtc, CancellationToken cancel)
    {
        var copy = Path.Combine(working, "office.db.partial");
        var schema = await CopyDatabaseAsync(folder.Database, copy, cancel);
        await using var stream = PrivateFiles.Create(Path.Combine(working, PrivateFiles.Finished));
        await using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            var files = new List<BackedUpFile> { await AddAsync(zip, BackupManifest.Database, copy, cancel) };
            foreach (var (name, path) in Beside(folder)) files.Add(await AddAsync(zip, name, path, cancel));
            await new BackupManifest(BackupManifest.ThisLayout, BackupManifest.ThisProgram.ToString(), schema, nowUtc, files).WriteAsync(zip, cancel);
        }

        stream.Flush(flushToDisk: true);
    }

    /// <summary>One consistent moment of the database, checked before it is trusted.</summary>
    private static async Task<string> CopyDatabaseAsync(string from, string to, CancellationToken cancel)
    {
        await using (var live = await RecordsFile.OpenAsync(from, cancel))
        {
            await using var command = live.CreateCommand();
            command.CommandText = "VACUUM INTO $to";
            command.Parameters.Add(new SqliteParameter("$to", to));
            await command.ExecuteNonQueryAsync(cancel);
        }

        await using var made = await RecordsFile.OpenAsync(to, cancel);
        if (await RecordsFile.ProblemsAsync(made, thorough: false, cancel) is [var problem, ..]) throw new InvalidOperationException(problem);
        return await RecordsFile.LastSchemaAsync(made, cancel);
    }

    private static IEnumerable<(string Name, string Path)> Beside(DataFolder folder) =>
        from kind in new[] { (Name: "keys", Path: folder.Keys), (Name: "mail", Path: folder.Mail) }
        where Directory.Exists(kind.Path)
        from path in Directory.EnumerateFiles(kind.Path).Order(StringComparer.Ordinal)
        where !path.EndsWith(".partial", StringComparison.Ordinal)
        select ($"{kind.Name}/{Path.GetFileName(path)}", path);

    private static async Task<BackedUpFile> AddAsync(ZipArchive zip, string name, string path, CancellationToken cancel)
    {
        await using var from = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        await using var to = await zip.CreateEntry(name, CompressionLevel.Fastest).OpenAsync(cancel);
        return await BackupManifest.CopyAsync(name, from, to, cancel);
    }
}
