using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Jobs;

public sealed class PlanRemindersJob(OfficeDb db, IEnumerable<IOfficeDays> days, TimeProvider clock)
{
    public async Task RunAsync(CancellationToken cancel)
    {
        await PlanReminders.RunAsync(db, clock.GetUtcNow().UtcDateTime, days, cancel);
        await SettlePhases.RunAsync(db, clock.GetUtcNow().UtcDateTime, houseId: null, cancel);
    }
}
