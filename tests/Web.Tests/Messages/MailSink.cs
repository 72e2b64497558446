using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using MimeKit;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Mail;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>A real SMTP server on this machine's loopback that answers as the test says, and keeps what it took.</summary>
public sealed class MailSink : IAsyncDisposable
{
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _running;

    public MailSink()
    {
        Port = FreePort();
        var options = new SmtpServerOptionsBuilder().ServerName("sink.example")
            .Endpoint(e => e.Endpoint(new IPEndPoint(IPAddress.Loopback, Port)).AllowUnsecureAuthentication(true)).Build();
        var services = new SmtpServer.ComponentModel.ServiceProvider();
        services.Add(new Store(this));
        services.Add(new Filter(this));
        _running = new SmtpServer.SmtpServer(options, services).StartAsync(_stop.Token);
    }

    public int Port { get; }
    public ConcurrentQueue<MimeMessage> Taken { get; } = new();

    /// <summary>The answer to a recipient; null: taken.</summary>
    public Func<string, SmtpResponse?> ToAddress { get; set; } = _ => null;

    /// <summary>The answer to the whole text. The message is kept first when <see cref="KeepThenFail"/> is set.</summary>
    public Func<MimeMessage, SmtpResponse> ToText { get; set; } = _ => SmtpResponse.Ok;

    /// <summary>Takes the message, then cuts the line instead of answering.</summary>
    public bool CutAfterTaking { get; set; }

    /// <summary>Cuts the line at the recipient.</summary>
    public bool CutAtAddress { get; set; }

    public IReadOnlyList<MimeMessage> To(string address) => [.. Taken.Where(m => m.To.Mailboxes.Any(t => t.Address == address))];

    public static int FreePort()
    {
        using var socket = new TcpListener(IPAddress.Loopback, 0);
        socket.Start();
        return ((IPEndPoint)socket.LocalEndpoint).Port;
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        try
        {
            await _running;
        }
        catch (OperationCanceledException)
        {
        }

        _stop.Dispose();
    }

    private sealed class Store(MailSink sink) : MessageStore
    {
        public override Task<SmtpResponse> SaveAsync(ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancellationToken)
        {
            var message = MimeMessage.Load(new MemoryStream(buffer.ToArray()), cancellationToken);
            if (sink.CutAfterTaking)
            {
                sink.Taken.Enqueue(message);
                context.Pipe.Dispose();
                throw new IOException("The line is cut.");
            }

            var answer = sink.ToText(message);
            if (answer.ReplyCode == SmtpReplyCode.Ok) sink.Taken.Enqueue(message);
            return Task.FromResult(answer);
        }
    }

    private sealed class Filter(MailSink sink) : MailboxFilter
    {
        public override Task<bool> CanDeliverToAsync(ISessionContext context, IMailbox to, IMailbox from, CancellationToken cancellationToken)
        {
            if (sink.CutAtAddress)
            {
                context.Pipe.Dispose();
                throw new IOException("The line is cut.");
            }

            return sink.ToAddress($"{to.User}@{to.Host}") is { } answer ? throw new SmtpResponseException(answer, answer.ReplyCode == SmtpReplyCode.ServiceUnavailable) : Task.FromResult(true);
        }
    }
}
