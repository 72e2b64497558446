namespace MitigationOffice.Web.Setup;

/// <summary>Loads the invented company once.</summary>
public static class LoadDemo
{
    public static Task RunAsync(IServiceProvider services, ILogger log, CancellationToken cancel) => Task.CompletedTask;
}
