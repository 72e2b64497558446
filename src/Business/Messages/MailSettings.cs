using System.Net;

namespace MitigationOffice.Business.Messages;

public enum MailSecurity
{
    /// <summary>STARTTLS required, or TLS from the start on port 465; on this machine itself also without.</summary>
    Required,

    /// <summary>TLS from the first byte.</summary>
    Tls,

    /// <summary>STARTTLS required.</summary>
    StartTls,

    /// <summary>In the clear: only where the owner of the network said so.</summary>
    None,
}

/// <summary>How mail leaves: by an SMTP server, or as files where none is set.</summary>
public sealed record MailSettings
{
    public string Host { get; init; } = "";
    public int Port { get; init; } = 587;
    public string User { get; init; } = "";
    public string Password { get; init; } = "";

    /// <summary>The sender; empty: the company's own address.</summary>
    public string From { get; init; } = "";
    public MailSecurity Security { get; init; }
    public Uri PublicAddress { get; init; } = new("http://localhost:5080");

    /// <summary>At most so many upkeep and commercial messages in 24 hours; work mail is not held back.</summary>
    public int DailyCap { get; init; } = 300;

    /// <summary>How long to wait for the server's answer to the whole message: ten minutes, as RFC 5321 section 4.5.3.2 asks.</summary>
    public TimeSpan AnswerTimeout { get; init; } = TimeSpan.FromMinutes(10);

    public bool HasServer => Host.Length > 0;

    public bool OnThisMachine => Host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(Host, out var ip) && IPAddress.IsLoopback(ip));
}
