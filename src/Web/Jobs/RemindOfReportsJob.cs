using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.StateReports;

namespace MitigationOffice.Web.Jobs;

public sealed class RemindOfReportsJob(OfficeDb db, MailSettings mail, TimeProvider clock)
{
    public async Task RunAsync(CancellationToken cancel)
    {
        if (!MailAddress.IsUsable(await db.Company.Select(c => c.Email).SingleAsync(cancel))) return;
        await RemindOfReports.RunAsync(db, Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(cancel), mail), clock.GetUtcNow().UtcDateTime, cancel);
    }
}
