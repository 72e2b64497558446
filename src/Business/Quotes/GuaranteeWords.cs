using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>The guarantee of a revision in words.</summary>
public static class GuaranteeWords
{
    public static bool IsGiven(QuoteRevision r) => r.GuaranteePCiL > 0;

    public static string LevelOf(QuoteRevision r) => string.Create(CultureInfo.InvariantCulture, $"below {r.GuaranteePCiL:0.0} pCi/L");

    /// <summary>One sentence; empty where none is given.</summary>
    public static string Of(QuoteRevision r) => !IsGiven(r) ? "" :
        $"Guaranteed for {Count(r.GuaranteeMonths, "month")} from the day the fan is switched on: a radon test made after the work shows {LevelOf(r)}. "
        + (r.GuaranteeVisits > 0 ? $"If it does not, we come back up to {Count(r.GuaranteeVisits, "time")} at no charge, find the cause and put it right." : "If it does not, we find the cause and put it right.");

    public static string Count(int n, string one) => $"{TypedNumbers.Plain((decimal)n)} {one}{(n == 1 ? "" : "s")}";
}
