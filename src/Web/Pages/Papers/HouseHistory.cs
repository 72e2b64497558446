using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Papers;

/// <summary>The audit trail of one house in plain words, newest first. Changes saved together are told together.</summary>
public static class HouseHistory
{
    private const int PageSize = 60;

    public sealed record Told(string Heading, IReadOnlyList<string> Details);

    public sealed record Act(string By, DateTime AtUtc, List<Told> Told);

    /// <param name="Acts">What was done.</param>
    /// <param name="Older">Where the next page begins; null at the end.</param>
    public sealed record Part(IReadOnlyList<Act> Acts, long? Older);

    /// <summary>The rows of the house by the index on it, and those of its owners, who are not the house's own.</summary>
    public static async Task<Part> ReadAsync(OfficeDb db, int houseId, long before, TimeZoneInfo zone, UnitSystem units)
    {
        var owners = db.HouseOwners.Where(o => o.HouseId == houseId).Select(o => o.CustomerId);
        var entries = await db.Audit.AsNoTracking()
            .Where(a => a.Id < before && (a.HouseId == houseId || (a.Subject == "Customer" && owners.Contains(a.SubjectId))))
            .OrderByDescending(a => a.Id).Take(PageSize + 1).ToListAsync();
        var more = entries.Count > PageSize;
        if (more) entries.RemoveAt(PageSize);
        var words = new ChangeWords(zone, units);
        var acts = new List<Act>();
        foreach (var entry in entries) Tell(acts, entry, words);
        return new Part(acts, more ? entries[^1].Id : null);
    }

    private static void Tell(List<Act> acts, AuditEntry entry, ChangeWords words)
    {
        var changes = JsonSerializer.Deserialize<Dictionary<string, JsonElement[]>>(entry.Changes) ?? [];
        var details = words.Details(changes, entry.Act);
        if (details.Count == 0 && entry.Act == "Modified") return;
        if (acts.Count == 0 || acts[^1].By != entry.By || (acts[^1].AtUtc - entry.AtUtc).Duration() > TimeSpan.FromSeconds(1)) acts.Add(new Act(entry.By, entry.AtUtc, []));
        acts[^1].Told.Insert(0, new Told(ChangeWords.Heading(entry.Subject, entry.Act), details));
    }
}
