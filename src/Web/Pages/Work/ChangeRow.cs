using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>A change order as sheet 5 lists it.</summary>
public sealed record ChangeRow(int Id, string Number, ChangeState State, string Reason, Money Difference)
{
    private const int MostWords = 100;

    public static async Task<IReadOnlyList<ChangeRow>> OfJobAsync(OfficeDb db, int jobId)
    {
        var rows = await db.ChangeOrders.AsNoTracking().Where(c => c.JobId == jobId).OrderBy(c => c.Position).Select(c => new { c.Id, c.Number, c.State, c.Reason, Cents = c.NewTotal.Cents - c.OldTotal.Cents }).ToListAsync();
        return [.. rows.Select(r => new ChangeRow(r.Id, r.Number, r.State, r.Reason.Length <= MostWords ? r.Reason : r.Reason[..MostWords] + "…", new Money(r.Cents)))];
    }
}
