using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Engineering.Dates;

namespace MitigationOffice.Business.Quotes;

/// <summary>What the house owner chose and how they signed.</summary>
public sealed record Signature(
    int TierId, IReadOnlyCollection<int> AddOnIds, string TypedName, bool Consented, bool Intended, string IpAddress, string UserAgent);

/// <summary>What became of it.</summary>
/// <param name="State">Accepted only for the one sending that did it.</param>
public sealed record AcceptOutcome(OfferState State, int AcceptanceId = 0, IReadOnlyList<(string Field, string Words)>? Refusals = null);

/// <summary>Accepts a quote exactly once and keeps the evidence: the paper as it was shown, the choice, the name, the words
/// agreed to, when and from where, chained by hash to the acceptance before.</summary>
public static class AcceptQuote
{
    public const string ConsentText =
        "I agree to receive this contract and its notices electronically. I can open PDF files; a copy is mailed to my e-mail address. I may ask for paper at no charge, and may take this consent back, by writing to or calling the company; that does not undo what was agreed before.";

    public const string IntentText = "I have read the quote and its cautions. I accept it, and typing my name is my signature.";

    public static async Task<AcceptOutcome> ByLinkAsync(OfficeDb db, string? token, Signature signature, MailIdentity from, TimeProvider clock)
    {
        var now = Microseconds(clock.GetUtcNow().UtcDateTime);
        var found = await OfferLink.FindAsync(db, token, now);
        if (found.State != OfferState.Live) return new(found.State);
        var full = (await GatherPaper.OfAsync(db, found.RevisionId))!;
        if (Refusals(full.Revision, signature) is { Count: > 0 } refusals) return new(OfferState.Live, 0, refusals);
        if (SealOffer.Of(full.Revision) != full.Revision.SentSha256) return new(OfferState.Live, 0, [("", "This quote cannot be signed now: its records are not as they were sent. Please call the company.")]);
        var quotePdf = await db.Documents.AsNoTracking().SingleAsync(d => d.Id == full.Revision.PdfDocumentId);
        var (evidence, paper) = Evidence(full, signature, quotePdf, found.LinkId, now);
        var signed = SignedCopy.Make(quotePdf.Bytes, AcceptancePaper.Make(paper), paper.Quote.Head("Signed quote") with { MadeAtUtc = now });
        try
        {
            var id = await db.WriteAsync(() => KeepAsync(db, full, evidence, signed, from, now, from.Link($"offer/{token}/cancel")));
            return new(OfferState.Accepted, id);
        }
        catch (DbUpdateException)
        {
            db.ChangeTracker.Clear();
            var after = await OfferLink.FindAsync(db, token, now);
            if (after.State == OfferState.Live) throw;
            return new(after.State);
        }
    }

    private static List<(string, string)> Refusals(QuoteRevision r, Signature s)
    {
        var refusals = new List<(string, string)>();
        var name = s.TypedName.Trim();
        if (r.Tiers.All(t => t.Id != s.TierId)) refusals.Add(("Tier", "Choose one of the offers first."));
        if (s.AddOnIds.Any(id => r.AddOns.All(a => a.Id != id))) refusals.Add(("AddOns", "One of the additions is not part of this quote. Choose again."));
        if (name.Length < 2 || !name.Any(char.IsLetter)) refusals.Add(("TypedName", "Type your full name."));
        if (name.Length > 200) refusals.Add(("TypedName", "The name is longer than 200 characters; shorten it."));
        if (!s.Consented) refusals.Add(("Consented", "Tick that you agree to electronic papers, or ask the company for paper."));
        if (!s.Intended) refusals.Add(("Intended", "Tick that you accept and that typing your name is your signature."));
        return refusals;
    }

