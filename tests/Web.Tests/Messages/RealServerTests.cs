using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Tests.FollowUp;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>Needs the mail server of the tool manifest (`dotnet tool restore`) and Python; tests/run.sh sees to both.</summary>
public sealed class RealServerFactAttribute : FactAttribute
{
    public RealServerFactAttribute()
    {
        if (RealServer.Root is null) Skip = "Needs the tool manifest beside the sources.";
        else if (!RealServer.Runs("dotnet", "tool", "run", "smtp4dev", "--help")) Skip = "Needs the tool smtp4dev: dotnet tool restore.";
        else if (!RealServer.Runs("python3", "--version")) Skip = "Needs python3.";
    }
}

/// <summary>smtp4dev as a process of its own: a whole mail server of other people's making.</summary>
public sealed class RealServer : IAsyncDisposable
{
    private readonly Process _process;
    private readonly HttpClient _client;

    private RealServer(Process process, int port, int web) =>
        (_process, Port, _client) = (process, port, new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{web}/") });

    public int Port { get; }

    /// <summary>Where the tool manifest lies; null when this is not run from the sources.</summary>
    public static string? Root { get; } = FindRoot();

    public static async Task<RealServer> StartAsync()
    {
        var (port, web) = (MailSink.FreePort(), MailSink.FreePort());
        var process = Process.Start(Order("dotnet", "tool", "run", "smtp4dev", "--", "--nousersettings", "--bindaddress=127.0.0.1", $"--smtpport={port}", "--imapport=", "--pop3port=", $"--urls=http://127.0.0.1:{web}", "--db="))!;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        var server = new RealServer(process, port, web);
        for (var tries = 0; tries < 300 && !process.HasExited; tries++)
        {
            try
            {
                if ((await server._client.GetAsync("api/version")).IsSuccessStatusCode) return server;
            }
            catch (HttpRequestException)
            {
                // Not open yet.
            }

            await Task.Delay(100);
        }

        throw new InvalidOperationException("The mail server did not start.");
    }

    /// <summary>Every message as the server took it, written into a folder; their number.</summary>
    public async Task<int> SaveAllAsync(string folder)
    {
        var count = 0;
        for (var page = 1; ; page++)
        {
            var list = await _client.GetFromJsonAsync<JsonElement>($"api/messages?page={page}&pageSize=100");
            foreach (var message in list.GetProperty("results").EnumerateArray())
                await File.WriteAllBytesAsync(Path.Combine(folder, $"{++count:0000}.eml"), await _client.GetByteArrayAsync($"api/messages/{message.GetProperty("id").GetString()}/raw"));
            if (list.GetProperty("currentPage").GetInt32() >= list.GetProperty("pageCount").GetInt32()) return count;
        }
    }

    public static bool Runs(params string[] words)
    {
        try
        {
            using var process = Process.Start(Order(words))!;
            process.StandardOutput.ReadToEnd();
            return process.WaitForExit(60_000) && process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }

    public static ProcessStartInfo Order(params string[] words)
    {
        var start = new ProcessStartInfo(words[0]) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Root ?? "." };
        foreach (var word in words.Skip(1)) start.ArgumentList.Add(word);
        return start;
    }

    private static string? FindRoot()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
            if (File.Exists(Path.Combine(at.FullName, ".config", "dotnet-tools.json"))) return at.FullName;
        return null;
    }

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        _process.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync();
        _process.Dispose();
    }
}

/// <summary>A month of the office's mail through a real server, read by a library of another language.</summary>
[Trait("Database", "either")]
public sealed class RealServerTests
{
    private const int Days = 31;

