using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Tests.Offer;

/// <summary>An office whose offer pages take as many tries as a test makes.</summary>
public sealed class OfferOffice : OfficeApp
{
    public OfferOffice() => (Settings["Offer:SendsPerMinute"], Settings["Offer:ReadsPerMinute"]) = ("100000", "100000");

    /// <summary>One hash over every row of the records that a reader must not change.</summary>
    public Task<string> RowsAsync() => WithDbAsync(async db =>
    {
        var all = new StringBuilder();
        foreach (var rows in new object[]
                 {
                     await db.Quotes.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.QuoteRevisions.AsNoTracking().OrderBy(x => x.Id).ToListAsync(),
                     await db.QuoteLinks.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.Acceptances.AsNoTracking().OrderBy(x => x.Id).ToListAsync(),
                     await db.Outbox.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.Audit.AsNoTracking().OrderBy(x => x.Id).ToListAsync(),
                     await db.Submissions.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.Documents.AsNoTracking().OrderBy(x => x.Id).Select(d => d.Sha256).ToListAsync(),
                     await db.CancelNotices.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.CancelledSales.AsNoTracking().OrderBy(x => x.Id).ToListAsync(),
                     await db.ChangeOrders.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.ChangeLinks.AsNoTracking().OrderBy(x => x.Id).ToListAsync(),
                     await db.ChangeSignatures.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.Invoices.AsNoTracking().OrderBy(x => x.Id).ToListAsync(),
                     await db.Houses.AsNoTracking().OrderBy(x => x.Id).ToListAsync(), await db.Customers.AsNoTracking().OrderBy(x => x.Id).ToListAsync(),
                 })
            all.Append(JsonSerializer.Serialize(rows, rows.GetType()));
        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(all.ToString())));
    });
}
