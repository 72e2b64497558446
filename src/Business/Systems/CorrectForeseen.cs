using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>Switches the company's own correction of a foreseen number on and off.</summary>
public static class CorrectForeseen
{
    public static Task<List<OwnCorrection>> OnAsync(OfficeDb db) => db.OwnCorrections.AsNoTracking().Where(c => c.OffAtUtc == null).OrderBy(c => c.Id).ToListAsync();

    /// <summary>Takes the place of one that is on; null where too few houses speak for it or no reason is given.</summary>
    public static Task<OwnCorrection?> SwitchOnAsync(OfficeDb db, Spread spread, string reason, string by, DateTime nowUtc) => db.WriteAsync(async () =>
    {
        if (!spread.MayCorrect || reason.Length == 0) return null;
        await EndAsync(db, spread.Of, by, nowUtc);
        var row = new OwnCorrection { Of = spread.Of, Ratio = spread.Median, Readings = spread.Readings, Reason = reason, OnAtUtc = nowUtc, OnBy = by };
        db.OwnCorrections.Add(row);
        await db.SaveChangesAsync();
        return (OwnCorrection?)row;
    });

    public static Task SwitchOffAsync(OfficeDb db, ForeseenNumber of, string by, DateTime nowUtc) => db.WriteAsync(async () =>
    {
        await EndAsync(db, of, by, nowUtc);
        await db.SaveChangesAsync();
    });

    private static async Task EndAsync(OfficeDb db, ForeseenNumber of, string by, DateTime nowUtc)
    {
        foreach (var row in await db.OwnCorrections.AsTracking().Where(c => c.Of == of && c.OffAtUtc == null).ToListAsync()) (row.OffAtUtc, row.OffBy) = (nowUtc, by);
    }
}
