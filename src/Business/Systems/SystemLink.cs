using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>A private link to a system's own page, as it stands on a label, in a packet or in a message. A system may have several
/// in force: a label printed again does not silence the one on the pipe.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TokenHash), IsUnique = true)]
[Index(nameof(InstalledSystemId))]
public sealed class SystemLink : Record
{
    public int InstalledSystemId { get; set; }

    [NotAudited]
    public required string TokenHash { get; set; }

    /// <summary>"label and packet", "to hand out".</summary>
    public string MadeFor { get; set; } = "";
    public DateTime CreatedAtUtc { get; set; }
    public string CreatedBy { get; set; } = "";
    public DateTime? RevokedAtUtc { get; set; }
    public string RevokedBy { get; set; } = "";
}

/// <summary>What the holder of a system's link may see.</summary>
public enum SystemLinkState
{
    Unknown,
    Live,
    Revoked,
}

/// <summary>Makes, finds and revokes the links to a system's own page.</summary>
public static class OwnPage
{
    /// <summary>The path below the public address.</summary>
    public static string PathOf(string token) => $"system/{token}";

    /// <summary>Adds a link and returns its secret, which is kept nowhere. The caller saves.</summary>
    public static string Add(OfficeDb db, int systemId, string madeFor, DateTime nowUtc, string by)
    {
        var (token, hash) = PrivateLink.Make();
        db.SystemLinks.Add(new SystemLink { InstalledSystemId = systemId, TokenHash = hash, MadeFor = madeFor, CreatedAtUtc = nowUtc, CreatedBy = by });
        return token;
    }

    public static async Task<(SystemLinkState State, int SystemId)> FindAsync(OfficeDb db, string? token)
    {
        if (token is not { Length: 43 }) return (SystemLinkState.Unknown, 0);
        var hash = PrivateLink.HashOf(token);
        var found = await db.SystemLinks.AsNoTracking().Where(l => l.TokenHash == hash).Select(l => new { l.InstalledSystemId, l.RevokedAtUtc }).FirstOrDefaultAsync();
        return found is null ? (SystemLinkState.Unknown, 0) : (found.RevokedAtUtc is null ? SystemLinkState.Live : SystemLinkState.Revoked, found.InstalledSystemId);
    }

    /// <summary>Ends every link of a system. The caller saves.</summary>
    public static async Task RevokeAsync(OfficeDb db, int systemId, DateTime nowUtc, string by)
    {
        foreach (var link in await db.SystemLinks.Where(l => l.InstalledSystemId == systemId && l.RevokedAtUtc == null).ToListAsync())
            (link.RevokedAtUtc, link.RevokedBy) = (nowUtc, by);
    }
}
