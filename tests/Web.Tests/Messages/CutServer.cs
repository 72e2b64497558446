using System.Net;
using System.Net.Sockets;
using System.Text;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>Speaks SMTP until the place where the line is to be cut; for breaks in the middle of the text, which a whole server
/// does not let one make.</summary>
public sealed class CutServer : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly Task _running;

    public enum Place
    {
        Greeting,
        AskedForText,
        InsideText,
        AfterText,
    }

    public CutServer(Place place)
    {
        _listener.Start();
        Port = ((IPEndPoint)_listener.LocalEndpoint).Port;
        _running = RunAsync(place);
    }

    public int Port { get; }
    public int Conversations { get; private set; }

    private async Task RunAsync(Place place)
    {
        try
        {
            while (true)
            {
                using var client = await _listener.AcceptTcpClientAsync();
                Conversations++;
                await TalkAsync(client.GetStream(), place);
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException or IOException)
        {
        }
    }

    private static async Task TalkAsync(NetworkStream stream, Place place)
    {
        using var lines = new StreamReader(stream, Encoding.Latin1);
        async Task Say(string words) => await stream.WriteAsync(Encoding.ASCII.GetBytes(words + "\r\n"));
        if (place == Place.Greeting) return;
        await Say("220 cut.example");
        while (await lines.ReadLineAsync() is { } line)
        {
            if (!line.StartsWith("DATA", StringComparison.Ordinal))
            {
                await Say("250 cut.example");
                continue;
            }

            if (place == Place.AskedForText) return;
            await Say("354 go on");
            while (await lines.ReadLineAsync() is { } text && text != ".")
                if (place == Place.InsideText) return;
            return;
        }
    }

    public async ValueTask DisposeAsync()
    {
        _listener.Stop();
        await _running;
    }
}
