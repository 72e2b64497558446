using System.CommandLine;
using System.Globalization;
using System.IO.Compression;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

/// <summary>Puts a backup in the place of the records. Everything is checked first; what stood there is kept.</summary>
public static class RestoreCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var restore = new Command("restore", "Put a backup in the place of the records; what stood there is kept under backups.");
        var from = new Argument<string>("file") { Description = "A file that backup made." };
        restore.Arguments.Add(from);
        restore.SetAction((parse, cancel) => CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, parse.GetValue(data), "none", demo: false);
            if (string.Equals(app.Configuration["Database:Provider"], "Postgres", StringComparison.OrdinalIgnoreCase))
                throw new InvalidOperationException("The records are on a PostgreSQL server: restore them with pg_restore from what pg_dump wrote.");
            var folder = app.Services.GetRequiredService<DataFolder>();
            app.Services.GetRequiredService<FolderLock>().Take(folder);
            await using var scope = app.Services.CreateAsyncScope();
            var known = scope.ServiceProvider.GetRequiredService<OfficeDb>().Database.GetMigrations().ToList();
            var now = app.Services.GetRequiredService<TimeProvider>().GetUtcNow();
            var kept = await RunAsync(folder, parse.GetValue(from)!, known, now, cancel);
            await Console.Out.WriteLineAsync(kept is null ? "Restored." : $"Restored. What stood there before is kept in {kept}.");
        }));
        return restore;
    }

    private static async Task<string?> RunAsync(DataFolder folder, string file, IReadOnlyCollection<string> known, DateTimeOffset now, CancellationToken cancel)
    {
        var working = Path.Combine(folder.FullPath, $"restore-{Path.GetRandomFileName()}.partial");
        PrivateFiles.CreateFolder(working);
        try
        {
            await UnpackAsync(file, working, known, cancel);
            return await PutInPlaceAsync(folder, working, now, cancel);
        }
        catch (InvalidDataException)
        {
            throw new InvalidOperationException($"{file} is damaged or not a whole backup; nothing was changed.");
        }
        finally
        {
            Directory.Delete(working, recursive: true);
        }
    }

    private static async Task UnpackAsync(string file, string working, IReadOnlyCollection<string> known, CancellationToken cancel)
    {
        await using var zip = await ZipFile.OpenReadAsync(file, cancel);
        var manifest = await BackupManifest.ReadAsync(zip, cancel);
        manifest.Demand(known);
        var listed = manifest.Files.Select(f => f.Name).Append(BackupManifest.Name).Order(StringComparer.Ordinal);
        if (!listed.SequenceEqual(zip.Entries.Select(e => e.FullName).Order(StringComparer.Ordinal)) || !manifest.Files.Any(f => f.Name == BackupManifest.Database))
            throw new InvalidOperationException("The backup does not hold exactly the files its manifest.json lists; nothing was changed.");
        foreach (var wanted in manifest.Files) await UnpackAsync(zip, wanted, working, cancel);
        await using var database = await RecordsFile.OpenAsync(Path.Combine(working, BackupManifest.Database), cancel);
        if (await RecordsFile.ProblemsAsync(database, thorough: true, cancel) is [var problem, ..]) throw new InvalidOperationException(problem);
        if (await RecordsFile.LastSchemaAsync(database, cancel) != manifest.Schema)
            throw new InvalidOperationException("The backup's database is of another version than its manifest.json says; nothing was changed.");
        await RecordsFile.AskAsync(database, "PRAGMA journal_mode=WAL", cancel);
    }

    private static async Task UnpackAsync(ZipArchive zip, BackedUpFile wanted, string working, CancellationToken cancel)
    {
        if (!BackupManifest.MayHold(wanted.Name)) throw new InvalidOperationException($"The backup holds a file no backup has, {wanted.Name}; nothing was changed.");
        var path = Path.Combine(working, wanted.Name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        await using var from = await zip.GetEntry(wanted.Name)!.OpenAsync(cancel);
        await using var to = PrivateFiles.Create(path);
        if (await BackupManifest.CopyAsync(wanted.Name, from, to, cancel) != wanted)
            throw new InvalidOperationException($"{wanted.Name} in the backup is not what was backed up; nothing was changed.");
        to.Flush(flushToDisk: true);
    }

    private static async Task<string?> PutInPlaceAsync(DataFolder folder, string working, DateTimeOffset now, CancellationToken cancel)
    {
        var kept = await KeepAsync(folder, now, cancel);
        Replace(Path.Combine(working, "keys"), folder.Keys);
        Replace(Path.Combine(working, "mail"), folder.Mail);
        // A log left beside another database would be played into it.
        File.Delete(folder.Database + "-wal");
        File.Delete(folder.Database + "-shm");
        File.Move(Path.Combine(working, BackupManifest.Database), folder.Database, overwrite: true);
        return kept;
    }

    /// <summary>Copies rather than moves, so that a pulled plug leaves a database in its place at every moment.</summary>
    private static async Task<string?> KeepAsync(DataFolder folder, DateTimeOffset now, CancellationToken cancel)
    {
        if (!File.Exists(folder.Database)) return null;
        await EmptyLogAsync(folder, cancel);
        var kept = Path.Combine(folder.Backups, string.Create(CultureInfo.InvariantCulture, $"before-restore-{now:yyyyMMdd-HHmmss-fff}"));
        PrivateFiles.CreateFolder(kept);
        foreach (var end in new[] { "", "-wal", "-shm" })
            if (File.Exists(folder.Database + end)) File.Copy(folder.Database + end, Path.Combine(kept, BackupManifest.Database + end));
        foreach (var (from, name) in new[] { (folder.Keys, "keys"), (folder.Mail, "mail") }) Copy(from, Path.Combine(kept, name));
        return kept;
    }

    private static async Task EmptyLogAsync(DataFolder folder, CancellationToken cancel)
    {
        try
        {
            await using var present = await RecordsFile.OpenAsync(folder.Database, cancel);
            await RecordsFile.AskAsync(present, "PRAGMA wal_checkpoint(TRUNCATE)", cancel);
        }
        catch (SqliteException)
        {
            // A damaged database is why one restores; it is kept as it is.
        }
    }

    private static void Copy(string from, string to)
    {
        if (!Directory.Exists(from)) return;
        PrivateFiles.CreateFolder(to);
        foreach (var path in Directory.EnumerateFiles(from)) File.Copy(path, Path.Combine(to, Path.GetFileName(path)));
    }

    private static void Replace(string from, string to)
    {
        if (Directory.Exists(to)) Directory.Delete(to, recursive: true);
        if (Directory.Exists(from)) Directory.Move(from, to);
    }
}
