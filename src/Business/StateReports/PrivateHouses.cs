using System.Buffers;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>Houses whose addresses and owners a state's rule keeps from everybody but the owner and the state.</summary>
public sealed class PrivateHouses
{
    public const string Instead = "private";
    private const int ShortestTold = 4;
    private readonly SearchValues<string> _told;

    private PrivateHouses(IReadOnlySet<int> ids, IReadOnlySet<int> systemIds, string[] told) => (Ids, SystemIds, _told) = (ids, systemIds, SearchValues.Create(told, StringComparison.OrdinalIgnoreCase));

    public IReadOnlySet<int> Ids { get; }

    /// <summary>What stands in them.</summary>
    public IReadOnlySet<int> SystemIds { get; }

    /// <summary>Null where no rule holds for any house on record.</summary>
    public static async Task<PrivateHouses?> ReadAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var rules = (await ProfileBook.ReadAsync(db, cancel)).Select(p => p.Profile).Where(p => p.Privacy.AddressesPrivate).ToList();
        var everywhere = rules.Where(p => p.State.Length == 0).Select(p => p.Code).ToList();
        var states = rules.Where(p => p.State.Length > 0).SelectMany(p => new[] { p.State, p.State.ToLowerInvariant() }).ToList();
        var all = everywhere.Count > 0 && await db.ReportDuties.AnyAsync(d => everywhere.Contains(d.ProfileCode), cancel);
        var houses = await db.Houses.AsNoTracking().Where(h => all || states.Contains(h.State)).Select(h => new
        {
            h.Id, h.Street, h.Street2, Systems = db.Systems.Where(s => s.HouseId == h.Id).Select(s => s.Id).ToList(), Owners = h.Owners.Select(o => new { o.Customer!.Name, o.Customer.ContactName, o.Customer.Phone, o.Customer.OtherPhone, o.Customer.Email, o.Customer.MailingAddress }).ToList(),
        }).AsSingleQuery().ToListAsync(cancel);
        if (houses.Count == 0) return null;
        var told = houses.SelectMany(h => h.Owners.SelectMany(o => new[] { o.Name, o.ContactName, o.Phone, o.OtherPhone, o.Email, o.MailingAddress }).Append(h.Street))
            .Select(t => t.Trim()).Where(t => t.Length >= ShortestTold).Distinct(StringComparer.OrdinalIgnoreCase).ToArray();
        return new(houses.Select(h => h.Id).ToHashSet(), houses.SelectMany(h => h.Systems).ToHashSet(), told);
    }

    /// <summary>The text, or the word that stands for it where it names a private house or its owner.</summary>
    public string Hide(string text) => text.Length >= ShortestTold && text.AsSpan().ContainsAny(_told) ? Instead : text;
}
