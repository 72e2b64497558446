using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

public static class ServeCommand
{
    public static async Task<int> RunAsync(string[] args, string? data, string role, bool demo, CancellationToken cancel) =>
        await CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, data, role, demo);
            await app.PrepareAsync(demo, cancel);
            app.Lifetime.ApplicationStarted.Register(() => Welcome.Print(app, demo));
            await app.RunAsync();
        });

    public static async Task<int> MigrateAsync(string[] args, string? data, CancellationToken cancel) =>
        await CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, data, "none", demo: false);
            await app.PrepareAsync(demo: false, cancel);
            await Console.Out.WriteLineAsync("The records are up to date.");
        });
}
