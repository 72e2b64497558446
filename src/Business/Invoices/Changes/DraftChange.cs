using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>What became of an act on a change order.</summary>
/// <param name="Token">The secret of a new link, to be shown once.</param>
public sealed record ChangeDone(int ChangeOrderId, string? Token, IReadOnlyList<Refusal> Refusals)
{
    public static ChangeDone No(string words, string field = "") => new(0, null, [new(field, words)]);
}

/// <summary>Begins a change order and takes up what was typed into it.</summary>
public static class DraftChange
{
    /// <summary>A new draft for a job; the one that is open already where there is one.</summary>
    public static Task<ChangeDone> BeginAsync(OfficeDb db, int jobId, DateTime nowUtc, string by) => AloneAsync(db, async () =>
    {
        if (await db.Jobs.AsNoTracking().SingleOrDefaultAsync(j => j.Id == jobId) is not { } job) return ChangeDone.No("There is no such job.");
        if (await CheckChange.ClosedAsync(db, job.AcceptanceId) is { } closed) return ChangeDone.No(closed);
        if (await db.ChangeOrders.Where(c => c.JobId == jobId && c.State == ChangeState.Draft).Select(c => c.Id).FirstOrDefaultAsync() is var open and > 0) return new(open, null, []);
        return new(await AddAsync(db, job, [], "", "", nowUtc, by), null, []);
    });

    /// <summary>Puts the typed reason and lines into the draft. Prices may still be missing; the rest is checked at sending.</summary>
    public static Task<ChangeDone> SaveAsync(OfficeDb db, int id, int expectedVersion, string reason, string timeEffect, IReadOnlyList<ChangeLine> lines) => AloneAsync(db, async () =>
    {
        if (await db.ChangeOrders.Include(c => c.Lines).SingleOrDefaultAsync(c => c.Id == id) is not { } order) return ChangeDone.No("There is no such change order.");
        if (order.State != ChangeState.Draft) return ChangeDone.No("It was sent already; what was sent does not change. Withdraw it, or make a new one.");
        if (order.Version != expectedVersion) return ChangeDone.No("Someone changed this order since you opened it. Open it in a second tab to see theirs, then save again.");
        if (await CheckChange.ClosedAsync(db, order.AcceptanceId) is { } closed) return ChangeDone.No(closed);
        (order.Reason, order.TimeEffect) = (reason, timeEffect);
        db.RemoveRange(order.Lines);
        for (var i = 0; i < lines.Count; i++) lines[i].Position = i + 1;
        order.Lines = [.. lines];
        db.Entry(order).Property(o => o.Reason).IsModified = true;
        await db.SaveChangesAsync();
        return new(id, null, []);
    });

    /// <summary>A draft with the lines of one that is not signed, to be changed and sent in its place.</summary>
    public static Task<ChangeDone> ReviseAsync(OfficeDb db, int id, DateTime nowUtc, string by) => AloneAsync(db, async () =>
    {
        if (await db.ChangeOrders.AsNoTracking().Include(c => c.Lines).SingleOrDefaultAsync(c => c.Id == id) is not { } old) return ChangeDone.No("There is no such change order.");
        if (old.State is ChangeState.Draft or ChangeState.Agreed) return ChangeDone.No("Only a change order that was sent and not signed is revised.");
        if (await CheckChange.ClosedAsync(db, old.AcceptanceId) is { } closed) return ChangeDone.No(closed);
        if (await db.ChangeOrders.Where(c => c.JobId == old.JobId && c.State == ChangeState.Draft).Select(c => c.Id).FirstOrDefaultAsync() is var open and > 0) return new(open, null, []);
        var job = await db.Jobs.AsNoTracking().SingleAsync(j => j.Id == old.JobId);
        return new(await AddAsync(db, job, [.. old.Lines.OrderBy(l => l.Position).Select(Copy)], old.Reason, old.TimeEffect, nowUtc, by), null, []);
    });

    private static async Task<int> AddAsync(OfficeDb db, Job job, List<ChangeLine> lines, string reason, string timeEffect, DateTime nowUtc, string by)
    {
        var position = 1 + (await db.ChangeOrders.Where(c => c.JobId == job.Id).MaxAsync(c => (int?)c.Position) ?? 0);
        var order = db.ChangeOrders.Add(new ChangeOrder
        {
            Number = string.Create(CultureInfo.InvariantCulture, $"{job.Number}-{position}"), JobId = job.Id, HouseId = job.HouseId, AcceptanceId = job.AcceptanceId, Position = position,
            Reason = reason, TimeEffect = timeEffect, Lines = lines, CreatedAtUtc = nowUtc, CreatedBy = by,
        }).Entity;
        await db.SaveChangesAsync();
        return order.Id;
    }

    private static ChangeLine Copy(ChangeLine l) => new()
    {
        Position = l.Position, Kind = l.Kind, Of = l.Of, WasWords = l.WasWords, WasAmount = l.WasAmount, PriceItemId = l.PriceItemId, Words = l.Words, Quantity = l.Quantity, Unit = l.Unit,
        UnitPrice = l.UnitPrice, Priced = l.Priced, Taxable = l.Taxable,
    };

    /// <summary>Alone among all acts on money: an invoice of the whole work and a change of it never cross.</summary>
    internal static async Task<ChangeDone> AloneAsync(OfficeDb db, Func<Task<ChangeDone>> act)
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
            return ChangeDone.No("Somebody else changed this at the same moment. Look at it as it stands now, then decide again.");
        }
    }
}
