using System.Diagnostics;
using System.Globalization;

namespace MitigationOffice.Endurance;

/// <summary>One jobs process, from its start to its death.</summary>
public sealed class Life : IDisposable
{
    private readonly Process _process;
    private int _dead;

    public Life(PumpOrders orders)
    {
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.ArgumentList.Add(typeof(Life).Assembly.Location);
        foreach (var word in orders.Write()) start.ArgumentList.Add(word);
        _process = Process.Start(start)!;
        Ready = ReadyAsync();
        Said = _process.StandardError.ReadToEndAsync();
    }

    public Task Ready { get; }

    /// <summary>What it said on standard error until it died.</summary>
    public Task<string> Said { get; }

    public Task Ended => _process.WaitForExitAsync();

    /// <summary>Its clock starts at this instant, and it begins to work.</summary>
    public async Task BeginAsync(DateTime utc, bool drain = false)
    {
        await Ready;
        await _process.StandardInput.WriteLineAsync(utc.ToString("O", CultureInfo.InvariantCulture) + (drain ? " drain" : " go"));
        await _process.StandardInput.FlushAsync();
    }

    /// <summary>Works until nothing is due at this instant, and may be told of another one.</summary>
    public async Task DrainAsync(DateTime utc)
    {
        await BeginAsync(utc, drain: true);
        if (await _process.StandardOutput.ReadLineAsync() != "idle") throw new InvalidOperationException($"The jobs process failed: {await Said}");
    }

    /// <summary>SIGKILL: nothing in the process runs any more. True for the first to call.</summary>
    public bool Kill()
    {
        if (Interlocked.Exchange(ref _dead, 1) != 0 || _process.HasExited) return false;
        _process.Kill();
        return true;
    }

    private async Task ReadyAsync()
    {
        if (await _process.StandardOutput.ReadLineAsync() != "ready") throw new InvalidOperationException($"The jobs process did not start: {await Said}");
    }

    public void Dispose()
    {
        Kill();
        _process.WaitForExit();
        _process.Dispose();
    }
}
