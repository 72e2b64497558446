using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Work;
using MitigationOffice.Engineering.Dates;

namespace MitigationOffice.Business.Invoices;

/// <summary>What the buyer typed to cancel, and from where.</summary>
public sealed record CancelTyped(string TypedName, bool Cancels, string IpAddress, string UserAgent);

/// <summary>What became of it.</summary>
/// <param name="State">Cancelled also where another sending was first.</param>
public sealed record CancelOutcome(CancelState State, bool Now, IReadOnlyList<Refusal> Refusals);

/// <summary>The buyer cancels by the private link, in time: evidence, the notice as a paper, the sale taken back, letters; all
/// in one transaction, once.</summary>
public static class CancelByLink
{
    /// <summary>The words of the form of 16 CFR 429.1(b), from memory.</summary>
    public const string Statement = "I hereby cancel this transaction.";
    private const int MostTries = 4;

    public static async Task<CancelOutcome> RunAsync(OfficeDb db, string? token, CancelTyped typed, MailIdentity from, TimeProvider clock)
    {
        var utc = clock.GetUtcNow().UtcDateTime;
        var now = new DateTime(utc.Ticks - utc.Ticks % 10, DateTimeKind.Utc);
        var found = await FindCancelling.ByLinkAsync(db, token, now);
        if (found.State != CancelState.Open) return new(found.State, false, []);
        if (Check(typed) is { Count: > 0 } refusals) return new(CancelState.Open, false, refusals);
        var notice = await NoticeAsync(db, found, typed, now);
        for (var tries = 1; ; tries++)
        {
            try
            {
                var done = await WriteAsync(db, notice, from, now);
                return new(CancelState.Cancelled, done, []);
            }
            catch (DbUpdateException) when (tries < MostTries)
            {
                // Somebody planned the job or issued an invoice in the same moment: the notice counts all the same.
                db.ChangeTracker.Clear();
            }
        }
    }

    private static List<Refusal> Check(CancelTyped typed)
    {
        var (name, refusals) = (typed.TypedName.Trim(), new List<Refusal>());
        if (name.Length < 2 || !name.Any(char.IsLetter)) refusals.Add(new(nameof(CancelTyped.TypedName), "Type your full name."));
        if (name.Length > 200) refusals.Add(new(nameof(CancelTyped.TypedName), "The name is longer than 200 characters; shorten it."));
        if (!typed.Cancels) refusals.Add(new(nameof(CancelTyped.Cancels), "Tick that you cancel, or leave this page and nothing happens."));
        return refusals;
    }

    private static async Task<NoticeOnPaper> NoticeAsync(OfficeDb db, FoundSale found, CancelTyped typed, DateTime now)
    {
        var signed = await db.Acceptances.AsNoTracking().SingleAsync(a => a.Id == found.AcceptanceId);
        var full = (await GatherPaper.OfAsync(db, signed.QuoteRevisionId))!;
        db.ChangeTracker.Clear();
        var zone = HouseTime.Zone(signed.TimeZone);
        var today = HouseTime.DayOf(now, zone);
        var agent = typed.UserAgent.Length <= 500 ? typed.UserAgent : typed.UserAgent[..500];
        return new(signed, full, found.LinkId, typed.TypedName.Trim(), Statement, now, zone, today, BusinessDays.After(CancelSale.BusinessDaysToPayBack, today), typed.IpAddress, agent);
    }

    private static async Task<bool> WriteAsync(OfficeDb db, NoticeOnPaper n, MailIdentity from, DateTime now)
    {
        var bytes = CancelNoticePaper.Make(n);
        return await db.WriteAsync(async () =>
        {
            await db.TakeTurnAsync(Turn.Money);
            if (await db.CancelledSales.AnyAsync(c => c.AcceptanceId == n.Acceptance.Id)) return false;
            var cancelled = await CancelSale.InsideAsync(db, n.Acceptance.Id, n.Today, n.Today, n.Today, $"By the private link, in the name of {n.TypedName}.", new("the house owner, by link", now, from));
            if (cancelled.Refusals.Count > 0) throw new InvalidOperationException(cancelled.Refusals[0].Words);
            var paper = await KeepAsync(db, n, bytes);
            foreach (var letter in CancelLetters.Of(n, paper)) await QueueMail.AddAsync(db, from, now, letter);
            await db.SaveChangesAsync();
            return true;
        });
    }

    private static async Task<StoredDocument> KeepAsync(OfficeDb db, NoticeOnPaper n, byte[] bytes)
    {
        var paper = StoredDocument.Of(bytes, PaperKind.CancelNotice, $"Notice of cancellation, quote {n.Name}", $"{n.Full.Quote.Number}-{n.Full.Revision.Letter}-cancelled.pdf", "application/pdf", n.Full.House.Id, n.AtUtc, n.TypedName);
        db.Documents.Add(paper);
        await db.SaveChangesAsync();
        var evidence = new CancelNotice
        {
            AcceptanceId = n.Acceptance.Id, HouseId = n.Full.House.Id, AcceptanceHash = n.Acceptance.Hash, TypedName = n.TypedName, Statement = n.Statement, AtUtc = n.AtUtc, TimeZone = n.Acceptance.TimeZone,
            CancelBy = n.Acceptance.CancelBy, OwedBackBy = n.OwedBackBy, IpAddress = n.IpAddress, UserAgent = n.UserAgent, QuoteLinkId = n.LinkId, PdfDocumentId = paper.Id, PdfSha256 = paper.Sha256,
            PreviousHash = await db.CancelNotices.OrderByDescending(c => c.Id).Select(c => c.Hash).FirstOrDefaultAsync() ?? "", Hash = "",
        };
        evidence.Hash = evidence.ComputeHash();
        db.CancelNotices.Add(evidence);
        return paper;
    }
}
