using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Pages.Invoices;

internal static class Sender
{
    public static async Task<MailIdentity> OfAsync(OfficeDb db, MailSettings mail) => Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), mail);
}
