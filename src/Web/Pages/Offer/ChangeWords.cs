using MitigationOffice.Business.Invoices.Changes;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>What a change order's link that is not live says. No names, no address, no price.</summary>
public static class ChangeWords
{
    public static (string Heading, string Words) Of(ChangeLinkState state) => state switch
    {
        ChangeLinkState.Agreed => ("This change has been signed", "A signed copy was mailed when it was signed. If you need another one, ask the company that sent it."),
        ChangeLinkState.Declined => ("This change has been declined", "The work stays as it was agreed. If you change your mind, ask the company for a new change order."),
        ChangeLinkState.Replaced => ("This change has been replaced", "A newer one was made. Please use the link in the latest message. Until one is signed, the work stays as it was agreed."),
        ChangeLinkState.Withdrawn => ("This change has been withdrawn", "The company took it back. The work stays as it was agreed."),
        ChangeLinkState.Expired => ("This link has expired", "The time until which it opened is past. The work stays as it was agreed. Ask the company that sent it for a new one."),
        ChangeLinkState.Ended => ("This link has ended", "If a newer message was sent to you, use the link in it. Otherwise ask the company that sent it."),
        ChangeLinkState.Closed => ("Nothing can be changed any more", "The work is invoiced, called off or cancelled. If something is open, ask the company that sent the link."),
        _ => OfferWords.Of(Business.Quotes.OfferState.Unknown),
    };

    public static int StatusOf(ChangeLinkState state) => state switch
    {
        ChangeLinkState.Unknown => StatusCodes.Status404NotFound,
        ChangeLinkState.Agreed or ChangeLinkState.Live => StatusCodes.Status200OK,
        _ => StatusCodes.Status410Gone,
    };

    public static string Address(string token, string below = "") => $"/offer/change/{Uri.EscapeDataString(token)}{below}";
}
