using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Setup;

/// <summary>What an empty office starts with: its own page, to be filled in.</summary>
public static class FirstRecords
{
    public static async Task EnsureAsync(OfficeDb db, CancellationToken cancel)
    {
        if (!await db.Company.AnyAsync(cancel)) db.Company.Add(new CompanyProfile());
        if (!await db.OutboxGates.AnyAsync(cancel)) db.OutboxGates.Add(new OutboxGate { Id = 1 });
        await db.SaveChangesAsync(cancel);
        await SeedReminderRules.RunAsync(db, cancel);
        await SeedNudgeRules.RunAsync(db, cancel);
    }
}
