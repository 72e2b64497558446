using System.Numerics;
using CsCheck;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Tests.Quotes;

public sealed class CostOfOwningTests
{
    /// <summary>10 years, fan of 8 years: $2,000 + 10 × $25.50 + 10 × $12 + 10 × $70 + 1 × $400 = $3,475.</summary>
    [Fact]
    public void A_worked_example()
    {
        var r = new QuoteRevision { Letter = "A", ElectricityPerYear = new Money(25_50), HeatCablePerYear = new Money(12_00), HouseAirPerYear = new Money(70_00), FanReplacement = new Money(400_00), FanLifeYears = 8, OwningYears = 10 };
        var tier = new QuoteTier { Name = "t", Lines = [new() { Words = "all", UnitPrice = new Money(2000_00) }] };
        var cable = new QuoteAddOn { Words = "cable", OfferedFor = OfferReason.FreezeGuard };
        Assert.Equal(3355_00, CostOfOwning.Of(r, tier, []).Total.Cents);
        Assert.Equal(3475_00, CostOfOwning.Of(r, tier, [cable]).Total.Cents);
        tier.Lines[0].OfferedFor = OfferReason.FreezeGuard;
        Assert.Equal(3475_00, CostOfOwning.Of(r, tier, []).Total.Cents);
    }

    [Theory]
    [InlineData(10, 8, 1)]
    [InlineData(10, 10, 0)]
    [InlineData(10, 5, 1)]
    [InlineData(11, 5, 2)]
    [InlineData(40, 1, 39)]
    [InlineData(1, 1, 0)]
    [InlineData(10, 0, 0)]
    public void Fans_bought_after_the_first(int years, int life, int later) => Assert.Equal(later, CostOfOwning.FansLater(years, life));

    /// <summary>Independent route: whole numbers, year by year.</summary>
    [Fact]
    public void Sums_equal_a_walk_through_the_years_over_ten_thousand_quotes() =>
        Gen.Select(Gen.Long[0, 100_000], Gen.Long[0, 100_000], Gen.Long[0, 100_000], Gen.Long[0, 90_000], Gen.Int[1, 25], Gen.Int[1, 40], Gen.Bool, Gen.Long[0, 900_000]).Sample((watts, cable, air, fan, life, years, hasCable, price) =>
        {
            var r = new QuoteRevision { Letter = "A", ElectricityPerYear = new(watts), HeatCablePerYear = new(cable), HouseAirPerYear = new(air), FanReplacement = new(fan), FanLifeYears = life, OwningYears = years };
            var tier = new QuoteTier { Name = "t", Lines = [new() { Words = "x", UnitPrice = new(price), OfferedFor = hasCable ? OfferReason.FreezeGuard : OfferReason.Always }] };
            BigInteger sum = price;
            var age = 0;
            for (var year = 1; year <= years; year++)
            {
                if (age == life) (sum, age) = (sum + fan, 0);
                sum += watts + air + (hasCable ? cable : 0);
                age++;
            }

            Assert.Equal(sum, CostOfOwning.Of(r, tier, []).Total.Cents);
        }, iter: 10_000);

    [Fact]
    public void The_schedule_adds_up_and_leaves_out_what_costs_nothing()
    {
        var r = new QuoteRevision { Letter = "A", ElectricityPerYear = new Money(20_00), FanReplacement = new Money(300_00), FanLifeYears = 4, OwningYears = 9 };
        var rows = CostOfOwning.Rows([CostOfOwning.Of(r, new QuoteTier { Name = "t", Lines = [new() { Words = "x", UnitPrice = new Money(100_00) }] }, [])]);
        Assert.Equal(["Price, tax included", "Electricity for the fan", "2 more fans", "Over 9 years"], rows.Select(x => x.Words));
        Assert.Equal(rows.Where(x => !x.IsTotal).Select(x => x.Amounts[0]).Sum(), rows[^1].Amounts[0]);
        Assert.Contains(CostOfOwning.Assumptions(r), a => a.Contains("A fan lasts 4 years; another one, fitted, costs $300.00.", StringComparison.Ordinal));
    }

    [Fact]
    public void Sums_that_no_number_holds_are_refused_and_do_not_wrap_around()
    {
        var r = new QuoteRevision { Letter = "A", ElectricityPerYear = new Money(long.MaxValue / 4), OwningYears = 10 };
        Assert.Throws<OverflowException>(() => CostOfOwning.Of(r, new QuoteTier { Name = "t" }, []));
        var line = new QuoteLine { Words = "x", UnitPrice = new Money(long.MaxValue / 2) };
        Assert.Throws<OverflowException>(() => PriceQuote.Of(r, new QuoteTier { Name = "t", Lines = [line, line, line] }, []));
    }

    /// <summary>10,000 lines of the greatest price and quantity that the form takes still add up: 10⁴ × 10⁶ $ × 10⁵ are 10¹⁷ cents.</summary>
    [Fact]
    public void Ten_thousand_of_the_greatest_lines_add_up()
    {
        var lines = Enumerable.Range(0, 10_000).Select(_ => new QuoteLine { Words = "x", UnitPrice = Money.FromDollars(1_000_000), Quantity = 100_000 }).ToList();
        Assert.Equal(100_000_000_000_000_000, PriceQuote.Of(new QuoteRevision { Letter = "A" }, new QuoteTier { Name = "t", Lines = lines }, []).Net.Cents);
    }

    [Fact]
    public void Hours_and_margin_come_from_the_lines()
    {
        var tier = new QuoteTier { Name = "t", Lines = [new() { Words = "a", UnitPrice = new Money(100_00), UnitCost = new Money(60_00), Quantity = 2, LabourMinutes = 45 }, new() { Words = "b", UnitPrice = new Money(50_00), UnitCost = new Money(65_00) }] };
        var (revision, company) = (new QuoteRevision { Letter = "A" }, new CompanyProfile());
        var money = TierMoney.Of(revision, tier, company);
        Assert.Equal((1.5m, 65_00L, 26.0m), (money.Hours, money.Margin.Cents, money.MarginPercent));
        Assert.Null(TierMoney.Of(revision, new QuoteTier { Name = "t" }, company).MarginPercent);
        // Overhead of 20 % of 185.00 is 37.00; a tenth off 250.00 is 25.00: 225 − 185 − 37 = 3.00 are left, 1.3 % of 225.
        (company.OverheadPercent, tier.DiscountPercent) = (20, 10);
        var less = TierMoney.Of(revision, tier, company);
        Assert.Equal((37_00L, 3_00L, 1.3m), (less.Overhead.Cents, less.Margin.Cents, less.MarginPercent));
    }
}
