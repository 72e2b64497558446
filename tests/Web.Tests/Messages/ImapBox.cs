using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.RegularExpressions;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>A mailbox on this machine's loopback that speaks as much of IMAP (RFC 3501) as reading unread mail takes.</summary>
public sealed partial class ImapBox : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly Task _running;

    public ImapBox()
    {
        _listener.Start();
        _running = RunAsync();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;
    public List<(byte[] Raw, bool Seen)> Mail { get; } = [];

    public void Put(string raw) => Mail.Add((Encoding.UTF8.GetBytes(raw.ReplaceLineEndings("\r\n")), false));

    private async Task RunAsync()
    {
        try
        {
            while (true)
            {
                using var client = await _listener.AcceptTcpClientAsync();
                await using var stream = client.GetStream();
                using var lines = new StreamReader(stream, Encoding.Latin1);
                await SayAsync(stream, "* OK [CAPABILITY IMAP4rev1] ready");
                while (await lines.ReadLineAsync() is { } line && await AnswerAsync(stream, line))
                {
                }
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException or IOException)
        {
        }
    }

    private async Task<bool> AnswerAsync(Stream stream, string line)
    {
        var (tag, verb) = (line.Split(' ')[0], Verb().Match(line).Groups[1].Value.ToUpperInvariant());
        if (verb == "CAPABILITY") await SayAsync(stream, "* CAPABILITY IMAP4rev1");
        if (verb == "LIST") await SayAsync(stream, line.Contains("INBOX", StringComparison.Ordinal) ? "* LIST () \"/\" INBOX" : "* LIST (\\Noselect) \"/\" \"\"");
        if (verb is "SELECT") await SayAsync(stream, $"* FLAGS (\\Seen)\r\n* {Mail.Count} EXISTS\r\n* 0 RECENT\r\n* OK [UIDVALIDITY 1] ok\r\n* OK [UIDNEXT {Mail.Count + 1}] ok\r\n* OK [PERMANENTFLAGS (\\Seen)] ok");
        if (verb == "UID SEARCH") await SayAsync(stream, "* SEARCH" + string.Concat(Mail.Select((m, i) => m.Seen ? "" : $" {i + 1}")));
        if (verb == "UID FETCH") await FetchAsync(stream, line);
        if (verb == "UID STORE")
            foreach (var n in Numbers(line)) Mail[n - 1] = (Mail[n - 1].Raw, true);
        if (verb == "LOGOUT") await SayAsync(stream, "* BYE");
        await SayAsync(stream, $"{tag} OK {(verb == "SELECT" ? "[READ-WRITE] " : "")}done");
        return verb != "LOGOUT";
    }

    private async Task FetchAsync(Stream stream, string line)
    {
        foreach (var n in Numbers(line))
        {
            var raw = Mail[n - 1].Raw;
            var heads = line.Contains("HEADER", StringComparison.Ordinal);
            var text = Encoding.Latin1.GetString(raw);
            var part = heads ? raw[..(text.IndexOf("\r\n\r\n", StringComparison.Ordinal) + 4)] : raw;
            var size = line.Contains("RFC822.SIZE", StringComparison.Ordinal) ? $"RFC822.SIZE {raw.Length} " : "";
            await SayAsync(stream, $"* {n} FETCH (UID {n} {size}BODY[{(heads ? "HEADER" : "")}] {{{part.Length}}}");
            await stream.WriteAsync(part);
            await SayAsync(stream, ")");
        }
    }

    private IEnumerable<int> Numbers(string line)
    {
        foreach (var piece in Verb().Match(line).Groups[2].Value.Split(','))
        {
            var ends = piece.Split(':').Select(e => e == "*" ? Mail.Count : int.Parse(e, System.Globalization.CultureInfo.InvariantCulture)).ToArray();
            for (var n = ends[0]; n <= ends[^1]; n++) yield return n;
        }
    }

    private static ValueTask SayAsync(Stream stream, string words) => stream.WriteAsync(Encoding.Latin1.GetBytes(words + "\r\n"));

    [GeneratedRegex(@"^\S+ (UID \w+|\w+)(?: ([0-9:,*]+))?")]
    private static partial Regex Verb();

    public async ValueTask DisposeAsync()
    {
        _listener.Stop();
        await _running;
    }
}
