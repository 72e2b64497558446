using System.Net.Sockets;
using System.Text.RegularExpressions;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;

namespace MitigationOffice.Business.Messages;

/// <summary>One connection to the SMTP server, kept for the messages of one round.</summary>
public sealed partial class SmtpDoor(MailSettings mail) : IMailDoor
{
    private readonly SmtpWatch _watch = new();
    private SmtpClient? _client;

    public async Task<DoorAnswer> SendAsync(int id, string subject, byte[] mime, CancellationToken cancel)
    {
        _watch.Forget();
        using var bytes = new MemoryStream(mime);
        var message = await MimeMessage.LoadAsync(bytes, CancellationToken.None);
        try
        {
            await (await ConnectedAsync(cancel)).SendAsync(message, cancel);
            return new DoorAnswer(DoorSaid.Taken, _watch.TextWords);
        }
        catch (Exception e) when (Foreseen(e))
        {
            var answer = Judge(e);
            if (answer.Said is DoorSaid.NotKnown or DoorSaid.NotNow || answer.StopHere || _client?.IsConnected != true) Hang();
            return answer;
        }
    }

    private async Task<SmtpClient> ConnectedAsync(CancellationToken cancel)
    {
        if (_client?.IsConnected == true) return _client;
        Hang();
        _client = new SmtpClient(_watch) { Timeout = (int)mail.AnswerTimeout.TotalMilliseconds };
        using var soon = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        soon.CancelAfter(TimeSpan.FromSeconds(60));
        await _client.ConnectAsync(mail.Host, mail.Port, Security(), soon.Token);
        if (mail.User.Length > 0) await _client.AuthenticateAsync(mail.User, mail.Password, soon.Token);
        return _client;
    }

    private SecureSocketOptions Security() => mail.Security switch
    {
        MailSecurity.None => SecureSocketOptions.None,
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        MailSecurity.StartTls => SecureSocketOptions.StartTls,
        _ when mail.Port == 465 => SecureSocketOptions.SslOnConnect,
        _ => mail.OnThisMachine ? SecureSocketOptions.StartTlsWhenAvailable : SecureSocketOptions.StartTls,
    };

    private static bool Foreseen(Exception e) =>
        e is CommandException or ProtocolException or IOException or SocketException or OperationCanceledException or TimeoutException
            or AuthenticationException or SslHandshakeException or NotSupportedException or InvalidOperationException or ObjectDisposedException;

    /// <summary>What the talk says counts, not how it broke off: an answer to the whole text is an answer even if the line then went dead.</summary>
    private DoorAnswer Judge(Exception e)
    {
        if (_watch.TextBegun)
            return _watch.TextAnswer == 0
                ? new DoorAnswer(DoorSaid.NotKnown, $"The server had the text, then: {e.Message}") { StopHere = e is OperationCanceledException }
                : OfCode(_watch.TextAnswer, _watch.TextWords, atAddress: false);
        return e switch
        {
            SmtpCommandException command => OfCode((int)command.StatusCode, Told(command), command.ErrorCode == SmtpErrorCode.RecipientNotAccepted),
            AuthenticationException => new DoorAnswer(DoorSaid.NotNow, $"The server does not take the user name and password: {e.Message}"),
            SslHandshakeException => new DoorAnswer(DoorSaid.NotNow, "The connection could not be made secure: " + FirstLine(e.Message)),
            NotSupportedException when _client?.IsConnected == true => new DoorAnswer(DoorSaid.Never, $"The server cannot take this message: {e.Message}"),
            NotSupportedException => new DoorAnswer(DoorSaid.NotNow, $"The server does not offer a secure connection: {e.Message}"),
            _ => new DoorAnswer(_watch.LastCode == 421 ? DoorSaid.NotNow : DoorSaid.Later, $"No message was given over: {FirstLine(e.Message)}") { StopHere = true },
        };
    }

    private string Told(SmtpCommandException e) => _watch.LastWords.Length > 0 && _watch.LastCode == (int)e.StatusCode ? _watch.LastWords : $"{(int)e.StatusCode} {e.Message}";

    private static string FirstLine(string text) => text.ReplaceLineEndings("\n").Split('\n')[0];

    private static DoorAnswer OfCode(int code, string words, bool atAddress) => code switch
    {
        >= 200 and < 300 => new DoorAnswer(DoorSaid.Taken, words),
        421 => new DoorAnswer(DoorSaid.NotNow, words),
        >= 500 when atAddress && IsHard(code, words) => new DoorAnswer(DoorSaid.NoSuchAddress, words),
        >= 500 => new DoorAnswer(DoorSaid.Never, words),
        _ => new DoorAnswer(DoorSaid.Later, words),
    };

    /// <summary>Codes that say that the address itself is bad (RFC 3463, 5.1.x and 5.2.1); policy refusals (5.7.x) are about us.</summary>
    private static bool IsHard(int code, string words)
    {
        var detail = Enhanced().Match(words);
        return detail.Success ? detail.Value.StartsWith("5.1.", StringComparison.Ordinal) || detail.Value == "5.2.1" : code is 550 or 551 or 553;
    }

    [GeneratedRegex(@"\b5\.\d{1,3}\.\d{1,3}\b", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex Enhanced();

    private void Hang()
    {
        _client?.Dispose();
        _client = null;
    }

    public async ValueTask DisposeAsync()
    {
        if (_client?.IsConnected == true)
        {
            try
            {
                using var soon = new CancellationTokenSource(TimeSpan.FromSeconds(5));
                await _client.DisconnectAsync(true, soon.Token);
            }
            catch (Exception e) when (Foreseen(e))
            {
                // Everything was answered before; a rude farewell changes nothing.
            }
        }

        Hang();
    }
}
