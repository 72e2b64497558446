using System.Globalization;
using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Radon;

public class RadonConcentrationTests
{
    // Source: 1 Ci = 3.7e10 Bq, NIST SP 811; 100 Bq/m³ printed as 2.7 pCi/L in ANSI/AARST MAH 2019, 7.1; the rest arithmetic.
    [Theory]
    [InlineData("4", "148")]
    [InlineData("2", "74")]
    [InlineData("20", "740")]
    [InlineData("0", "0")]
    public void Picocuries_turn_into_becquerels(string pciPerL, string bqPerM3) =>
        Assert.Equal(D(bqPerM3), RadonConcentration.FromPciPerL(D(pciPerL)).BqPerM3);

    // Source: ANSI/AARST MAH 2019, 7.1 (100 → 2.7); arithmetic (200 → 5.405).
    [Theory]
    [InlineData("100", "2.7027", "2.7 pCi/L")]
    [InlineData("200", "5.4054", "5.4 pCi/L")]
    public void Becquerels_turn_into_picocuries(string bqPerM3, string pciPerL, string shown)
    {
        var result = RadonConcentration.FromBqPerM3(D(bqPerM3));
        Assert.Equal(D(pciPerL), Math.Round(result.PciPerL, 4, MidpointRounding.AwayFromZero));
        Assert.Equal(shown, result.ToString());
    }

    // Source: ANSI/AARST MAH 2019, 8.5.2(b): an average of 3.95 is reported as 4.0.
    [Theory]
    [InlineData("3.9", "4.0")]
    [InlineData("3.8", "4.1")]
    public void An_average_of_three_ninety_five_shows_four(string first, string second)
    {
        var average = RadonConcentration.Average([PciPerL(first), PciPerL(second)]);
        Assert.Equal(3.95m, average.PciPerL);
        Assert.Equal(4.0m, average.ReportedPciPerL);
        Assert.Equal("4.0 pCi/L", average.ToString());
    }

    [Fact]
    public void The_same_average_in_binary_would_have_shown_three_point_nine() =>
        Assert.Equal("3.9", ((3.8 + 4.1) / 2).ToString("F1", CultureInfo.InvariantCulture));

    // Source: ANSI/AARST MAH 2019, 7.1: results under 2.0 are near what a device measures.
    [Theory]
    [InlineData("1.9", "1.9 pCi/L (near what the device can measure)")]
    [InlineData("1.94", "1.9 pCi/L (near what the device can measure)")]
    [InlineData("1.95", "2.0 pCi/L")]
    [InlineData("2.0", "2.0 pCi/L")]
    [InlineData("0", "0.0 pCi/L (near what the device can measure)")]
    public void A_low_result_is_shown_with_its_note(string pciPerL, string shown) =>
        Assert.Equal(shown, PciPerL(pciPerL).Display());

    [Fact]
    public void Becquerels_are_shown_whole()
    {
        Assert.Equal("148 Bq/m³", PciPerL("4").ToBqText());
        Assert.Equal("100 Bq/m³", PciPerL("2.7").ToBqText());
        Assert.Equal("19 Bq/m³", PciPerL("0.5").ToBqText());
    }

    [Fact]
    public void The_decimal_point_does_not_follow_the_reader()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("") { NumberFormat = { NumberDecimalSeparator = "," } };
            Assert.Equal("3.9 pCi/L", PciPerL("3.9").Display());
            var refused = Assert.Throws<ArgumentOutOfRangeException>(() => RadonConcentration.FromPciPerL(-0.5m));
            Assert.Contains("is -0.5 pCi/L; it must lie from 0 to 100000 pCi/L", refused.Message, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("-0.1")]
    [InlineData("100000.1")]
    public void A_concentration_out_of_range_is_refused(string pciPerL)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PciPerL(pciPerL));
        Assert.Throws<ArgumentOutOfRangeException>(() => RadonConcentration.FromBqPerM3(D(pciPerL) * 37m));
    }

    [Fact]
    public void The_ends_of_the_range_are_accepted()
    {
        Assert.Equal(100_000m, PciPerL("100000").PciPerL);
        Assert.Equal(100_000m, RadonConcentration.FromBqPerM3(3_700_000m).PciPerL);
        Assert.Equal(0m, default(RadonConcentration).PciPerL);
    }

    [Fact]
    public void An_average_of_nothing_is_refused()
    {
        var refused = Assert.Throws<ArgumentException>(() => RadonConcentration.Average([]));
        Assert.Contains("at least one result", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Concentrations_compare_by_their_unrounded_value()
    {
        var (lower, higher) = (PciPerL("3.94"), PciPerL("3.95"));
        Assert.True(lower < higher && lower <= higher && higher > lower && higher >= lower);
        Assert.False(lower > higher || lower >= higher || higher < lower || higher <= lower);
        Assert.True(lower <= PciPerL("3.94") && lower >= PciPerL("3.94"));
        Assert.False(lower < PciPerL("3.94") || lower > PciPerL("3.94"));
        Assert.Equal(-1, Math.Sign(lower.CompareTo(higher)));
    }

    // Source: EPA 402/K-12/002 (4, 2 to 4); the edges by the reported value, ANSI/AARST MAH 2019, 8.5.2(b).
    [Theory]
    [InlineData("4.0", EpaLevel.Fix)]
    [InlineData("3.95", EpaLevel.Fix)]
    [InlineData("3.94", EpaLevel.ConsiderFixing)]
    [InlineData("2.0", EpaLevel.ConsiderFixing)]
    [InlineData("1.95", EpaLevel.ConsiderFixing)]
    [InlineData("1.94", EpaLevel.BelowTwo)]
    [InlineData("25", EpaLevel.Fix)]
    public void The_EPA_level_follows_the_reported_value(string pciPerL, EpaLevel level) =>
        Assert.Equal(level, RadonLevels.EpaLevelOf(PciPerL(pciPerL)));

    // Source: WHO Handbook on Indoor Radon 2009: 100 as given in ANSI/AARST MAH 2019, 7.1; 300 from memory.
    [Theory]
    [InlineData("100", WhoLevel.WithinReference)]
    [InlineData("100.4", WhoLevel.WithinReference)]
    [InlineData("100.5", WhoLevel.AboveReference)]
    [InlineData("300", WhoLevel.AboveReference)]
    [InlineData("301", WhoLevel.AboveUpperLimit)]
    public void The_WHO_level_follows_whole_becquerels(string bqPerM3, WhoLevel level) =>
        Assert.Equal(level, RadonLevels.WhoLevelOf(RadonConcentration.FromBqPerM3(D(bqPerM3))));
}
