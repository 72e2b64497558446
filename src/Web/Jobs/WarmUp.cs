using System.Data.Common;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Jobs;

/// <summary>The first read of what is due takes ten times as long as those after it: it is made when the program starts, beside
/// everything else.</summary>
public sealed class WarmUp(IServiceScopeFactory scopes, TimeProvider clock, ILogger<WarmUp> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            await DueReminder.WarmUpAsync(scope.ServiceProvider.GetRequiredService<OfficeDb>(), clock.GetUtcNow().UtcDateTime);
        }
        catch (DbException e)
        {
            // Nothing hangs on it; whoever reads the list is told what is wrong.
            log.LogInformation(e, "The list of what is due could not be read at the start.");
        }
    }
}
