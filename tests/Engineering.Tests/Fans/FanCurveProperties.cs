using CsCheck;
using MitigationOffice.Engineering.Fans;

namespace MitigationOffice.Engineering.Tests.Fans;

public sealed class FanCurveProperties
{
    private static readonly FanCurve Curve = new([new(0, 400, 30), new(0.03, 330, 40), new(0.06, 180, 45), new(0.09, 5, 44)]);

    [Fact]
    public void The_curve_passes_its_points()
    {
        foreach (var point in Curve.Points)
        {
            Assert.Equal(point.StaticPressurePa, Curve.PressurePa(point.FlowM3PerS), 1e-9);
            Assert.Equal(point.Watts, Curve.WattsAt(point.FlowM3PerS), 1e-9);
        }
    }

    [Fact]
    public void Speed_up_and_down_again_is_the_same_fan() => Gen.Double[0.5, 2].Select(Gen.Double[0, 0.09]).Sample((ratio, flow) =>
        Math.Abs(Curve.AtSpeed(ratio).AtSpeed(1 / ratio).PressurePa(Math.Min(flow, 0.0899)) - Curve.PressurePa(Math.Min(flow, 0.0899))) < 1e-6);

    [Fact]
    public void Watts_between_two_points_lie_between_theirs() => Gen.Double[0, 0.03].Sample(flow => Curve.WattsAt(flow) is >= 30 and <= 40);

    /// <summary>Source: arithmetic with the fan laws: at 5280 ft, density ratio 0.854, 1.00 inWC becomes 0.854 inWC at the same flow.</summary>
    [Fact]
    public void A_mile_up_the_fan_gives_854_thousandths() => Gen.Double[0, 0.09].Sample(flow =>
        Math.Abs(Curve.PressurePa(flow, 0.854 * 1.2014) / Curve.PressurePa(flow) - 0.854) < 1e-9 && Math.Abs(Curve.WattsAt(flow, 0.854 * 1.2014) / Curve.WattsAt(flow) - 0.854) < 1e-9);

    [Fact]
    public void The_slope_is_that_of_the_curve() => Gen.Double[0.001, 0.089].Where(flow => Math.Abs(flow % 0.03) > 1e-4 && flow % 0.03 < 0.0299).Sample(flow =>
    {
        var numeric = (Curve.PressurePa(flow + 1e-6) - Curve.PressurePa(flow - 1e-6)) / 2e-6;
        return Math.Abs(Curve.SlopePaSPerM3(flow) - numeric) < 1 + 1e-3 * Math.Abs(numeric);
    });

    [Fact]
    public void A_fan_whose_watts_rise_and_fall_is_taken_as_it_is()
    {
        var humped = new FanCurve([new(0, 300, 20), new(0.02, 250, 30), new(0.04, 150, 30), new(0.06, 10, 25)]);
        Assert.Equal(30, humped.WattsAt(0.03), 1e-9);
        Assert.InRange(humped.WattsAt(0.05), 25, 30);
    }

    [Fact]
    public void Fewer_than_three_points_are_refused() =>
        Assert.Contains("three measured points", Assert.Throws<ArgumentException>(() => new FanCurve([new(0, 2, 1), new(1, 1, 1)])).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(1, 200, 0, "needs its watts")]
    [InlineData(0, 200, 20, "Two of the fan's points stand at the same flow")]
    [InlineData(double.NaN, 200, 20, "negative or missing")]
    [InlineData(1, double.NaN, 20, "negative or missing")]
    [InlineData(1, 200, double.PositiveInfinity, "negative or missing")]
    [InlineData(-1, 200, 20, "negative or missing")]
    public void A_point_that_cannot_be_is_refused_in_words(double flow, double pa, double watts, string words) =>
        Assert.Contains(words, Assert.Throws<ArgumentException>(() => new FanCurve([new(0, 300, 20), new(flow, pa, watts), new(2, 100, 20)])).Message, StringComparison.Ordinal);

    [Fact]
    public void A_speed_out_of_range_is_refused() =>
        Assert.Contains("ratio is 3", Assert.Throws<ArgumentOutOfRangeException>(() => Curve.AtSpeed(3)).Message, StringComparison.Ordinal);

    [Fact]
    public void Off_the_curve_is_an_error_with_a_name_of_its_own()
    {
        Assert.Equal("words", new OffFanCurveException("words").Message);
        Assert.IsType<FormatException>(new OffFanCurveException("words", new FormatException()).InnerException);
        Assert.NotEmpty(new OffFanCurveException().Message);
        Assert.Contains("L/s", Assert.Throws<OffFanCurveException>(() => Curve.SlopePaSPerM3(-0.01)).Message, StringComparison.Ordinal);
    }
}
