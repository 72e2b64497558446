using System.Globalization;

namespace MitigationOffice.Business.Data;

/// <summary>US dollars as whole cents. Rounds half away from zero; overflow throws.</summary>
public readonly record struct Money(long Cents) : IComparable<Money>
{
    public static readonly Money Zero = new(0);

    public static Money FromDollars(decimal dollars) =>
        new(checked((long)Math.Round(dollars * 100m, 0, MidpointRounding.AwayFromZero)));

    public decimal Dollars => Cents / 100m;

    /// <summary>This amount times a factor, rounded once, half away from zero.</summary>
    public Money Times(decimal factor) =>
        new(checked((long)Math.Round(Cents * factor, 0, MidpointRounding.AwayFromZero)));

    public Money Percent(decimal percent) => Times(percent / 100m);

    public static Money operator +(Money a, Money b) => new(checked(a.Cents + b.Cents));
    public static Money operator -(Money a, Money b) => new(checked(a.Cents - b.Cents));
    public static bool operator <(Money a, Money b) => a.Cents < b.Cents;
    public static bool operator >(Money a, Money b) => a.Cents > b.Cents;
    public static bool operator <=(Money a, Money b) => a.Cents <= b.Cents;
    public static bool operator >=(Money a, Money b) => a.Cents >= b.Cents;
    public static Money Add(Money left, Money right) => left + right;
    public static Money Subtract(Money left, Money right) => left - right;

    public int CompareTo(Money other) => Cents.CompareTo(other.Cents);

    /// <summary>"$1,840.00"; a negative amount carries a minus sign before the dollar sign.</summary>
    public override string ToString() =>
        (Cents < 0 ? "−" : "") + "$" + Math.Abs(Dollars).ToString("#,##0.00", CultureInfo.InvariantCulture);
}

public static class MoneySums
{
    public static Money Sum(this IEnumerable<Money> amounts) =>
        new(amounts.Aggregate(0L, (sum, each) => checked(sum + each.Cents)));
}
