using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text;

namespace MitigationOffice.Endurance;

/// <summary>An SMTP server that answers by the dice, and writes down every message whose final dot it kept.</summary>
public sealed class ScriptedServer : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly Random _dice;
    private readonly Lock _lock = new();
    private readonly Task _running;

    public ScriptedServer(int seed)
    {
        _dice = new Random(seed);
        _listener.Start();
        _running = AcceptAsync();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Hash of each copy that was kept, by Message-ID.</summary>
    public ConcurrentDictionary<string, ConcurrentBag<string>> Kept { get; } = new(StringComparer.Ordinal);
    public ConcurrentDictionary<Fate, int> Fates { get; } = new();

    /// <summary>From now on every message is taken.</summary>
    public bool Kind { get; set; }

    /// <summary>Told at every step of every talk, before the server goes on.</summary>
    public Action<Step> At { get; set; } = _ => { };

    private async Task AcceptAsync()
    {
        try
        {
            while (true) _ = TalkAsync(await _listener.AcceptTcpClientAsync());
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
        }
    }

    private async Task TalkAsync(TcpClient client)
    {
        using var _ = client;
        client.NoDelay = true;
        try
        {
            await using var stream = client.GetStream();
            using var lines = new StreamReader(stream, Encoding.Latin1);
            await AnswerAsync(lines, words => stream.WriteAsync(Encoding.ASCII.GetBytes(words + "\r\n")).AsTask());
        }
        catch (Exception e) when (e is IOException or SocketException or ObjectDisposedException)
        {
            // The other end was killed.
        }
    }

    private async Task AnswerAsync(StreamReader lines, Func<string, Task> say)
    {
        At(Step.Connected);
        await say("220 scripted.example");
        var fate = Fate.Take;
        while (await lines.ReadLineAsync() is { } line)
        {
            var verb = line.Split(' ', ':')[0].ToUpperInvariant();
            if (verb == "QUIT") { await say("221 bye"); return; }
            if (verb == "MAIL") { fate = Throw(); At(Step.Sender); await say("250 ok"); }
            else if (verb == "RCPT")
            {
                At(Step.Recipient);
                await say(fate switch { Fate.RefuseAddressForNow => "450 4.2.1 later", Fate.RefuseAddress => "550 5.1.1 nobody", Fate.Pause => "421 4.7.0 too much", _ => "250 ok" });
                if (fate == Fate.Pause) return;
            }
            else if (verb == "DATA")
            {
                At(Step.AskedForText);
                await say("354 go on");
                if (!await TakeTextAsync(lines, fate, say)) return;
            }
            else await say("250 ok");
        }
    }

    /// <summary>False when the line is cut.</summary>
    private async Task<bool> TakeTextAsync(StreamReader lines, Fate fate, Func<string, Task> say)
    {
        var (text, inside) = (new StringBuilder(), false);
        while (true)
        {
            if (await lines.ReadLineAsync() is not { } line) return false;
            if (line == ".") break;
            text.Append(line.StartsWith('.') ? line[1..] : line).Append("\r\n");
            if (text.Length <= 700 || inside) continue;
            inside = true;
            At(Step.InsideText);
            if (fate == Fate.CutInsideText) return false;
        }

        if (fate is Fate.RefuseText or Fate.RefuseTextForNow)
        {
            await say(fate == Fate.RefuseText ? "554 5.7.1 not here" : "451 4.3.0 later");
            return true;
        }

        if (fate != Fate.LoseAndCutUnanswered) Keep(text.ToString());
        if (fate == Fate.TakeSlowly) await Task.Delay(60);
        At(Step.TextTakenNotAnswered);
        if (fate is Fate.KeepAndCutUnanswered or Fate.LoseAndCutUnanswered) return false;
        await say("250 2.0.0 taken");
        At(Step.Answered);
        return fate != Fate.TakeThenCut;
    }

    private void Keep(string text)
    {
        var head = text.Split("\r\n").First(l => l.StartsWith("Message-Id:", StringComparison.OrdinalIgnoreCase));
        Kept.GetOrAdd(head[(head.IndexOf('<', StringComparison.Ordinal) + 1)..head.IndexOf('>', StringComparison.Ordinal)], _ => [])
            .Add(Convert.ToHexStringLower(SHA256.HashData(Encoding.Latin1.GetBytes(text))));
    }

    private Fate Throw()
    {
        if (Kind) return Fate.Take;
        int thrown;
        lock (_lock) thrown = _dice.Next(1000);
        var fate = thrown switch
        {
            < 20 => Fate.KeepAndCutUnanswered,
            < 35 => Fate.LoseAndCutUnanswered,
            < 40 => Fate.CutInsideText,
            < 60 => Fate.RefuseTextForNow,
            < 65 => Fate.RefuseText,
            < 75 => Fate.RefuseAddressForNow,
            < 80 => Fate.RefuseAddress,
            < 83 => Fate.Pause,
            < 93 => Fate.TakeThenCut,
            < 103 => Fate.TakeSlowly,
            _ => Fate.Take,
        };
        Fates.AddOrUpdate(fate, 1, (_, n) => n + 1);
        return fate;
    }

    public async ValueTask DisposeAsync()
    {
        _listener.Stop();
        await _running;
    }
}
