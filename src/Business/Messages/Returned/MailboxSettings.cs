namespace MitigationOffice.Business.Messages.Returned;

/// <summary>The mailbox to which returned mail comes, read by IMAP; none is read while no host is set.</summary>
public sealed record MailboxSettings
{
    public string Host { get; init; } = "";
    public int Port { get; init; } = 993;
    public string User { get; init; } = "";
    public string Password { get; init; } = "";
    public string Folder { get; init; } = "INBOX";
    public MailSecurity Security { get; init; }

    public bool IsSet => Host.Length > 0;
}
