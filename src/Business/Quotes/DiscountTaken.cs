using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>What is taxed and what is not.</summary>
internal readonly record struct Sums(Money Taxed, Money Untaxed)
{
    public Money All => Taxed + Untaxed;

    public static Sums Of(IEnumerable<(Money Amount, bool Taxable)> parts)
    {
        var all = parts.ToList();
        return new(all.Where(p => p.Taxable).Select(p => p.Amount).Sum(), all.Where(p => !p.Taxable).Select(p => p.Amount).Sum());
    }

    public Sums And(Sums more) => new(Taxed + more.Taxed, Untaxed + more.Untaxed);

    public Sums Less(DiscountTaken? discount, List<DiscountTaken> taken)
    {
        if (discount is null) return this;
        taken.Add(discount);
        return new(Taxed - discount.Taxed, Untaxed - discount.Untaxed);
    }
}

/// <summary>A discount in cents, split over what is taxed and what is not in their proportion.</summary>
public sealed record DiscountTaken(string Words, Money Taxed, Money Untaxed)
{
    public Money Amount => Taxed + Untaxed;

    /// <summary>Null where there is none. More than the sum is never taken off.</summary>
    internal static DiscountTaken? Of(Sums sums, decimal percent, Money amount, string reason, string where)
    {
        var from = sums.All;
        if (from <= Money.Zero || (percent <= 0 && amount <= Money.Zero)) return null;
        var off = percent > 0 ? from.Percent(Math.Min(percent, 100)) : amount;
        if (off > from) off = from;
        var taxed = off.Times((decimal)sums.Taxed.Cents / from.Cents);
        var share = percent > 0 ? string.Create(CultureInfo.InvariantCulture, $", {percent:0.######} %") : "";
        return new($"Discount {where}{share}{(reason.Length > 0 ? $": {reason}" : "")}", taxed, off - taxed);
    }
}
