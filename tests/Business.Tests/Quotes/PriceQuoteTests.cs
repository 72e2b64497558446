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

    /// <summary>None, a share in thousandths of a percent, or an amount that may be more than the price.</summary>
    private static readonly Gen<(int Thousandths, long Cents)> Off = Gen.OneOf(
        Gen.Const((0, 0L)), Gen.Int[1, 100_000].Select(t => (t, 0L)), Gen.Long[1, 2_000_000].Select(c => (0, c)));

    /// <summary>Independent route: whole numbers of the smallest unit, never decimals. Round half away from zero of a/b for a ≥ 0 is
    /// floor((2a + b) / 2b). Discounts first on the choice, then on the whole, each split over taxed and untaxed once; tax and deposit last.</summary>
    [Fact]
    public void Totals_equal_a_recomputation_in_whole_numbers_over_ten_thousand_quotes() =>
        Gen.Select(Line.Array[0, 40], AddOn.Array[0, 10], Gen.Int[0, 25_000], Gen.Int[0, 100_000], Off, Off).Sample(
            (lines, addOns, taxThousandths, depositThousandths, onTier, onWhole) =>
            {
                var revision = new QuoteRevision
                {
                    Letter = "A", TaxPercent = taxThousandths / 1000m, DepositPercent = depositThousandths / 1000m, DiscountPercent = onWhole.Thousandths / 1000m, DiscountAmount = new Money(onWhole.Cents),
                };
                var tier = new QuoteTier { Name = "t", Lines = [.. lines], DiscountPercent = onTier.Thousandths / 1000m, DiscountAmount = new Money(onTier.Cents) };
                var totals = PriceQuote.Of(revision, tier, addOns);
                BigInteger taxed = 0, untaxed = 0;
                foreach (var l in lines) Put(l.Taxable, Round(l.UnitPrice.Cents * (BigInteger)(l.Quantity * 1000), 1000));
                TakeOff(onTier);
                foreach (var a in addOns) Put(a.Taxable, a.Price.Cents);
                TakeOff(onWhole);
                var (net, tax) = (taxed + untaxed, Round(taxed * taxThousandths, 100_000));
                Assert.Equal((net, taxed, tax, net + tax, Round((net + tax) * depositThousandths, 100_000)),
                    (totals.Net.Cents, totals.Taxable.Cents, totals.Tax.Cents, totals.Total.Cents, totals.Deposit.Cents));
                Assert.True(totals.Net >= Money.Zero && totals.Taxable >= Money.Zero && totals.Taxable <= totals.Net);
                Assert.Equal(lines.Select(l => l.Amount).Concat(addOns.Select(a => a.Price)).Sum(), totals.Listed);

                void Put(bool isTaxed, BigInteger cents) => (taxed, untaxed) = isTaxed ? (taxed + cents, untaxed) : (taxed, untaxed + cents);

                void TakeOff((int Thousandths, long Cents) off)
                {
                    var all = taxed + untaxed;
                    if (all == 0) return;
                    var cents = BigInteger.Min(all, off.Thousandths > 0 ? Round(all * off.Thousandths, 100_000) : off.Cents);
                    var ofTaxed = Round(cents * taxed, all);
                    (taxed, untaxed) = (taxed - ofTaxed, untaxed - (cents - ofTaxed));
                }
            }, iter: 10_000);

    /// <summary>A tenth off 100.00 of which 60.00 are taxed at 7 %: 10.00 off, 6.00 of it on the taxed part; tax on 54.00 is 3.78.</summary>
    [Fact]
    public void A_discount_lowers_the_tax_by_the_share_of_what_is_taxed()
    {
        var tier = new QuoteTier { Name = "t", DiscountPercent = 10, DiscountReason = "off season", Lines = [new() { Words = "a", UnitPrice = new Money(60_00), Taxable = true }, new() { Words = "b", UnitPrice = new Money(40_00) }] };
        var totals = PriceQuote.Of(new QuoteRevision { Letter = "A", TaxPercent = 7, DepositPercent = 50 }, tier, []);
        Assert.Equal((90_00L, 3_78L, 93_78L, 46_89L, 10_00L), (totals.Net.Cents, totals.Tax.Cents, totals.Total.Cents, totals.Deposit.Cents, totals.Discount.Cents));
        Assert.Equal("Discount on t, 10 %: off season", totals.Discounts[0].Words);
    }

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
