namespace MitigationOffice.Business.Messages;

/// <summary>What is to be written to one address, before it is rendered.</summary>
/// <param name="Key">What causes it ("quote:17:B"). One cause, one message.</param>
/// <param name="Text">The whole message as plain text; the HTML form is made from it.</param>
public sealed record Letter(string Key, MailClass Class, string ToAddress, string ToName, string Subject, string Text)
{
    public IReadOnlyList<LetterAttachment> Attachments { get; init; } = [];
    public int? HouseId { get; init; }

    /// <summary>The paragraphs of the text that stand over the others.</summary>
    public IReadOnlyList<string> Heads { get; init; } = [];

    /// <summary>Written by a rule and not because a person pressed a button.</summary>
    public bool Automatic { get; init; }
}

public sealed record LetterAttachment(string Name, string ContentType, byte[] Content);

/// <summary>Who writes: the name and addresses at the head and the foot of every message.</summary>
public sealed record MailIdentity(string Name, string FromAddress, string ReplyToAddress, string PostalAddress, string Phone, Uri PublicAddress)
{
    /// <summary>The domain of Message-IDs: that of the sender.</summary>
    public string Domain => FromAddress[(FromAddress.LastIndexOf('@') + 1)..];

    public Uri Link(string path) => new(PublicAddress, path);
}