    private static (Acceptance, AcceptanceOnPaper) Evidence(QuoteInFull full, Signature s, StoredDocument quotePdf, int linkId, DateTime now)
    {
        var r = full.Revision;
        var tier = r.Tiers.Single(t => t.Id == s.TierId);
        var open = PriceQuote.OpenTo(tier, r.AddOns).ToList();
        var (chosen, declined) = (open.Where(a => s.AddOnIds.Contains(a.Id)).ToList(), open.Where(a => a.Recommended && !s.AddOnIds.Contains(a.Id)).ToList());
        var totals = PriceQuote.Of(r, tier, chosen);
        var signedOn = HouseTime.DayOf(now, full.Zone);
        var evidence = new Acceptance
        {
            QuoteRevisionId = r.Id,
            QuoteTierId = tier.Id,
            SuctionDesignId = tier.SuctionDesignId ?? r.SuctionDesignId,
            AddOnIds = Ids(chosen),
            DeclinedAddOnIds = Ids(declined),
            Net = totals.Net,
            Discount = totals.Discount,
            Tax = totals.Tax,
            Total = totals.Total,
            Deposit = totals.Deposit,
            TypedName = s.TypedName.Trim(),
            ConsentText = ConsentText,
            IntentText = IntentText,
            PhaseText = r.Phase is { } phase ? PhaseTrigger.WordsOf(phase, r.TaxPercent) : "",
            OfferSha256 = r.SentSha256,
            AtUtc = now,
            TimeZone = full.Zone.Id,
            IpAddress = s.IpAddress,
            UserAgent = Short(s.UserAgent),
            QuoteLinkId = linkId,
            PdfDocumentId = quotePdf.Id,
            PdfSha256 = quotePdf.Sha256,
            SignedSha256 = "",
            CancelBy = RightToCancel.LastDay(signedOn),
            PreviousHash = "",
            Hash = "",
        };
        var at = $"{HouseTime.Show(now, full.Zone)} ({full.Zone.Id}; {now.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)} UTC)";
        return (evidence, new(full.OnPaper(full.Revision.SentAtUtc ?? now), tier, chosen, declined, totals, evidence.TypedName, ConsentText, IntentText, at, now, signedOn, s.IpAddress, quotePdf.Sha256, evidence.CancelBy));
    }

    private static async Task<int> KeepAsync(OfficeDb db, QuoteInFull full, Acceptance evidence, byte[] signed, MailIdentity from, DateTime now, Uri cancelAt)
    {
        await db.TakeTurnAsync(Turn.Acceptance);
        full.Revision.State = RevisionState.Accepted;
        var copy = StoredDocument.Of(
            signed, PaperKind.SignedQuote, $"Signed quote {full.Quote.Number} {full.Revision.Letter}", $"{full.Quote.Number}-{full.Revision.Letter}-signed.pdf",
            "application/pdf", full.House.Id, now, evidence.TypedName);
        db.Documents.Add(copy);
        await db.SaveChangesAsync();
        (evidence.SignedDocumentId, evidence.SignedSha256) = (copy.Id, copy.Sha256);
        evidence.PreviousHash = await db.Acceptances.OrderByDescending(a => a.Id).Select(a => a.Hash).FirstOrDefaultAsync() ?? "";
        evidence.Hash = evidence.ComputeHash();
        db.Acceptances.Add(evidence);
        if (MailAddress.IsUsable(full.Customer.Email)) await QueueMail.AddAsync(db, from, now, Confirmation(full, evidence, copy, cancelAt));
        await db.SaveChangesAsync();
        if (full.Revision.Phase is { } phase)
            db.SecondPhases.Add(new SecondPhase { HouseId = full.House.Id, AcceptanceId = evidence.Id, QuotePhaseId = phase.Id, ValidUntil = phase.ValidUntil, Since = HouseTime.DayOf(now, full.Zone) });
        await db.SaveChangesAsync();
        return evidence.Id;
    }

    private static Letter Confirmation(QuoteInFull full, Acceptance a, StoredDocument copy, Uri cancelAt) =>
        new($"accepted:{full.Revision.Id}", MailClass.Work, full.Customer.Email, full.Customer.Name, $"Signed: quote {full.Quote.Number} {full.Revision.Letter}", $"""
            Thank you. {MailAddress.OneLine(a.TypedName)} signed quote {full.Quote.Number} {full.Revision.Letter} on {HouseTime.Show(a.AtUtc, full.Zone)}.

            Price, tax included: {a.Total}. Deposit: {a.Deposit}.

            The signed copy is attached; please keep it.{(full.Revision.NoCancelNoticeBecause.Length > 0 ? "" : $" You may cancel until midnight of {HouseTime.Show(a.CancelBy)}; the form for it is in the copy, and this page does it too: {cancelAt}")}

            We write to you about the day of the work.
            """)
        {
            HouseId = full.House.Id,
            Attachments = [new(copy.FileName, "application/pdf", copy.Bytes)],
        };

    private static string Ids(IEnumerable<QuoteAddOn> addOns) => string.Join(',', addOns.Select(a => a.Id).Order());

    private static string Short(string text) => text.Length <= 500 ? text : text[..500];

    private static DateTime Microseconds(DateTime utc) => new(utc.Ticks - utc.Ticks % 10, DateTimeKind.Utc);
}
