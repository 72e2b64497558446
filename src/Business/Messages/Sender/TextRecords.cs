using System.Globalization;
using System.Net;
using System.Net.Sockets;
using DnsClient;
using DnsClient.Protocol;

namespace MitigationOffice.Business.Messages.Sender;

/// <param name="Problem">Why it could not be looked up; empty: it was, and there may be none.</param>
public sealed record FoundTexts(IReadOnlyList<string> Texts, string Problem);

/// <summary>Text records as the world sees them: the edge of the world.</summary>
/// <param name="patience">How long a page may wait for all the names it asks for.</param>
public sealed class TextRecords(string server, TimeSpan patience)
{
    public static readonly TimeSpan UsualPatience = TimeSpan.FromSeconds(5);

    public TimeSpan Patience => patience;

    public async Task<FoundTexts> FindAsync(string name, CancellationToken cancel = default)
    {
        try
        {
            var client = new LookupClient(Options());
            var answer = await client.QueryAsync(name, QueryType.TXT, cancellationToken: cancel);
            if (answer.HasError && answer.Header.ResponseCode is not DnsHeaderResponseCode.NotExistentDomain) return new([], $"{name} could not be looked up: {answer.ErrorMessage}.");
            return new([.. answer.Answers.OfType<TxtRecord>().Select(r => string.Concat(r.Text))], "");
        }
        catch (Exception e) when (e is DnsResponseException or SocketException or InvalidOperationException or ArgumentException or OperationCanceledException or IOException)
        {
            return new([], $"{name} could not be looked up. Without a way to the internet, paste the records instead.");
        }
    }

    private LookupClientOptions Options()
    {
        var options = server.Split(':') is [var host, var port] && IPAddress.TryParse(host, out var ip)
            ? new LookupClientOptions(new NameServer(new IPEndPoint(ip, int.Parse(port, CultureInfo.InvariantCulture))))
            : new LookupClientOptions();
        (options.Timeout, options.Retries, options.UseCache, options.ThrowDnsErrors) = (patience / 2, 1, false, false);
        return options;
    }
}
