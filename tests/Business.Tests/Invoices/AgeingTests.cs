using CsCheck;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;

namespace MitigationOffice.Business.Tests.Invoices;

public sealed class AgeingTests
{
    private static readonly DateOnly Today = new(2026, 11, 25);

    [Theory]
    [InlineData(0, "NotYet")]
    [InlineData(-5, "NotYet")]
    [InlineData(1, "To30")]
    [InlineData(30, "To30")]
    [InlineData(31, "To60")]
    [InlineData(60, "To60")]
    [InlineData(61, "To90")]
    [InlineData(90, "To90")]
    [InlineData(91, "Over90")]
    public void What_is_open_stands_under_its_days_past_due(int daysPast, string bucket)
    {
        var age = Ageing.Of([(Today.AddDays(-daysPast), new Money(100))], Money.Zero, Today);
        Assert.Equal(new Money(100), typeof(Ageing).GetProperty(bucket)!.GetValue(age));
        Assert.Equal((new Money(100), Today.AddDays(-daysPast)), (age.Balance, age.Since!.Value));
    }

    [Fact]
    public void Money_pays_what_was_due_first_and_the_rest_is_credit()
    {
        (DateOnly, Money)[] charges = [(Today.AddDays(10), new Money(500)), (Today.AddDays(-40), new Money(300))];
        var part = Ageing.Of(charges, new Money(350), Today);
        Assert.Equal((new Money(450), Money.Zero, Today.AddDays(10)), (part.NotYet, part.PastDue, part.Since!.Value));
        Assert.Equal(new Money(200), Ageing.Of(charges, new Money(1000), Today).Credit);
    }

    [Fact]
    public void A_credit_note_lessens_the_invoice_it_takes_back() =>
        Assert.Equal((Money.Zero, new Money(100)), Ageing.Of([(Today.AddDays(-95), new Money(300)), (Today.AddDays(-95), new Money(-300))], new Money(100), Today) is var age ? (age.Open, age.Credit) : default);

    [Fact]
    public void Open_less_credit_is_what_was_charged_less_what_was_paid() =>
        Gen.Select(Gen.Select(Gen.Int[-200, 200], Gen.Long[0, 100_000]).Array[0, 12], Gen.Long[0, 600_000]).Sample((charges, paid) =>
        {
            var age = Ageing.Of(charges.Select(c => (Today.AddDays(c.Item1), new Money(c.Item2))), new Money(paid), Today);
            Assert.Equal(charges.Sum(c => c.Item2) - paid, age.Balance.Cents);
            Assert.True(age.Open == Money.Zero || age.Credit == Money.Zero);
        }, iter: 5_000);
}
