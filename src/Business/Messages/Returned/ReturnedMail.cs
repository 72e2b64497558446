using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages.Returned;

public enum ReturnKind
{
    /// <summary>The address does not exist or takes no mail: it is not written to any more.</summary>
    Hard,

    /// <summary>The message did not get there; the address may be good.</summary>
    Soft,

    /// <summary>It is still on its way.</summary>
    Delayed,

    /// <summary>A report of something else than a failure.</summary>
    Arrived,

    /// <summary>It names no message of ours, or another address than we wrote to: nothing follows from it.</summary>
    NotOurs,
}

/// <summary>One report that a message came back, as it was understood. The same report, read twice, is one row.</summary>
[Holds(Truth.Document)]
[Index(nameof(Key), IsUnique = true)]
[Index(nameof(Address), nameof(ReceivedAtUtc))]
public sealed class ReturnedMail : Record
{
    /// <summary>Hash of the report and the recipient it is about.</summary>
    public required string Key { get; set; }
    public DateTime ReceivedAtUtc { get; set; }
    public ReturnKind Kind { get; set; }
    public int? OutboxMessageId { get; set; }
    public string Address { get; set; } = "";

    /// <summary>Status as RFC 3463 writes it ("5.1.1"); empty: none was found.</summary>
    public string Status { get; set; } = "";
    public string Words { get; set; } = "";

    /// <summary>How it came: the mailbox, or who put it in.</summary>
    public string Way { get; set; } = "";
}
