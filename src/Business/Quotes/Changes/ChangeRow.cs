namespace MitigationOffice.Business.Quotes.Changes;

/// <summary>One thing that is not as it was.</summary>
/// <param name="Where">The choice, "Additions" or the quote itself.</param>
/// <param name="Before">Empty: new.</param>
/// <param name="After">Empty: taken out.</param>
public sealed record ChangeRow(string Where, string What, string Before, string After);
