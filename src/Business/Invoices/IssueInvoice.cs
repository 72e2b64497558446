using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices;

/// <summary>Who issues, when, and from which address the letter goes; null: no letter.</summary>
public sealed record Issuer(string Name, DateTime NowUtc, MailIdentity? Mail);

/// <summary>What became of it.</summary>
/// <param name="InvoiceId">0 where it was refused.</param>
/// <param name="Already">It stood already, from another window or another person; nothing new was made.</param>
public sealed record Issued(int InvoiceId, string Number, bool Already, IReadOnlyList<Refusal> Refusals)
{
    public static Issued No(string words, string field = "") => new(0, "", false, [new(field, words)]);
}

/// <summary>An invoice written by hand.</summary>
public sealed record FreeInvoice(int HouseId, int CustomerId, string Subject, DateOnly DueOn, IReadOnlyList<InvoiceLine> Lines, string NoTaxBecause, string Note);

/// <summary>Issues an invoice: number, sums, paper and letter in one transaction, or nothing.</summary>
public static class IssueInvoice
{
    /// <summary>The deposit or the balance of a signed quote; a second asking returns the first one.</summary>
    /// <param name="dueOn">Null: as the quote's terms say.</param>
    public static Task<Issued> ForQuoteAsync(OfficeDb db, int acceptanceId, InvoiceKind kind, DateOnly? dueOn, Issuer by) => WriteAsync(db, async () =>
    {
        if (await BillQuote.ReadAsync(db, acceptanceId) is not { } signed) return Issued.No("This quote was not signed.");
        if (await db.CancelledSales.AnyAsync(c => c.AcceptanceId == acceptanceId)) return Issued.No("The buyer cancelled this sale.");
        if (signed.Standing(kind) is { } earlier) return new(earlier.Id, earlier.Number, true, []);
        var (draft, problem) = signed.Draft(kind);
        if (draft is null) return Issued.No(problem!);
        var today = await TodayAsync(db, draft.HouseId, by.NowUtc);
        (draft.IssuedOn, draft.DueOn) = (today, dueOn ?? today.AddDays(signed.DueDays(kind)));
        if (draft.DueOn < today) return Issued.No($"It cannot be due before it is issued; today is {HouseTime.Show(today)}.", nameof(Invoice.DueOn));
        return await KeepAsync(db, draft, by);
    });

    public static Task<Issued> FreeAsync(OfficeDb db, FreeInvoice typed, Issuer by) => WriteAsync(db, async () =>
    {
        if (!await db.HouseOwners.AnyAsync(o => o.HouseId == typed.HouseId && o.CustomerId == typed.CustomerId)) return Issued.No("This customer does not own the house and never did.");
        var today = await TodayAsync(db, typed.HouseId, by.NowUtc);
        if (typed.DueOn < today) return Issued.No($"It cannot be due before it is issued; today is {HouseTime.Show(today)}.", nameof(Invoice.DueOn));
        var (sums, problems) = AddUp(typed, await db.TaxRates.AsNoTracking().ToListAsync(), today);
        if (sums is null) return new(0, "", false, [.. problems.Select(p => new Refusal("Lines", p))]);
        if (sums.Total <= Money.Zero) return Issued.No("The invoice comes to nothing.", "Lines");
        var note = typed.NoTaxBecause.Length == 0 ? typed.Note : $"No sales tax: {typed.NoTaxBecause}\n{typed.Note}".Trim();
        return await KeepAsync(db, Blank(InvoiceKind.Free, typed.HouseId, typed.CustomerId, typed.Subject, note, typed.Lines, sums, today, typed.DueOn), by);
    });

    /// <summary>The sums of what was typed, on a day.</summary>
    public static (InvoiceSums? Sums, IReadOnlyList<string> Problems) AddUp(FreeInvoice typed, IEnumerable<TaxRate> rates, DateOnly day)
    {
        var (taxes, problems) = typed.NoTaxBecause.Length > 0 ? ([], []) : TaxesOfDay.Of(rates, [.. typed.Lines.Select(l => l.Kind)], day);
        if (problems.Count > 0) return (null, problems);
        var (sums, problem) = AddUpInvoice.Of(typed.Lines, taxes);
        return (sums, problem is null ? [] : [problem]);
    }

    /// <summary>Alone among all acts on money. When two processes meet all the same, the later one is told, not half done.</summary>
    internal static async Task<Issued> WriteAsync(OfficeDb db, Func<Task<Issued>> act)
    {
        db.ChangeTracker.Clear();
        try
        {
            return await db.WriteAsync(async () =>
            {
                await db.TakeTurnAsync(Turn.Money);
                return await act();
            });
        }
        catch (DbUpdateException)
        {
            db.ChangeTracker.Clear();
            return Issued.No("Somebody else issued at the same moment. Look at the account as it stands now, then decide again.");
        }
    }

    internal static Invoice Blank(InvoiceKind kind, int houseId, int customerId, string subject, string note, IEnumerable<InvoiceLine> lines, InvoiceSums sums, DateOnly day, DateOnly dueOn) => new()
    {
        Number = "",
        Kind = kind,
        HouseId = houseId,
        CustomerId = customerId,
        Subject = subject,
        Note = note,
        Lines = [.. lines],
        Taxes = [.. sums.Taxes],
        Net = sums.Net,
        Tax = sums.Tax,
        Total = sums.Total,
        IssuedOn = day,
        DueOn = dueOn,
        IssuedBy = "",
        PdfSha256 = "",
        PreviousHash = "",
        Hash = "",
    };

    /// <summary>The day it is at the house.</summary>
    public static async Task<DateOnly> TodayAsync(OfficeDb db, int houseId, DateTime nowUtc)
    {
        var zones = await db.Houses.Where(h => h.Id == houseId).Select(h => new { House = h.TimeZone, Company = db.Company.OrderBy(c => c.Id).Select(c => c.TimeZone).First() }).SingleAsync();
        return HouseTime.DayOf(nowUtc, HouseTime.Zone(zones.House, zones.Company));
    }

    internal static async Task<Issued> KeepAsync(OfficeDb db, Invoice draft, Issuer by)
    {
        for (var i = 0; i < draft.Lines.Count; i++) draft.Lines[i].Position = i + 1;
        var (house, customer) = (await db.Houses.AsNoTracking().SingleAsync(h => h.Id == draft.HouseId), await db.Customers.AsNoTracking().SingleAsync(c => c.Id == draft.CustomerId));
        draft.Number = await TakeNumber.NextAsync(db, draft.Kind == InvoiceKind.CreditNote ? "C" : "I", draft.IssuedOn.Year);
        (draft.IssuedAtUtc, draft.IssuedBy) = (new DateTime(by.NowUtc.Ticks - by.NowUtc.Ticks % 10, DateTimeKind.Utc), by.Name);
        var paper = await Papers.KeepPaper.RunAsync(db, draft, house, customer);
        await db.SaveChangesAsync();
        (draft.PdfDocumentId, draft.PdfSha256) = (paper.Id, paper.Sha256);
        draft.PreviousHash = await db.Invoices.OrderByDescending(i => i.Id).Select(i => i.Hash).FirstOrDefaultAsync() ?? "";
        draft.Hash = draft.ComputeHash();
        db.Invoices.Add(draft);
        if (by.Mail is not null && MailAddress.IsUsable(customer.Email)) await QueueMail.AddAsync(db, by.Mail, by.NowUtc, MailInvoice.LetterOf(draft, house, customer, paper, 1));
        await db.SaveChangesAsync();
        return new(draft.Id, draft.Number, false, []);
    }
}
