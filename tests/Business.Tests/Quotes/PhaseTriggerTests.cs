using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests.Quotes;

public sealed class PhaseTriggerTests
{
    /// <summary>Common practice, no source: the result is the highest of the rooms, or the mean of two devices side by side, and is
    /// held against the level as it is reported.</summary>
    [Theory]
    [InlineData(0.8, false)]
    [InlineData(4.1, true)]
    [InlineData(4.0, true)]
    [InlineData(3.95, true)]
    [InlineData(3.949, false)]
    [InlineData(0, false)]
    public void Four_picocuries_open_it_as_they_are_reported(double pCiL, bool opens) =>
        Assert.Equal(opens, PhaseTrigger.IsReached(new QuotePhase { Level = 4.0m }, (decimal)pCiL));

    /// <summary>3.8 and 4.1 side by side are 3.95, reported as 4.0.</summary>
    [Fact]
    public void The_mean_of_two_devices_side_by_side_counts() =>
        Assert.True(PhaseTrigger.IsReached(new QuotePhase { Level = 4.0m }, RadonConcentration.Average([RadonConcentration.FromPciPerL(3.8m), RadonConcentration.FromPciPerL(4.1m)]).PciPerL));

    /// <summary>1 pCi/L is 37 Bq/m³ (1 Ci = 3.7e10 Bq, NIST SP 811): 2.7 pCi/L are 99.9, reported as 100; 147.5 are reported as 148.</summary>
    [Theory]
    [InlineData(100, 2.7, true)]
    [InlineData(100, 2.68, false)]
    [InlineData(148, 4.0, true)]
    [InlineData(148, 3.9864865, true)]
    [InlineData(148, 3.98, false)]
    public void The_level_may_be_agreed_in_becquerels(int level, double pCiL, bool opens) =>
        Assert.Equal(opens, PhaseTrigger.IsReached(new QuotePhase { Level = level, Unit = RadonUnit.BqPerM3 }, (decimal)pCiL));

    [Fact]
    public void What_is_agreed_is_said_in_words_with_its_price_and_tax() => Assert.Equal(
        "Only if the test after the work shows 4.0 pCi/L or more, until Jan 31, 2027: A second pit. Price $600.00 and $42.00 sales tax, together $642.00. If the result is lower, or that day passes, nothing more is done and nothing more is owed.",
        PhaseTrigger.WordsOf(new QuotePhase { Level = 4, Scope = "A second pit.", Price = Money.FromDollars(600), Taxable = true, ValidUntil = new DateOnly(2027, 1, 31) }, 7));
}
