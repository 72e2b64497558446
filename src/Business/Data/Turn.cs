using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Business.Data;

/// <summary>What only one act at a time may do on a server database. Each has a number of its own there, so that none waits for another.</summary>
internal enum Turn
{
    Audit = 7301,
    Inquiry = 7302,
    Money = 7303,
    Report = 7304,
    PriceBook = 7305,
    Plan = 7306,
    Acceptance = 7307,
}

public sealed partial class OfficeDb
{
    /// <summary>Waits for this act's turn and holds it until the transaction ends. An embedded database has one writer anyway.
    /// Call it before the first row is read by which the act decides.</summary>
    internal Task TakeTurnAsync(Turn turn, CancellationToken cancel = default) =>
        Embedded ? Task.CompletedTask : Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({(long)turn})", cancel);
}
