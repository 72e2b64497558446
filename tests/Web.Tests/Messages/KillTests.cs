using System.Diagnostics;
using MitigationOffice.Endurance;
using Xunit.Abstractions;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>The short form of the endurance run (docs/running.md has the whole one and its figures): the jobs process is killed with
/// SIGKILL while it talks with a server that drops lines after the final dot. One process on SQLite, two on PostgreSQL.</summary>
public sealed class KillTests(ITestOutputHelper output)
{
    [Fact]
    public async Task Killed_while_sending_no_message_is_lost_and_none_goes_out_twice_unseen()
    {
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var word in (string[])[typeof(Runner).Assembly.Location, "kill", "--messages", "60", "--kills", "4"]) start.ArgumentList.Add(word);
        using var run = Process.Start(start)!;
        var (said, wrong) = (run.StandardOutput.ReadToEndAsync(), run.StandardError.ReadToEndAsync());
        using var deadline = new CancellationTokenSource(TimeSpan.FromMinutes(5));
        await run.WaitForExitAsync(deadline.Token);
        output.WriteLine(await said);
        Assert.Equal("", await wrong);
        Assert.Contains("60 messages, 4 kills", await said, StringComparison.Ordinal);
        Assert.Contains("0 lost, 0 left waiting, 0 silent duplicates", await said, StringComparison.Ordinal);
        Assert.Equal(0, run.ExitCode);
    }
}
