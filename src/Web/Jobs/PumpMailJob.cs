using Hangfire;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Jobs;

/// <summary>Once a minute: what is due goes into the outbox, what waits in the outbox goes out. Never retried by the scheduler:
/// the outbox knows what may be tried again.</summary>
public sealed class PumpMailJob(OfficeDb db, QueueDueReminders queue, NudgeQuotes nudge, SendOutbox send)
{
    private static readonly SemaphoreSlim One = new(1, 1);

    [AutomaticRetry(Attempts = 0)]
    public async Task RunAsync(CancellationToken cancel)
    {
        // A server that is slow to answer must not fill every worker with rounds that wait for it.
        if (!await One.WaitAsync(0, cancel)) return;
        try
        {
            await queue.RunAsync(cancel);
            await nudge.RunAsync(cancel);
            await send.RunAsync(cancel);
            await SettleReminders.NoteSentAsync(db, cancel);
        }
        finally
        {
            One.Release();
        }
    }
}
