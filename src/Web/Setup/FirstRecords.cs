using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Setup;

/// <summary>What an empty office starts with: its own page, to be filled in.</summary>
public static class FirstRecords
{
    public static async Task EnsureAsync(OfficeDb db, CancellationToken cancel)
    {
        if (!await db.Company.AnyAsync(cancel)) db.Company.Add(new CompanyProfile());
        await db.SaveChangesAsync(cancel);
    }
}