    [RealServerFact]
    public async Task A_month_of_mail_arrives_once_and_another_library_reads_it_whole()
    {
        await using var server = await RealServer.StartAsync();
        var office = new OfficeApp();
        (office.Settings["Mail:Host"], office.Settings["Mail:Port"], office.Settings["PublicAddress"]) = ("127.0.0.1", $"{server.Port}", "https://office.lanternridge.example");
        await office.InitializeAsync();
        try
        {
            await RunMonthAsync(office);
            var folder = Directory.CreateDirectory(Path.Combine(office.Folder, "arrived")).FullName;
            var arrived = await server.SaveAllAsync(folder);
            var sent = await office.WithDbAsync(db => db.Outbox.AsNoTracking().ToListAsync());
            Assert.True(sent.Count > 40, $"Only {sent.Count} messages in a month.");
            Assert.All(sent, m => Assert.Equal(DeliveryState.Sent, m.State));
            Assert.Equal(sent.Count, arrived);
            var read = await ReadAsync(folder);
            Assert.Equal(sent.Select(m => $"<{m.MessageId}>").Order(StringComparer.Ordinal), read.Select(r => r.Id).Order(StringComparer.Ordinal));
            foreach (var message in sent) Same(message, read.Single(r => r.Id == $"<{message.MessageId}>"));
        }
        finally
        {
            await office.DisposeAsync();
        }
    }

    private sealed record Arrived(string Id, string From, string To, string Name, string Subject, string Date, string Type, string[] Kinds, string Plain, string Html, string? Unsubscribe, string? OneClick, string? Auto, string[] Defects, int Longest);

    private static async Task RunMonthAsync(OfficeApp office)
    {
        for (var i = 0; i < 24; i++)
            await office.AddHouseWithSystemAsync($"h{i}@wren.example", Utc(2026, 2, 14).AddDays(i), new DateOnly(2025, 3, 5).AddDays(i), street: $"{i} Łąka–Straße");
        await office.QueueLetterAsync(MailVerbs.ALetter("work", "work@wren.example") with { ToName = "Zoë “Bo” Łącka, 王小明", Subject = "Your quote – ready ✓", Attachments = [new("quote.pdf", "application/pdf", [1, 2, 3])] });
        for (var day = new DateOnly(2026, 3, 2); day < new DateOnly(2026, 3, 2).AddDays(Days); day = day.AddDays(1))
        {
            office.ClockTo(day, 10);
            await office.RunFollowUpAsync();
        }
    }

    private static async Task<List<Arrived>> ReadAsync(string folder)
    {
        using var python = Process.Start(RealServer.Order("python3", Path.Combine(AppContext.BaseDirectory, "Messages", "read_mail.py"), folder))!;
        var said = python.StandardOutput.ReadToEndAsync();
        Assert.Equal("", await python.StandardError.ReadToEndAsync());
        return [.. JsonSerializer.Deserialize<Dictionary<string, Arrived>>(await said, JsonSerializerOptions.Web)!.Values];
    }

    private static void Same(OutboxMessage message, Arrived read)
    {
        var mime = MimeKit.MimeMessage.Load(new MemoryStream(message.Mime));
        Assert.Empty(read.Defects);
        Assert.Equal((message.ToAddress, message.ToName, message.Subject), (read.To, read.Name, read.Subject));
        Assert.Equal("office@lanternridge.example", read.From);
        Assert.Equal(Plain(mime.TextBody!), Plain(read.Plain));
        Assert.Equal(Plain(mime.HtmlBody!), Plain(read.Html));
        Assert.InRange(read.Longest, 1, 998);
        if (message.Class == MailClass.Work) return;
        Assert.Equal("multipart/alternative", read.Type);
        Assert.Equal(["multipart/alternative", "text/plain", "text/html"], read.Kinds);
        Assert.Matches(@"^<https://office\.lanternridge\.example/unsubscribe/[A-Za-z0-9_-]{43}>$", read.Unsubscribe?.Trim());
        Assert.Equal(("List-Unsubscribe=One-Click", "auto-generated"), (read.OneClick, read.Auto));
        Assert.Contains("8 Quarry Lane, Birchford, MN 55999", read.Plain, StringComparison.Ordinal);
        Assert.Contains("/my-house/", read.Plain, StringComparison.Ordinal);
    }

    private static string Plain(string text) => text.ReplaceLineEndings("\n").TrimEnd();
}
