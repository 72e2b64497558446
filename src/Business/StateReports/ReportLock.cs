using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>One act on the reports at a time. On an embedded database the write gate sees to it already.</summary>
internal static class ReportLock
{
    /// <summary>Call first in the transaction; held until it ends.</summary>
    public static async Task HoldAsync(OfficeDb db, CancellationToken cancel)
    {
        if (db.Database.ProviderName?.EndsWith("Sqlite", StringComparison.Ordinal) == false) await db.Database.ExecuteSqlRawAsync("SELECT pg_advisory_xact_lock(7304)", cancel);
    }
}
