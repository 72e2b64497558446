using System.CommandLine;
using System.Text;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

/// <summary>A price book or a fan catalogue from a file: all of it or nothing.</summary>
public static class ImportCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var import = new Command("import", "Read a price book or a fan catalogue from a CSV file, all of it or nothing.");
        var kind = new Argument<string>("kind") { Description = "prices or fans." };
        kind.AcceptOnlyFromAmong("prices", "fans");
        var file = new Argument<string>("file") { Description = "The CSV file; its first line names the columns." };
        var dryRun = new Option<bool>("--dry-run") { Description = "Read and check only; change nothing." };
        import.Arguments.Add(kind);
        import.Arguments.Add(file);
        import.Options.Add(dryRun);
        import.SetAction((parse, cancel) => CommandLine.GuardAsync(() => RunAsync(
            args, parse.GetValue(data), parse.GetValue(kind)!, parse.GetValue(file)!, parse.GetValue(dryRun), cancel)));
        return import;
    }

    private static async Task RunAsync(string[] args, string? data, string kind, string file, bool dryRun, CancellationToken cancel)
    {
        var text = await File.ReadAllTextAsync(file, new UTF8Encoding(false, throwOnInvalidBytes: true), cancel);
        var read = Read(kind, text);
        foreach (var problem in read.Problems) await Console.Error.WriteLineAsync(problem);
        if (read.Problems.Count > 0) throw new InvalidOperationException("Nothing was changed, because of what stands above.");
        if (read.Count == 0) throw new InvalidOperationException("The file holds no lines below its first.");
        if (dryRun)
        {
            await Console.Out.WriteLineAsync($"{read.Count} {kind} read, every line right; nothing was changed.");
            return;
        }

        await using var app = OfficeHost.Build(args, data, "none", demo: false);
        await app.PrepareAsync(demo: false, cancel);
        await using var scope = app.Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<Actor>().Name = "the command line";
        var (added, changed) = await read.ApplyAsync(scope.ServiceProvider.GetRequiredService<OfficeDb>());
        await Console.Out.WriteLineAsync($"{added} added, {changed} changed, {read.Count - added - changed} as they were.");
    }

    private static ReadFile Read(string kind, string text)
    {
        if (kind == "fans")
        {
            var (fans, wrong) = FanFile.Read(text);
            return new(fans.Count, wrong, db => FanFile.ApplyAsync(db, fans));
        }

        var prices = PriceBookFile.Read(text);
        return new(prices.Items.Count, prices.Problems, db => PriceBookFile.ApplyAsync(db, prices));
    }

    private sealed record ReadFile(int Count, IReadOnlyList<string> Problems, Func<OfficeDb, Task<(int Added, int Changed)>> ApplyAsync);
}
