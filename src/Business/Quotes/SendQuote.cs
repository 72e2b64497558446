using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes.Papers;

namespace MitigationOffice.Business.Quotes;

/// <summary>What became of the sending.</summary>
/// <param name="Gaps">What is missing; empty when it was sent.</param>
/// <param name="Token">The secret of the link, to be shown once; null when nothing was sent.</param>
public sealed record SentQuote(IReadOnlyList<QuoteGap> Gaps, string? Token, string Problem = "");

/// <summary>Freezes a draft and sends it: state, prices, texts, PDF bytes, link and mail in one transaction.</summary>
public static class SendQuote
{
    /// <param name="expectedVersion">The version the sender looked at; a later edit refuses the sending.</param>
    /// <param name="further">What is missing beyond the quote itself.</param>
    public static async Task<SentQuote> NowAsync(OfficeDb db, int revisionId, int expectedVersion, MailIdentity from, TimeProvider clock, string by, IReadOnlyList<QuoteGap>? further = null)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        if (await GatherPaper.OfAsync(db, revisionId) is not { } full) return new([], null, "This quote does not exist.");
        if (full.Revision.State != RevisionState.Draft) return new([], null, "This revision was sent already.");
        if (full.Revision.Version != expectedVersion) return new([], null, "Someone changed this quote since you opened it. Look at it again, then send it.");
        if (full.Gaps(now).Concat(further ?? []).ToList() is { Count: > 0 } gaps) return new(gaps, null);
        var designs = await DesignsAsync(db, full.Revision, clock);
        var pdf = QuotePaper.Make(full.OnPaper(now) with { Sections = await GatherPaper.SectionsAsync(db, full) });
        try
        {
            return await db.WriteAsync(async () => new SentQuote([], await FreezeAsync(db, full, designs, pdf, from, now, by)));
        }
        catch (DbUpdateConcurrencyException)
        {
            db.ChangeTracker.Clear();
            return new([], null, "Someone changed this quote since you opened it. Look at it again, then send it.");
        }
    }

    /// <summary>A new link for a revision that is out; the links before it end.</summary>
    public static Task<SentQuote> AgainAsync(OfficeDb db, int revisionId, MailIdentity from, TimeProvider clock) => db.WriteAsync(async () =>
    {
        var now = clock.GetUtcNow().UtcDateTime;
        if (await GatherPaper.OfAsync(db, revisionId) is not { } full) return new([], null, "This quote does not exist.");
        if (full.Revision.State != RevisionState.Sent) return new([], null, "Only a quote that is out can be sent again.");
        if (OfferLink.EndsUtc(full.Revision, full.Zone) <= now) return new SentQuote([], null, "This quote has expired. Revise it and send the revision.");
        await OfferLink.RevokeAsync(db, revisionId, now);
        var token = await LinkAndMailAsync(db, full, from, now);
        await db.SaveChangesAsync();
        return new([], token);
    });

    private static async Task<string> FreezeAsync(OfficeDb db, QuoteInFull full, IReadOnlyList<SuctionDesign> designs, byte[] pdf, MailIdentity from, DateTime now, string by)
    {
        var (revision, paper) = (full.Revision, full.OnPaper(now));
        var document = StoredDocument.Of(pdf, PaperKind.Quote, $"Quote {full.Quote.Number} {revision.Letter}", paper.FileName, "application/pdf", full.House.Id, now, by);
        db.Documents.Add(document);
        await db.SaveChangesAsync();
        (revision.State, revision.SentAtUtc, revision.PdfDocumentId) = (RevisionState.Sent, now, document.Id);
        revision.SentSha256 = SealOffer.Of(revision);
        foreach (var earlier in await db.QuoteRevisions.Where(r => r.QuoteId == full.Quote.Id && r.Id != revision.Id && r.State == RevisionState.Sent).ToListAsync())
            earlier.State = RevisionState.Replaced;
        foreach (var design in designs) design.FrozenAtUtc ??= now;
        var token = await LinkAndMailAsync(db, full, from, now);
        await db.SaveChangesAsync();
        return token;
    }

    /// <summary>What was promised stays: the computed report is stored before nothing can change it any more. Computed outside
    /// the transaction, which holds up all other writers.</summary>
    private static async Task<IReadOnlyList<SuctionDesign>> DesignsAsync(OfficeDb db, QuoteRevision revision, TimeProvider clock)
    {
        var ids = revision.Tiers.Select(t => t.SuctionDesignId ?? revision.SuctionDesignId).Append(revision.SuctionDesignId).OfType<int>().Distinct().ToList();
        var designs = await db.Designs.WithRoute().Where(d => ids.Contains(d.Id)).OrderBy(d => d.Id).ToListAsync();
        foreach (var design in designs) await ComputeDesign.StoreAsync(db, design, clock);
        return designs;
    }

    private static async Task<string> LinkAndMailAsync(OfficeDb db, QuoteInFull full, MailIdentity from, DateTime now)
    {
        var (token, hash) = PrivateLink.Make();
        db.QuoteLinks.Add(new QuoteLink { QuoteRevisionId = full.Revision.Id, TokenHash = hash, CreatedAtUtc = now, ExpiresAtUtc = OfferLink.EndsUtc(full.Revision, full.Zone) });
        var letter = new Letter($"quote:{full.Revision.Id}:{hash[..12]}", MailClass.Work, full.Customer.Email, full.Customer.Name, $"Your quote {full.Quote.Number} {full.Revision.Letter}", Words(full, from.Link($"offer/{token}")))
        {
            HouseId = full.House.Id,
        };
        await QueueMail.AddAsync(db, from, now, letter);
        return token;
    }

    private static string Words(QuoteInFull full, Uri link) => $"""
        Hello {MailAddress.OneLine(full.Customer.ContactName.Length > 0 ? full.Customer.ContactName : full.Customer.Name)},

        Here is our quote for a radon mitigation system at {full.House.Street}. You can read it, choose what you want and sign it on this page:

        {link}

        The link is yours alone; please do not pass it on. The quote holds until {HouseTime.Show(full.Revision.ValidUntil)}. Opening the link agrees to nothing.

        If you would rather have it on paper, or have a question, answer this message or call us: {full.Company.Phone}.
        """;
}
