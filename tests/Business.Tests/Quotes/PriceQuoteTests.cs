using System.Numerics;
using CsCheck;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Quotes;

namespace MitigationOffice.Business.Tests.Quotes;

public sealed class PriceQuoteTests
{
    private static readonly Gen<QuoteLine> Line = Gen.Select(
        Gen.Long[0, 500_000], Gen.Int[0, 200_000], Gen.Bool, (cents, thousandths, taxable) => new QuoteLine
        {
            Words = "x",
            UnitPrice = new Money(cents),
            Quantity = thousandths / 1000m,
            Taxable = taxable,
        });

    private static readonly Gen<QuoteAddOn> AddOn = Gen.Select(
        Gen.Long[0, 500_000], Gen.Bool, (cents, taxable) => new QuoteAddOn { Words = "y", Price = new Money(cents), Taxable = taxable });

    /// <summary>Independent route: whole numbers of the smallest unit, never decimals. Round half away from zero of a/b for a ≥ 0 is
    /// floor((2a + b) / 2b).</summary>
    [Fact]
    public void Totals_equal_a_recomputation_in_whole_numbers_over_ten_thousand_quotes() =>
        Gen.Select(Line.Array[0, 40], AddOn.Array[0, 10], Gen.Int[0, 25_000], Gen.Int[0, 100_000]).Sample(
            (lines, addOns, taxThousandths, depositThousandths) =>
            {
                var revision = new QuoteRevision { Letter = "A", TaxPercent = taxThousandths / 1000m, DepositPercent = depositThousandths / 1000m };
                var totals = PriceQuote.Of(revision, new QuoteTier { Name = "t", Lines = [.. lines] }, addOns);
                BigInteger net = 0, taxable = 0;
                foreach (var l in lines)
                {
                    var amount = Round(l.UnitPrice.Cents * (BigInteger)(l.Quantity * 1000), 1000);
                    net += amount;
                    if (l.Taxable) taxable += amount;
                }

                foreach (var a in addOns)
                {
                    net += a.Price.Cents;
                    if (a.Taxable) taxable += a.Price.Cents;
                }

                var tax = Round(taxable * taxThousandths, 100_000);
                Assert.Equal((net, taxable, tax, net + tax, Round((net + tax) * depositThousandths, 100_000)),
                    (totals.Net.Cents, totals.Taxable.Cents, totals.Tax.Cents, totals.Total.Cents, totals.Deposit.Cents));
            }, iter: 10_000);

    /// <summary>Sales tax is carried to the third decimal and rounded up when that is over 4: Streamlined agreement text as enacted
    /// by Rhode Island and Kansas.</summary>
    [Theory]
    [InlineData(10_00, 6.85, 0_69)]
    [InlineData(38_07, 7.0, 2_66)]
    [InlineData(1_00, 0.5, 1)]
    [InlineData(1_00, 0.499, 0)]
    public void Half_a_cent_of_tax_is_rounded_up(long cents, decimal percent, long tax) =>
        Assert.Equal(tax, PriceQuote.Of([(new Money(cents), true)], percent, 0).Tax.Cents);

    [Fact]
    public void Tax_is_taken_once_on_the_sum_and_not_line_by_line() =>
        Assert.Equal(2, PriceQuote.Of([(new Money(10), true), (new Money(10), true), (new Money(10), true)], 6m, 0).Tax.Cents);

    [Fact]
    public void What_a_tier_holds_is_not_offered_beside_it()
    {
        var tier = new QuoteTier { Name = "t", Lines = [new() { Words = "cable", PriceItemId = 7 }] };
        QuoteAddOn[] addOns = [new() { Words = "cable", PriceItemId = 7 }, new() { Words = "lid", PriceItemId = 8 }, new() { Words = "by hand" }];
        Assert.Equal(["lid", "by hand"], PriceQuote.OpenTo(tier, addOns).Select(a => a.Words));
    }

    [Theory]
    [InlineData(null, "A")]
    [InlineData("A", "B")]
    [InlineData("Z", "AA")]
    [InlineData("AZ", "BA")]
    [InlineData("ZZ", "AAA")]
    public void Revisions_are_lettered(string? before, string after) => Assert.Equal(after, RevisionLetters.After(before));

    private static BigInteger Round(BigInteger a, BigInteger b) => (2 * a + b) / (2 * b);
}
