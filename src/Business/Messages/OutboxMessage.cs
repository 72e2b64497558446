using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

public enum MailClass
{
    /// <summary>About an agreed piece of work: quote, appointment, result.</summary>
    Work,

    /// <summary>Safety and upkeep of what was installed.</summary>
    Upkeep,

    /// <summary>Offers of further paid work.</summary>
    Commercial,
}

public enum DeliveryState
{
    Waiting,
    Claimed,
    Sent,
    Refused,

    /// <summary>The server had the message but its answer never came: it may or may not have gone out.</summary>
    Uncertain,

    /// <summary>Not sent: the address asked not to be written to, or what it says no longer holds.</summary>
    Suppressed,
}

/// <summary>A message rendered once, and what became of it.</summary>
[Holds(Truth.Document)]
[Index(nameof(Key), IsUnique = true)]
[Index(nameof(State), nameof(NextTryUtc))]
[Index(nameof(HouseId))]
public sealed class OutboxMessage : Record
{
    /// <summary>What caused it; a second message of the same cause cannot be written.</summary>
    public required string Key { get; set; }
    public required string MessageId { get; set; }
    public int? HouseId { get; set; }
    public required string ToAddress { get; set; }
    public string ToName { get; set; } = "";
    public required string Subject { get; set; }
    public MailClass Class { get; set; }

    [NotAudited]
    public required byte[] Mime { get; set; }
    public DateTime CreatedAtUtc { get; set; }
    public DeliveryState State { get; set; }
    public int Attempts { get; set; }
    public DateTime NextTryUtc { get; set; }
    public DateTime? ClaimedUntilUtc { get; set; }
    public string ClaimedBy { get; set; } = "";
    public DateTime? SentAtUtc { get; set; }
    public string LastAnswer { get; set; } = "";

    /// <summary>When an uncertain message was sent once more, with the same Message-ID.</summary>
    public DateTime? ResentAtUtc { get; set; }

    /// <summary>It was uncertain once: a server may have it with these very words.</summary>
    public bool MayHaveLeft => ResentAtUtc is not null;

    /// <summary>On its first way to a server.</summary>
    public bool NeverHandedOver => Attempts <= 1 && LastAnswer.Length == 0 && !MayHaveLeft;
}

/// <summary>An address that is not written to any more, for one class of mail or all.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Address))]
public sealed class Suppression : Record
{
    public required string Address { get; set; }

    /// <summary>Empty: every class.</summary>
    public MailClass? Class { get; set; }
    public DateTime AtUtc { get; set; }
    public string Why { get; set; } = "";
}

/// <summary>The secret in an unsubscribe link.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TokenHash), IsUnique = true)]
public sealed class UnsubscribeLink : Record
{
    [NotAudited]
    public required string TokenHash { get; set; }
    public required string Address { get; set; }
    public MailClass Class { get; set; }
    public DateTime CreatedAtUtc { get; set; }
}
