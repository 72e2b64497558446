using System.Diagnostics;
using Microsoft.Data.Sqlite;
using MitigationOffice.Web.Commands;

namespace MitigationOffice.Web.Tests.Commands;

/// <summary>The program's verbs on a folder of their own, always SQLite: here in this process, or as a process of its own, which is
/// what a person at a terminal gets and costs some seconds more.</summary>
public sealed class ProgramRun : IDisposable
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);

    public string Folder { get; } = Directory.CreateTempSubdirectory("office-commands-").FullName;
    public string Office => Path.Combine(Folder, "office");
    public string Database => Path.Combine(Office, "office.db");

    public string this[string name] => Path.Combine(Folder, name);

    /// <summary>The verb in this process, its words caught.</summary>
    public async Task<Answer> RunAsync(params string[] verb)
    {
        var (code, said, refused) = await Terminal.CatchAsync(() => CommandLine.RunAsync(WithFolder(verb)));
        // A process that ends lets go of its files.
        SqliteConnection.ClearAllPools();
        return new(code, said, refused);
    }

    /// <summary>The verb as a process of its own, with settings from its environment.</summary>
    public async Task<Answer> RunAloneAsync(Dictionary<string, string>? settings, params string[] verb)
    {
        using var process = Start(settings, verb);
        process.StandardInput.Close();
        using var deadline = new CancellationTokenSource(Longest);
        var (said, refused) = (process.StandardOutput.ReadToEndAsync(deadline.Token), process.StandardError.ReadToEndAsync(deadline.Token));
        await process.WaitForExitAsync(deadline.Token);
        return new(process.ExitCode, await said, await refused);
    }

    /// <summary>The office running, until the returned process is killed.</summary>
    public async Task<Process> ServeAsync()
    {
        var process = Start(null, "serve", "--urls", "http://127.0.0.1:0");
        using var deadline = new CancellationTokenSource(Longest);
        while (await process.StandardOutput.ReadLineAsync(deadline.Token) is { } line)
            if (line.StartsWith("The office is open at", StringComparison.Ordinal)) return process;
        throw new InvalidOperationException($"The office did not open: {await process.StandardError.ReadToEndAsync(deadline.Token)}");
    }

    /// <summary>An answer of the database file itself, past the program.</summary>
    public async Task<object?> SqlAsync(string sql)
    {
        await using var connection = new SqliteConnection($"Data Source={Database};Pooling=False");
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        return await command.ExecuteScalarAsync();
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    public Process Start(Dictionary<string, string>? settings, params string[] verb)
    {
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var word in (string[])[typeof(Program).Assembly.Location, .. WithFolder(verb)]) start.ArgumentList.Add(word);
        foreach (var (name, value) in settings ?? []) start.Environment[name] = value;
        return Process.Start(start)!;
    }

    private string[] WithFolder(string[] verb) => [.. verb, "--data", Office];
}

public sealed record Answer(int Code, string Said, string Refused)
{
    /// <summary>Failed with words: one line, no stack trace.</summary>
    public string Sentence
    {
        get
        {
            Assert.Equal(1, Code);
            Assert.Equal("", Said);
            return Assert.Single(Refused.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        }
    }
}
