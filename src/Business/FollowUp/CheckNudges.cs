using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;

namespace MitigationOffice.Business.FollowUp;

/// <summary>A reminder of a quote does not leave once the quote was answered.</summary>
public sealed class CheckNudges : IClaimCheck
{
    public const string WhyOver = "the quote was answered, revised or has run out.";

    public async Task<ClaimVerdict> LookAsync(OfficeDb db, OutboxMessage message, DateTime nowUtc, CancellationToken cancel) =>
        message.Class == MailClass.Commercial && await Over(db, nowUtc).AnyAsync(n => n.OutboxMessageId == message.Id, cancel) ? ClaimVerdict.Withdraw(WhyOver) : ClaimVerdict.Go;

    /// <summary>Those whose quote is not to be reminded of any more.</summary>
    internal static IQueryable<QuoteNudge> Over(OfficeDb db, DateTime now) => db.QuoteNudges.Where(n =>
        db.QuoteRevisions.Any(r => r.Id == n.QuoteRevisionId && (r.State != RevisionState.Sent || r.Quote!.NoNudges))
        || !db.QuoteLinks.Any(l => l.QuoteRevisionId == n.QuoteRevisionId && l.RevokedAtUtc == null && l.ExpiresAtUtc > now));
}
