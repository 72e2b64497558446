using Hangfire;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Jobs;

/// <summary>Sets the recurring jobs when the program starts. What they work on stands in the records, so nothing is lost when the
/// scheduler forgets.</summary>
public sealed class StartJobs(IRecurringJobManager recurring, IServiceScopeFactory scopes) : IHostedService
{
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        await using (var scope = scopes.CreateAsyncScope())
        {
            // On a folder of its own no other program can still hold a claim.
            if (scope.ServiceProvider.GetRequiredService<OfficeDb>().Database.IsSqlite())
                await scope.ServiceProvider.GetRequiredService<SendOutbox>().GiveUpAllClaimsAsync(cancellationToken);
        }

        recurring.AddOrUpdate<PlanRemindersJob>("plan-reminders", job => job.RunAsync(CancellationToken.None), Cron.Hourly);
        recurring.AddOrUpdate<PumpMailJob>("pump-mail", job => job.RunAsync(CancellationToken.None), Cron.Minutely);
        recurring.AddOrUpdate<ReadReturnsJob>("read-returned-mail", job => job.RunAsync(CancellationToken.None), "*/10 * * * *");
        recurring.Trigger("plan-reminders");
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
