using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes.Phases;

namespace MitigationOffice.Business.Quotes.Changes;

/// <summary>What a revision says otherwise than the one before it, line by line.</summary>
public static class CompareRevisions
{
    private sealed record Priced(string Key, string Words, string Shown);

    /// <param name="designs">The letters of the designs that are quoted, by their ids.</param>
    public static IReadOnlyList<ChangeRow> Between(QuoteRevision before, QuoteRevision after, IReadOnlyDictionary<int, string> designs)
    {
        var rows = new List<ChangeRow>();
        foreach (var position in before.Tiers.Concat(after.Tiers).Select(t => t.Position).Distinct().Order())
        {
            var (one, other) = (before.Tiers.Find(t => t.Position == position), after.Tiers.Find(t => t.Position == position));
            var where = (other ?? one)!.Name;
            if (one is not null && other is not null && one.Name != other.Name) rows.Add(new(where, "Name of the choice", one.Name, other.Name));
            rows.AddRange(Lines(where, Of(one), Of(other)));
            Note(rows, where, "Discount", DiscountOf(one), DiscountOf(other));
            Note(rows, where, "Design of its own", OwnDesignOf(one, designs), OwnDesignOf(other, designs));
        }

        rows.AddRange(Lines("Additions", [.. before.AddOns.OrderBy(a => a.Position).Select(Of)], [.. after.AddOns.OrderBy(a => a.Position).Select(Of)]));
        Whole(rows, before, after, designs);
        return rows;
    }

    private static void Whole(List<ChangeRow> rows, QuoteRevision before, QuoteRevision after, IReadOnlyDictionary<int, string> designs)
    {
        Note(rows, "Quote", "Design", DesignOf(before, designs), DesignOf(after, designs));
        Note(rows, "Quote", "Sales tax", $"{TypedNumbers.Plain(before.TaxPercent)} %", $"{TypedNumbers.Plain(after.TaxPercent)} %");
        Note(rows, "Quote", "Deposit", $"{TypedNumbers.Plain(before.DepositPercent)} %", $"{TypedNumbers.Plain(after.DepositPercent)} %");
        Note(rows, "Quote", "Discount on the whole", Discount(before.DiscountPercent, before.DiscountAmount), Discount(after.DiscountPercent, after.DiscountAmount));
        Note(rows, "Quote", "Second phase", PhaseOf(before), PhaseOf(after));
        Note(rows, "Quote", "Guarantee", GuaranteeWords.Of(before), GuaranteeWords.Of(after));
        Note(rows, "Quote", "Electricity a year", $"{before.ElectricityPerYear}", $"{after.ElectricityPerYear}");
        foreach (var (what, one, other) in new[]
                 {
                     ("Scope", before.Scope, after.Scope), ("Promise", before.Promise, after.Promise), ("Terms", before.Terms, after.Terms), ("Cautions", before.Cautions, after.Cautions), ("Result it answers", before.Answers, after.Answers),
                 }.Where(t => t.Item2 != t.Item3))
            rows.Add(new("Quote", what, Short(one), Short(other)));
    }

    private static IEnumerable<ChangeRow> Lines(string where, IReadOnlyList<Priced> before, IReadOnlyList<Priced> after)
    {
        var left = after.GroupBy(l => l.Key).ToDictionary(g => g.Key, g => new Queue<Priced>(g), StringComparer.Ordinal);
        foreach (var one in before)
        {
            var other = left.TryGetValue(one.Key, out var same) && same.TryDequeue(out var next) ? next : null;
            if (other is null || other.Shown != one.Shown || other.Words != one.Words) yield return new(where, one.Words, one.Shown, other is null ? "" : other.Words == one.Words ? other.Shown : $"{other.Words}: {other.Shown}");
        }

        foreach (var fresh in after.Where(l => left[l.Key].Contains(l))) yield return new(where, fresh.Words, "", fresh.Shown);
    }

    private static IReadOnlyList<Priced> Of(QuoteTier? tier) => [.. (tier?.Lines ?? []).OrderBy(l => l.Position).Select(l => new Priced(KeyOf(l.PriceItemId, l.Words), l.Words, $"{TypedNumbers.Plain(l.Quantity)} {l.Unit} × {l.UnitPrice} = {l.Amount}{(l.Taxable ? " + tax" : "")}"))];

    private static Priced Of(QuoteAddOn a) => new(KeyOf(a.PriceItemId, a.Words), a.Words, $"{a.Price}{(a.Taxable ? " + tax" : "")}{(a.Recommended ? ", recommended" : "")}");

    private static string KeyOf(int? item, string words) => item is { } id ? TypedNumbers.Plain((decimal)id) : words;

    private static string DiscountOf(QuoteTier? tier) => tier is null ? "" : Discount(tier.DiscountPercent, tier.DiscountAmount);

    private static string Discount(decimal percent, Money amount) => percent > 0 ? $"{TypedNumbers.Plain(percent)} %" : amount > Money.Zero ? $"{amount}" : "";

    private static string DesignOf(QuoteRevision r, IReadOnlyDictionary<int, string> designs) => r.SuctionDesignId is { } id ? $"revision {designs.GetValueOrDefault(id, "?")}" : "by hand";

    private static string OwnDesignOf(QuoteTier? tier, IReadOnlyDictionary<int, string> designs) => tier?.SuctionDesignId is { } id ? $"revision {designs.GetValueOrDefault(id, "?")}" : "";

    private static string PhaseOf(QuoteRevision r) => r.Phase is { } p ? $"{PhaseTrigger.LevelOf(p)} or more, {p.Price}, until {HouseTime.Show(p.ValidUntil)}" : "";

    private static string Short(string words) => words.Length <= 160 ? words : words[..159] + "…";

    private static void Note(List<ChangeRow> rows, string where, string what, string before, string after)
    {
        if (before != after) rows.Add(new(where, what, before, after));
    }
}
