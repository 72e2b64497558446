using Hangfire;
using MitigationOffice.Business.Messages.Returned;

namespace MitigationOffice.Web.Jobs;

/// <summary>Looks through the mailbox for mail that came back, where one is set.</summary>
public sealed class ReadReturnsJob(PollReturns poll, MailboxSettings mailbox)
{
    private static readonly SemaphoreSlim One = new(1, 1);

    [AutomaticRetry(Attempts = 0)]
    public async Task RunAsync(CancellationToken cancel)
    {
        if (!mailbox.IsSet || !await One.WaitAsync(0, cancel)) return;
        try
        {
            await poll.RunAsync(cancel);
        }
        finally
        {
            One.Release();
        }
    }
}
