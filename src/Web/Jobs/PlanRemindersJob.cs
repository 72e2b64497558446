using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Jobs;

public sealed class PlanRemindersJob(OfficeDb db, TimeProvider clock)
{
    public Task RunAsync(CancellationToken cancel) => PlanReminders.RunAsync(db, clock.GetUtcNow().UtcDateTime, cancel);
}
