using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Invoices.Papers;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>What the customer's page shows of a change order that is out: the least that is needed to decide.</summary>
public sealed record ChangeView(ChangeOrder Order, string Company, string Phone, string Street, string Quote)
{
    public string Title => $"Change order {Order.Number}";
    public string DifferenceWords => ChangeOnPaper.Words(Order.Difference);

    /// <summary>Three statements.</summary>
    public static async Task<ChangeView> LoadAsync(OfficeDb db, int id)
    {
        var order = await db.ChangeOrders.AsNoTracking().Include(c => c.Lines).AsSingleQuery().SingleAsync(c => c.Id == id);
        var about = await (from a in db.Acceptances
                           where a.Id == order.AcceptanceId
                           join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                           join h in db.Houses on r.Quote!.HouseId equals h.Id
                           select new { h.Street, Quote = r.Quote!.Number + " " + r.Letter }).SingleAsync();
        var company = await db.Company.Select(c => new { c.Name, c.Phone }).SingleAsync();
        return new(order, company.Name, company.Phone, about.Street, about.Quote);
    }
}
