using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>What is open, by how many days it is past due. Money is taken to pay what was due first.</summary>
/// <param name="Credit">Paid beyond what was charged.</param>
/// <param name="Since">The due day of the oldest part that is open; null where nothing is.</param>
public sealed record Ageing(Money NotYet, Money To30, Money To60, Money To90, Money Over90, Money Credit, DateOnly? Since)
{
    public static readonly Ageing None = new(Money.Zero, Money.Zero, Money.Zero, Money.Zero, Money.Zero, Money.Zero, null);

    public Money PastDue => To30 + To60 + To90 + Over90;
    public Money Open => NotYet + PastDue;

    /// <summary>What is owed; below zero where the customer has credit.</summary>
    public Money Balance => Open - Credit;

    /// <param name="charges">Due day and amount of invoices; credit notes below zero, with the due day of what they take back.</param>
    /// <param name="paid">Payments less refunds.</param>
    public static Ageing Of(IEnumerable<(DateOnly Due, Money Amount)> charges, Money paid, DateOnly today)
    {
        var (buckets, left, since) = (new Money[5], paid, (DateOnly?)null);
        foreach (var due in charges.GroupBy(c => c.Due).OrderBy(g => g.Key))
        {
            var amount = due.Select(c => c.Amount).Sum();
            var covered = amount < left ? amount : left;
            left -= covered;
            if (amount == covered) continue;
            since ??= due.Key;
            buckets[Bucket(today.DayNumber - due.Key.DayNumber)] += amount - covered;
        }

        return new(buckets[0], buckets[1], buckets[2], buckets[3], buckets[4], left, since);
    }

    public static Ageing operator +(Ageing a, Ageing b) => new(
        a.NotYet + b.NotYet, a.To30 + b.To30, a.To60 + b.To60, a.To90 + b.To90, a.Over90 + b.Over90, a.Credit + b.Credit, a.Since is null || b.Since < a.Since ? b.Since : a.Since);

    public static Ageing Add(Ageing left, Ageing right) => left + right;

    private static int Bucket(int daysPast) => daysPast switch { <= 0 => 0, <= 30 => 1, <= 60 => 2, <= 90 => 3, _ => 4 };
}
