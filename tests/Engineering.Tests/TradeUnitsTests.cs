using CsCheck;

namespace MitigationOffice.Engineering.Tests;

public sealed class TradeUnitsTests
{
    /// <summary>Source: NIST SP 811: one inch of water, conventional, is 2.490 889 E+02 Pa; 1e-5.</summary>
    [Fact]
    public void An_inch_of_water_is_249_08891_Pa() => Assert.Equal(249.08891, TradeUnits.PaPerInWC, 1e-5);

    /// <summary>Source: definition of the foot, 0.3048 m; arithmetic.</summary>
    [Fact]
    public void A_cubic_foot_a_minute_is_4_719474e_4_m3_per_s() => Assert.Equal(4.719474432e-4, TradeUnits.M3PerSPerCfm, 1e-13);

    /// <summary>Source: definition of the foot; arithmetic.</summary>
    [Fact]
    public void A_thousand_fpm_are_5_08_m_per_s() => Assert.Equal(5.08, 1000 * TradeUnits.MPerSPerFpm, 1e-12);

    /// <summary>Source: definition of the Fahrenheit scale.</summary>
    [Theory]
    [InlineData(32, 0)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    public void Fahrenheit_and_Celsius_meet_where_they_must(double f, double c) => Assert.Equal(c, TradeUnits.CelsiusOf(f), 1e-12);

    [Fact]
    public void Fahrenheit_to_Celsius_and_back_is_the_same() => Gen.Double[-100, 300].Sample(f => Math.Abs(TradeUnits.FahrenheitOf(TradeUnits.CelsiusOf(f)) - f) < 1e-10);
}
