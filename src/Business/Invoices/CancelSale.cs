using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Work;
using MitigationOffice.Engineering.Dates;

namespace MitigationOffice.Business.Invoices;

/// <summary>Writes down that the buyer cancelled in time: what was invoiced is taken back, a job that is not done is called off,
/// and what was paid is owed back.</summary>
public static class CancelSale
{
    /// <summary>16 CFR 429.1(g), from memory: payments are returned within ten business days of receiving the notice.</summary>
    public const int BusinessDaysToPayBack = 10;

    public static Task<Issued> RunAsync(OfficeDb db, int acceptanceId, DateOnly givenOn, DateOnly receivedOn, string note, Issuer by) => IssueInvoice.WriteAsync(db, async () =>
    {
        var houseId = await db.Acceptances.Where(a => a.Id == acceptanceId).Join(db.QuoteRevisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => r.Quote!.HouseId).SingleOrDefaultAsync();
        if (houseId == 0) return Issued.No("This quote was not signed.");
        return await InsideAsync(db, acceptanceId, givenOn, receivedOn, await IssueInvoice.TodayAsync(db, houseId, by.NowUtc), note, by);
    });

    internal static async Task<Issued> InsideAsync(OfficeDb db, int acceptanceId, DateOnly givenOn, DateOnly receivedOn, DateOnly today, string note, Issuer by)
    {
        var signed = await db.Acceptances.AsNoTracking().Where(a => a.Id == acceptanceId)
            .Join(db.QuoteRevisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => new { a.AtUtc, a.TimeZone, a.CancelBy, r.Quote!.HouseId, r.Quote.CustomerId }).SingleAsync();
        if (await db.CancelledSales.AnyAsync(c => c.AcceptanceId == acceptanceId)) return new(0, "", true, []);
        var signedOn = HouseTime.DayOf(signed.AtUtc, HouseTime.Zone(signed.TimeZone));
        if (Check(givenOn, receivedOn, signedOn, signed.CancelBy, today) is { } refusal) return new(0, "", false, [refusal]);
        db.CancelledSales.Add(new CancelledSale
        {
            AcceptanceId = acceptanceId,
            HouseId = signed.HouseId,
            CustomerId = signed.CustomerId,
            GivenOn = givenOn,
            ReceivedOn = receivedOn,
            OwedBackBy = BusinessDays.After(BusinessDaysToPayBack, receivedOn),
            Note = note,
            EnteredBy = by.Name,
            EnteredAtUtc = by.NowUtc,
        });
        if (await db.Jobs.SingleOrDefaultAsync(j => j.AcceptanceId == acceptanceId) is { State: JobState.ToPlan or JobState.Planned } job)
        {
            CallOffJob.Write(job, $"The buyer cancelled in time; the notice came on {HouseTime.Show(receivedOn)}.");
            await PlanDays.TakeOffAsync(db, PlanDays.Owner.OfJob(job.HouseId, job.Id), null, by.NowUtc);
        }
        foreach (var phase in await db.SecondPhases.Where(p => p.AcceptanceId == acceptanceId && p.State != PhaseState.TakenUp).ToListAsync())
            (phase.State, phase.Since) = (PhaseState.Cancelled, receivedOn);
        await db.SaveChangesAsync();
        return await TakeBackAsync(db, acceptanceId, receivedOn, by);
    }

    private static Refusal? Check(DateOnly givenOn, DateOnly receivedOn, DateOnly signedOn, DateOnly cancelBy, DateOnly today)
    {
        if (givenOn < signedOn) return new("GivenOn", $"It was signed on {HouseTime.Show(signedOn)}; a notice cannot be older.");
        if (givenOn > cancelBy) return new("GivenOn", $"The time to cancel ended on {HouseTime.Show(cancelBy)}. Calling the work off later is agreed with the buyer: credit what is not owed.");
        if (receivedOn < givenOn) return new("ReceivedOn", "It cannot come before it was given.");
        return receivedOn > today ? new("ReceivedOn", $"{HouseTime.Show(receivedOn)} has not come yet; today is {HouseTime.Show(today)}.") : null;
    }

    /// <summary>The balance before the deposit it takes off.</summary>
    private static async Task<Issued> TakeBackAsync(OfficeDb db, int acceptanceId, DateOnly receivedOn, Issuer by)
    {
        var last = new Issued(0, "", false, []);
        var standing = await db.Invoices.AsNoTracking().Where(i => i.AcceptanceId == acceptanceId && i.Kind != InvoiceKind.CreditNote
            && i.Lines.Any(l => !db.Set<InvoiceLine>().Any(c => c.CreditsLineId == l.Id))).OrderByDescending(i => i.Id).Select(i => i.Id).ToListAsync();
        foreach (var id in standing)
        {
            last = await CreditInvoice.InsideAsync(db, id, [], $"Cancelled by the buyer in time; the notice came on {HouseTime.Show(receivedOn)}.", by);
            if (last.InvoiceId == 0) throw new InvalidOperationException(last.Refusals[0].Words);
        }

        return last;
    }
}
