using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>When somebody who has not answered a quote is reminded of it, and in which words. Data, so that the owner can change it.</summary>
[Holds(Truth.Fact)]
public sealed class NudgeRule : Record
{
    /// <summary>So many days after the quote was sent.</summary>
    public int AfterDays { get; set; }
    public required string Subject { get; set; }
    public required string Body { get; set; }
    public bool Off { get; set; }
}

/// <summary>A quote was nudged by a rule: once, for ever.</summary>
[Holds(Truth.Fact)]
[Index(nameof(QuoteRevisionId), nameof(AfterDays), IsUnique = true)]
[Index(nameof(OutboxMessageId))]
public sealed class QuoteNudge : Record
{
    public int QuoteRevisionId { get; set; }
    public int AfterDays { get; set; }
    public int OutboxMessageId { get; set; }
    public DateTime AtUtc { get; set; }
}
