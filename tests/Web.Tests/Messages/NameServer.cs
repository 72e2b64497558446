using System.Buffers.Binary;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>Answers questions for text records over UDP (RFC 1035), on this machine's loopback.</summary>
public sealed class NameServer : IDisposable
{
    private readonly UdpClient _socket = new(new IPEndPoint(IPAddress.Loopback, 0));

    public NameServer() => _ = RunAsync();

    public int Port => ((IPEndPoint)_socket.Client.LocalEndPoint!).Port;
    public Dictionary<string, string[]> Texts { get; } = new(StringComparer.OrdinalIgnoreCase);
    public bool Silent { get; set; }

    private async Task RunAsync()
    {
        try
        {
            while (true)
            {
                var asked = await _socket.ReceiveAsync();
                if (!Silent) await _socket.SendAsync(Answer(asked.Buffer), asked.RemoteEndPoint);
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
        }
    }

    private byte[] Answer(byte[] asked)
    {
        var (name, end) = (new List<string>(), 12);
        for (; asked[end] != 0; end += asked[end] + 1) name.Add(Encoding.ASCII.GetString(asked, end + 1, asked[end]));
        var texts = Texts.GetValueOrDefault(string.Join('.', name)) ?? [];
        var answer = new List<byte>(asked[..(end + 5)]);
        // A response, recursion available; no such name where nothing is known.
        (answer[2], answer[3]) = (0x85, (byte)(0x80 | (texts.Length == 0 ? 3 : 0)));
        var head = answer.ToArray();
        BinaryPrimitives.WriteUInt16BigEndian(head.AsSpan(6), (ushort)texts.Length);
        BinaryPrimitives.WriteUInt32BigEndian(head.AsSpan(8), 0);
        answer = [.. head];
        foreach (var text in texts)
        {
            var bytes = Encoding.ASCII.GetBytes(text);
            answer.AddRange([0xC0, 12, 0, 16, 0, 1, 0, 0, 0, 60, (byte)((bytes.Length + 1) >> 8), (byte)(bytes.Length + 1), (byte)bytes.Length, .. bytes]);
        }

        return [.. answer];
    }

    public void Dispose() => _socket.Dispose();
}
