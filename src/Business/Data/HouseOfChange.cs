using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Business.Data;

/// <summary>Which house a changed row belongs to, so that a house's whole history is one look into an index,
/// rows taken out included.</summary>
public sealed partial class OfficeDb
{
    private const int DeepestChild = 4;

    /// <summary>Called before the save for rows that go (afterwards nothing leads from them to their house) and after
    /// it for the others (before it new rows have no numbers).</summary>
    private async Task FindHousesAsync(List<Change> changes, EntityState state, CancellationToken cancel)
    {
        foreach (var change in changes.Where(c => c.HouseId is null && c.Entry.State == state))
            change.HouseId = await HouseOfAsync(change.Entry, DeepestChild, cancel);
    }

    private async Task<int?> HouseOfAsync(EntityEntry entry, int deep, CancellationToken cancel)
    {
        if (entry.Entity is House house) return house.Id;
        if (entry.Metadata.FindProperty(nameof(AuditEntry.HouseId)) is { } own) return (int?)entry.Property(own.Name).CurrentValue;
        if (deep == 0) return null;
        foreach (var parent in entry.Metadata.GetForeignKeys())
        {
            if (entry.Property(parent.Properties[0].Name).CurrentValue is not int id) continue;
            var found = await FindAsync(parent.PrincipalEntityType.ClrType, [id], cancel);
            if (found is not null && await HouseOfAsync(Entry(found), deep - 1, cancel) is { } houseId) return houseId;
        }

        return null;
    }
}
