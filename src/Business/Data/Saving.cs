using System.Reflection;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using MitigationOffice.Business.Staff;

namespace MitigationOffice.Business.Data;

/// <summary>How the office saves: one writer at a time on SQLite, every row's version counted, every change audited,
/// all in one transaction.</summary>
public sealed partial class OfficeDb
{
    private static readonly HashSet<string> NotTold = new(StringComparer.Ordinal)
    {
        nameof(Record.Version), nameof(StaffMember.PasswordHash), nameof(StaffMember.SecurityStamp),
        nameof(StaffMember.ConcurrencyStamp), nameof(StaffMember.AccessFailedCount),
        nameof(StaffMember.NormalizedEmail), nameof(StaffMember.NormalizedUserName),
    };

    /// <summary>Audit rows cost a write each; loaders of sample data may leave them out.</summary>
    public bool Audited { get; set; } = true;

    internal bool Embedded => Database.ProviderName?.EndsWith("Sqlite", StringComparison.Ordinal) == true;

    /// <summary>Runs an act in one transaction, alone among writers where the database is embedded. An act inside an act joins it.</summary>
    public async Task<T> WriteAsync<T>(Func<Task<T>> act, CancellationToken cancel = default)
    {
        if (Database.CurrentTransaction is not null) return await act();
        using var gate = Embedded ? await WriteGate.EnterAsync(Database.GetConnectionString() ?? "", cancel) : null;
        await using var transaction = await Database.BeginTransactionAsync(cancel);
        var result = await act();
        await transaction.CommitAsync(cancel);
        return result;
    }

    public Task WriteAsync(Func<Task> act, CancellationToken cancel = default) =>
        WriteAsync(async () => { await act(); return true; }, cancel);

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        ChangeTracker.DetectChanges();
        if (!ChangeTracker.HasChanges()) return 0;
        return await WriteAsync(() => SaveWithAudit(acceptAllChangesOnSuccess, cancellationToken), cancellationToken);
    }

    public override int SaveChanges(bool acceptAllChangesOnSuccess) =>
        throw new NotSupportedException("Save with SaveChangesAsync: it holds the write gate and the audit.");

    private async Task<int> SaveWithAudit(bool accept, CancellationToken cancel)
    {
        var told = Changes();
        var book = BookChanges();
        if (Audited) await FindHousesAsync(told, EntityState.Deleted, cancel);
        var saved = await base.SaveChangesAsync(accept, cancel);
        if (book.Count > 0) await KeepBookAsync(book, accept, cancel);
        if (told.Count == 0 || !Audited) return saved;
        await FindHousesAsync(told, EntityState.Unchanged, cancel);
        await TakeTurnAsync(Turn.Audit, cancel);
        var previous = await Audit.OrderByDescending(a => a.Id).Select(a => a.Hash).FirstOrDefaultAsync(cancel) ?? "";
        foreach (var change in told) previous = Tell(change, previous);
        await base.SaveChangesAsync(accept, cancel);
        return saved;
    }

    private string Tell(Change change, string previous)
    {
        var at = clock.GetUtcNow().UtcDateTime;
        var entry = new AuditEntry
        {
            AtUtc = new DateTime(at.Ticks - at.Ticks % 10, DateTimeKind.Utc),
            By = actor.Name,
            Subject = change.Entry.Metadata.ClrType.Name,
            SubjectId = change.Entry.Entity switch { Record r => r.Id, StaffMember s => s.Id, _ => 0 },
            Act = change.Act,
            HouseId = change.HouseId,
            Changes = change.Json,
            PreviousHash = previous,
            Hash = "",
        };
        entry.Hash = entry.ComputeHash();
        Audit.Add(entry);
        return entry.Hash;
    }

    private List<Change> Changes()
    {
        var told = new List<Change>();
        foreach (var entry in ChangeTracker.Entries())
        {
            if (entry.State is EntityState.Unchanged or EntityState.Detached) continue;
            if (entry.State != EntityState.Added && entry.Metadata.ClrType.GetCustomAttribute<HoldsAttribute>() is { Frozen: true })
                throw new InvalidOperationException($"{entry.Metadata.ClrType.Name} is written once and never changed.");
            if (entry is { Entity: Record row, State: EntityState.Modified }) row.Version = (int)entry.Property(nameof(Record.Version)).OriginalValue! + 1;
            if (entry.Entity is Record or StaffMember) told.Add(new Change(entry, entry.State.ToString(), JsonSerializer.Serialize(Differences(entry))));
        }

        return told;
    }

    private static Dictionary<string, object?[]> Differences(EntityEntry entry)
    {
        var all = new Dictionary<string, object?[]>(StringComparer.Ordinal);
        foreach (var property in entry.Properties)
        {
            if (NotTold.Contains(property.Metadata.Name) || property.Metadata.IsPrimaryKey()) continue;
            if (property.Metadata.PropertyInfo?.IsDefined(typeof(NotAuditedAttribute), false) == true) continue;
            Note(all, entry.State, property.Metadata.Name, property.OriginalValue, property.CurrentValue);
        }

        foreach (var amount in entry.ComplexProperties)
            foreach (var property in amount.Properties)
                Note(all, entry.State, amount.Metadata.Name + property.Metadata.Name, property.OriginalValue, property.CurrentValue);
        return all;
    }

    private static void Note(Dictionary<string, object?[]> all, EntityState state, string name, object? before, object? after)
    {
        if (state == EntityState.Added) all[name] = [null, Plain(after)];
        else if (state == EntityState.Deleted) all[name] = [Plain(before), null];
        else if (!Equals(before, after)) all[name] = [Plain(before), Plain(after)];
    }

    private static object? Plain(object? value) => value is Enum e ? e.ToString() : value;

    private sealed record Change(EntityEntry Entry, string Act, string Json)
    {
        public int? HouseId { get; set; }
    }
}
