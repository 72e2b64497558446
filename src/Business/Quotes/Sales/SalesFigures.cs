using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes.Sales;

/// <summary>Something that was offered: how often, how often it was taken, and for how much.</summary>
public sealed record SoldRow(string Name, int Offered, int Taken, Money Dollars)
{
    public int Percent => Offered == 0 ? 0 : (int)Math.Round(100m * Taken / Offered, MidpointRounding.AwayFromZero);
}

/// <summary>What became of the quotes sent in a span of days.</summary>
/// <param name="AnswerDays">From the first sending to the answer, for each that was answered.</param>
public sealed record SalesFigures(
    int Sent, int Won, int Lost, int Open, int RanOut, Money WonDollars, IReadOnlyList<int> AnswerDays, IReadOnlyList<SoldRow> Tiers, IReadOnlyList<SoldRow> AddOns, IReadOnlyList<(LostBecause Because, int Count)> Reasons)
{
    public int? WonPercent => Won + Lost == 0 ? null : (int)Math.Round(100m * Won / (Won + Lost), MidpointRounding.AwayFromZero);

    /// <summary>Half of the answers came in so many days or fewer.</summary>
    public int? MedianAnswerDays => AnswerDays.Count == 0 ? null : AnswerDays.Order().ElementAt((AnswerDays.Count - 1) / 2);
}
