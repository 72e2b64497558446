using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.FollowUp;

/// <param name="HouseId">0: this link shows nothing, for whichever reason.</param>
public sealed record FoundOwner(int LinkId, int HouseId, int CustomerId)
{
    public static readonly FoundOwner Nobody = new(0, 0, 0);

    public bool IsLive => HouseId > 0;
}

/// <summary>The private link to a house owner's own page.</summary>
public static class OwnerPage
{
    /// <summary>Adds a link to be saved by the caller, and gives the address once.</summary>
    public static Uri AddLink(OfficeDb db, MailIdentity from, int houseId, int customerId, DateTime nowUtc)
    {
        var (token, hash) = PrivateLink.Make();
        db.OwnerLinks.Add(new OwnerLink { TokenHash = hash, HouseId = houseId, CustomerId = customerId, CreatedAtUtc = nowUtc, ExpiresAtUtc = nowUtc.AddDays(OwnerLink.LivesDays) });
        return from.Link($"my-house/{token}");
    }

    /// <summary>The letter with the link below its words.</summary>
    public static Letter WithLink(Letter letter, Uri link) => letter with
    {
        Text = $"{letter.Text.TrimEnd()}\n\nBook a test, tell us a result, a new address or that the house was sold, on your own page:\n{link.AbsoluteUri}",
    };

    /// <summary>Whose link it is; nobody's when it ended, was ended, or the house has another owner.</summary>
    public static async Task<FoundOwner> FindAsync(OfficeDb db, string? token, DateTime nowUtc)
    {
        if (token is not { Length: 43 }) return FoundOwner.Nobody;
        var hash = PrivateLink.HashOf(token);
        return await db.OwnerLinks.AsNoTracking().Where(l => l.TokenHash == hash && l.RevokedAtUtc == null && l.ExpiresAtUtc > nowUtc)
            .Where(l => db.HouseOwners.Any(o => o.HouseId == l.HouseId && o.CustomerId == l.CustomerId && o.ToDay == null))
            .Select(l => new FoundOwner(l.Id, l.HouseId, l.CustomerId)).SingleOrDefaultAsync() ?? FoundOwner.Nobody;
    }
}
