using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>How the customer signed.</summary>
public sealed record ChangeTyped(string TypedName, bool Consented, bool Intended, string IpAddress, string UserAgent);

/// <summary>What became of it.</summary>
/// <param name="SignatureId">Above zero only for the one sending that did it.</param>
public sealed record ChangeOutcome(ChangeLinkState State, int SignatureId, IReadOnlyList<Refusal> Refusals);

/// <summary>Signs a change order exactly once and keeps the evidence, as for a quote.</summary>
public static class SignChange
{
    public const string IntentText = "I have read the change order. I agree to it and to the new price, and typing my name is my signature.";

    public static async Task<ChangeOutcome> ByLinkAsync(OfficeDb db, string? token, ChangeTyped typed, MailIdentity from, TimeProvider clock)
    {
        var utc = clock.GetUtcNow().UtcDateTime;
        var now = new DateTime(utc.Ticks - utc.Ticks % 10, DateTimeKind.Utc);
        var found = await FindChange.ByLinkAsync(db, token, now);
        if (found.State != ChangeLinkState.Live) return new(found.State, 0, []);
        if (Check(typed) is { Count: > 0 } refusals) return new(ChangeLinkState.Live, 0, refusals);
        var id = 0;
        var done = await DraftChange.AloneAsync(db, async () =>
        {
            if ((await FindChange.ByLinkAsync(db, token, now)).State != ChangeLinkState.Live) return ChangeDone.No("");
            id = await KeepAsync(db, found, typed, from, now);
            return new(found.ChangeOrderId, null, []);
        });
        if (done.Refusals.Count == 0) return new(ChangeLinkState.Agreed, id, []);
        var after = (await FindChange.ByLinkAsync(db, token, now)).State;
        return new(after, 0, after == ChangeLinkState.Live ? [new("", "Something changed at the same moment, and nothing was signed. Read it once more, then sign again; if this comes back, call the company.")] : []);
    }

    private static List<Refusal> Check(ChangeTyped typed)
    {
        var (name, refusals) = (typed.TypedName.Trim(), new List<Refusal>());
        if (name.Length < 2 || !name.Any(char.IsLetter)) refusals.Add(new(nameof(typed.TypedName), "Type your full name."));
        if (name.Length > 200) refusals.Add(new(nameof(typed.TypedName), "The name is longer than 200 characters; shorten it."));
        if (!typed.Consented) refusals.Add(new(nameof(typed.Consented), "Tick that you agree to electronic papers, or ask the company for paper."));
        if (!typed.Intended) refusals.Add(new(nameof(typed.Intended), "Tick that you agree and that typing your name is your signature."));
        return refusals;
    }

    private static async Task<int> KeepAsync(OfficeDb db, FoundChange found, ChangeTyped typed, MailIdentity from, DateTime now)
    {
        var order = await db.ChangeOrders.Include(c => c.Lines).SingleAsync(c => c.Id == found.ChangeOrderId);
        var full = (await SendChange.ReadAsync(db, order))!;
        if (full.Scope.Total != order.OldTotal) throw new DbUpdateConcurrencyException("The price it starts from has changed.");
        var shown = await db.Documents.AsNoTracking().SingleAsync(d => d.Id == order.PdfDocumentId);
        var evidence = new ChangeSignature
        {
            ChangeOrderId = order.Id, Number = order.Number, AcceptanceHash = full.Scope.AcceptanceHash, LinesSha256 = ChangeSignature.LinesOf(order), OldTotal = order.OldTotal, NewTotal = order.NewTotal,
            TypedName = typed.TypedName.Trim(), ConsentText = AcceptQuote.ConsentText, IntentText = IntentText, AtUtc = now, TimeZone = full.Zone.Id, IpAddress = typed.IpAddress,
            UserAgent = typed.UserAgent.Length <= 500 ? typed.UserAgent : typed.UserAgent[..500], ChangeLinkId = found.LinkId, HandedBy = found.HandedBy,
            PdfDocumentId = shown.Id, PdfSha256 = shown.Sha256, SignedSha256 = "", PreviousHash = "", Hash = "",
        };
        var bytes = SignedCopy.Make(shown.Bytes, ChangePaper.MakeSignature(full, evidence), full.Head("Signed change order") with { MadeAtUtc = now });
        var copy = StoredDocument.Of(bytes, PaperKind.SignedChangeOrder, $"Signed {full.Title.ToLowerInvariant()}", $"{order.Number}-signed.pdf", "application/pdf", order.HouseId, now, evidence.TypedName);
        db.Documents.Add(copy);
        order.State = ChangeState.Agreed;
        await db.SaveChangesAsync();
        (evidence.SignedDocumentId, evidence.SignedSha256) = (copy.Id, copy.Sha256);
        evidence.PreviousHash = await db.ChangeSignatures.OrderByDescending(s => s.Id).Select(s => s.Hash).FirstOrDefaultAsync() ?? "";
        evidence.Hash = evidence.ComputeHash();
        db.ChangeSignatures.Add(evidence);
        if (MailAddress.IsUsable(full.Customer.Email)) await QueueMail.AddAsync(db, from, now, ChangeLetters.Signed(full, evidence, copy));
        await db.SaveChangesAsync();
        return evidence.Id;
    }
}
