using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup;

/// <summary>Brings the records to this program's version: refuses newer ones untouched, keeps a copy of older ones first.</summary>
public static class MigrateRecords
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(5);

    public static async Task RunAsync(OfficeDb db, DataFolder folder, ILogger log, CancellationToken cancel)
    {
        using var deadline = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        deadline.CancelAfter(Longest);
        var known = db.Database.GetMigrations().ToHashSet(StringComparer.Ordinal);
        var fresh = db.Database.IsSqlite() && !File.Exists(folder.Database);
        var applied = fresh || !await db.Database.CanConnectAsync(deadline.Token) ? [] : (await db.Database.GetAppliedMigrationsAsync(deadline.Token)).ToList();
        if (applied.Find(m => !known.Contains(m)) is { } newer)
            throw new InvalidOperationException($"These records were made by a newer version of the program ({newer}). Start that version, or restore an older backup.");
        if (applied.Count == known.Count) return;
        if (db.Database.IsSqlite() && applied.Count > 0) await KeepCopyAsync(db, folder, log, deadline.Token);
        await db.Database.MigrateAsync(deadline.Token);
    }

    private static async Task KeepCopyAsync(OfficeDb db, DataFolder folder, ILogger log, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder.Backups);
        var copy = Path.Combine(folder.Backups, $"before-{db.Database.GetMigrations().Last()}.db");
        if (File.Exists(copy)) File.Delete(copy);
        await db.Database.ExecuteSqlAsync($"VACUUM INTO {copy}", cancel);
        log.LogInformation("Kept a copy of the records at {Copy} before bringing them up to date.", copy);
        // The folder's lock is ours, so a row left here belongs to a program that was killed while migrating.
        try
        {
            await db.Database.ExecuteSqlRawAsync("DELETE FROM \"__EFMigrationsLock\"", cancel);
        }
        catch (SqliteException)
        {
            // No such table yet: nothing to clear.
        }
    }
}
