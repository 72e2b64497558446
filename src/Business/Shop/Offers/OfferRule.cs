namespace MitigationOffice.Business.Shop.Offers;

public enum AddOnStand
{
    /// <summary>Part of the price from the item's tier on, and offered beside the tiers before.</summary>
    Included,

    /// <summary>Offered beside all tiers.</summary>
    Offered,
    NotOffered,
}

/// <param name="Why">One sentence with its numbers; empty where nothing was found out.</param>
public sealed record AddOnVerdict(AddOnStand Stand, bool Recommended, string Why);

/// <summary>When an item of the price book is included, offered or not offered: lines of a table, of which the first that holds decides.</summary>
public sealed record OfferRule(IReadOnlyList<OfferLine> Lines)
{
    private const string NoneHolds = "None of the lines of its rule holds for this house.";

    /// <param name="facts">By name a decimal, a bool or a string; what is missing is not in it.</param>
    public AddOnVerdict Judge(IReadOnlyDictionary<string, object> facts) =>
        Lines.FirstOrDefault(l => l.When.All(c => c.Holds(facts))) is { } line
            ? new(line.Stand, line.Recommended, line.Sentence.Fill(facts))
            : new(AddOnStand.NotOffered, false, NoneHolds);
}

/// <param name="When">All of them must hold; none: it always holds.</param>
public sealed record OfferLine(AddOnStand Stand, bool Recommended, IReadOnlyList<OfferCondition> When, OfferSentence Sentence);

public enum OfferComparison
{
    AtLeast,
    AtMost,
    Above,
    Below,
    Equal,
    Yes,
    No,
    There,
    Missing,
}

/// <summary>One fact against a number. Where the fact or the number is missing it does not hold, but for the last two comparisons.</summary>
public sealed record OfferCondition(string Fact, OfferComparison Comparison, OfferNumber Than)
{
    public bool Holds(IReadOnlyDictionary<string, object> facts)
    {
        if (!facts.TryGetValue(Fact, out var value)) return Comparison == OfferComparison.Missing;
        return Comparison switch
        {
            OfferComparison.There => true,
            OfferComparison.Yes => value is true,
            OfferComparison.No => value is false,
            _ => value is decimal number && Than.Of(facts) is { } than && Compares(number, than),
        };
    }

    private bool Compares(decimal number, decimal than) => Comparison switch
    {
        OfferComparison.AtLeast => number >= than,
        OfferComparison.AtMost => number <= than,
        OfferComparison.Above => number > than,
        OfferComparison.Below => number < than,
        OfferComparison.Equal => number == than,
        _ => false,
    };
}

/// <summary>A number, or the first of several facts that is not missing: "limit or 33".</summary>
/// <param name="Choices">Each a fact's name or a number.</param>
public sealed record OfferNumber(IReadOnlyList<(string Fact, decimal Number)> Choices)
{
    public decimal? Of(IReadOnlyDictionary<string, object> facts)
    {
        foreach (var (fact, number) in Choices)
        {
            if (fact.Length == 0) return number;
            if (facts.TryGetValue(fact, out var value) && value is decimal known) return known;
        }

        return null;
    }
}
