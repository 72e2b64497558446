using System.Security.Claims;
using MitigationOffice.Business.Documents;

namespace MitigationOffice.Web.Pages.Papers;

/// <summary>Which papers a person may see: prices are not for installers.</summary>
public static class PapersAllowed
{
    private static readonly PaperKind[] WithPrices = [PaperKind.Quote, PaperKind.SignedQuote, PaperKind.StateReport, PaperKind.Invoice, PaperKind.CreditNote, PaperKind.ChangeOrder, PaperKind.SignedChangeOrder];

    public static bool SeesPrices(this ClaimsPrincipal user) => user.IsInRole("Owner") || user.IsInRole("Office");

    public static IQueryable<StoredDocument> For(this IQueryable<StoredDocument> papers, ClaimsPrincipal user)
    {
        if (user.SeesPrices()) return papers;
        var hidden = WithPrices;
        return papers.Where(p => !hidden.Contains(p.Kind));
    }
}
