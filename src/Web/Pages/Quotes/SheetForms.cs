namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>A return visit under the guarantee, as it is typed.</summary>
public sealed class VisitForm
{
    public string? On { get; set; }
    public string? Done { get; set; }
}

/// <summary>Why a quote is closed, as it is chosen.</summary>
public sealed class LostForm
{
    public string? Because { get; set; }
    public string? Note { get; set; }
}
