using System.Net.Sockets;
using MailKit;
using MailKit.Net.Imap;
using MailKit.Search;
using MailKit.Security;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages.Returned;

/// <param name="Problem">Why the mailbox could not be read; empty: it was.</param>
public sealed record PollRound(int Looked, int Taken, string Problem);

/// <summary>Looks through the unread messages of the mailbox for mail that came back. What people wrote is left unread and untouched;
/// what was taken is marked as read.</summary>
public sealed class PollReturns(OfficeDb db, MailboxSettings mailbox, TimeProvider clock)
{
    private const int MostAtOnce = 500;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    public async Task<PollRound> RunAsync(CancellationToken cancel = default)
    {
        if (!mailbox.IsSet) return new(0, 0, "No mailbox is set.");
        using var soon = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        soon.CancelAfter(Patience);
        try
        {
            using var client = new ImapClient { Timeout = 30_000 };
            await client.ConnectAsync(mailbox.Host, mailbox.Port, Security(), soon.Token);
            await client.AuthenticateAsync(mailbox.User, mailbox.Password, soon.Token);
            var folder = mailbox.Folder.Equals("INBOX", StringComparison.OrdinalIgnoreCase) ? client.Inbox! : await client.GetFolderAsync(mailbox.Folder, soon.Token);
            await folder.OpenAsync(FolderAccess.ReadWrite, soon.Token);
            var round = await ReadAsync(folder, soon.Token);
            await client.DisconnectAsync(true, soon.Token);
            return round;
        }
        catch (Exception e) when (e is CommandException or ProtocolException or IOException or SocketException or AuthenticationException or SslHandshakeException
            or FolderNotFoundException or TimeoutException or NotSupportedException || (e is OperationCanceledException && !cancel.IsCancellationRequested))
        {
            return new(0, 0, $"The mailbox could not be read: {e.Message.ReplaceLineEndings(" ")}");
        }
    }

    private async Task<PollRound> ReadAsync(IMailFolder folder, CancellationToken cancel)
    {
        var (looked, taken) = (0, 0);
        var unread = await folder.SearchAsync(SearchQuery.NotSeen, cancel);
        var heads = await folder.FetchAsync([.. unread.Take(MostAtOnce)], MessageSummaryItems.UniqueId | MessageSummaryItems.Size | MessageSummaryItems.Headers, cancel);
        foreach (var head in heads)
        {
            looked++;
            if (!MayBeReport(head) || head.Size > ReadReturn.LongestBytes) continue;
            await using var stream = await folder.GetStreamAsync(head.UniqueId, cancel);
            using var raw = new MemoryStream();
            await stream.CopyToAsync(raw, cancel);
            if (!await TakeAsync(raw.ToArray(), cancel)) continue;
            taken++;
            await folder.AddFlagsAsync(head.UniqueId, MessageFlags.Seen, silent: true, cancel);
        }

        return new(looked, taken, "");
    }

    private async Task<bool> TakeAsync(byte[] raw, CancellationToken cancel)
    {
        try
        {
            var reports = ReadReturn.Of(raw);
            if (reports.Count == 0) return false;
            db.ChangeTracker.Clear();
            await TakeReturn.RunAsync(db, raw, reports, "from the mailbox", clock.GetUtcNow().UtcDateTime, cancel);
            return true;
        }
        catch (FormatException)
        {
            return false;
        }
    }

    private static bool MayBeReport(IMessageSummary head)
    {
        var headers = head.Headers;
        if (headers is null) return false;
        var type = headers["Content-Type"] ?? "";
        return type.Contains("multipart/report", StringComparison.OrdinalIgnoreCase)
            || headers["Return-Path"]?.Trim() is "<>"
            || (headers["From"] ?? "").Contains("mailer-daemon", StringComparison.OrdinalIgnoreCase)
            || (headers["From"] ?? "").Contains("postmaster", StringComparison.OrdinalIgnoreCase);
    }

    private SecureSocketOptions Security() => mailbox.Security switch
    {
        MailSecurity.None => SecureSocketOptions.None,
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        MailSecurity.StartTls => SecureSocketOptions.StartTls,
        _ when mailbox.Port == 993 => SecureSocketOptions.SslOnConnect,
        _ when System.Net.IPAddress.TryParse(mailbox.Host, out var ip) && System.Net.IPAddress.IsLoopback(ip) => SecureSocketOptions.StartTlsWhenAvailable,
        _ => SecureSocketOptions.StartTls,
    };
}
