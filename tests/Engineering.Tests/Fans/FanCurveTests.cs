using CsCheck;
using MitigationOffice.Engineering.Fans;

namespace MitigationOffice.Engineering.Tests.Fans;

public sealed class FanCurveTests
{
    private static readonly FanCurve Straight = new([new(0, 2.0, 10), new(50, 1.5, 12), new(100, 1.0, 14), new(200, 0, 15)]);

    /// <summary>Source: arithmetic: P = 2 − 0.01·Q meets 1e-4·Q² at Q = 100, P = 1.</summary>
    [Fact]
    public void A_straight_fan_meets_a_square_system_where_the_quadratic_says()
    {
        var (low, high) = (0.0, 200.0);
        for (var i = 0; i < 100; i++)
        {
            var middle = (low + high) / 2;
            if (Straight.PressurePa(middle) > 1e-4 * middle * middle) low = middle;
            else high = middle;
        }

        Assert.Equal(100, low, 1e-6);
        Assert.Equal(1.0, Straight.PressurePa(low), 1e-6);
    }

    /// <summary>Source: affinity laws, from memory: speed × 0.9 → flow × 0.9, pressure × 0.81, power × 0.729.</summary>
    [Fact]
    public void At_nine_tenths_speed_the_affinity_laws_hold()
    {
        var slow = Straight.AtSpeed(0.9);
        Assert.Equal(0.81, slow.PressurePa(90), 1e-9);
        Assert.Equal(0.729 * 14, slow.WattsAt(90), 1e-9);
    }

    [Fact]
    public void Nothing_is_guessed_beyond_the_points()
    {
        var refused = Assert.Throws<OffFanCurveException>(() => Straight.PressurePa(201));
        Assert.Contains("off the fan's curve", refused.Message, StringComparison.Ordinal);
        Assert.Null(Straight.FlowAt(2.5));
    }

    [Theory]
    [InlineData(1.0, 1.2, "must fall")]
    [InlineData(1.0, 1.0, "must fall")]
    [InlineData(-1.0, 0.5, "negative")]
    public void A_curve_that_is_none_is_refused_in_words(double second, double third, string words)
    {
        var refused = Assert.Throws<ArgumentException>(() => new FanCurve([new(0, 3, 10), new(1, second, 10), new(2, third, 10)]));
        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_curve_falls_everywhere_between_its_points() =>
        Gen.Select(Gen.Double[0.5, 50].Array[3, 9], Gen.Double[0.001, 0.02].Array[9]).Sample((drops, widths) =>
        {
            var (flow, pressure) = (0.0, drops.Sum());
            var points = new List<FanPoint>();
            for (var i = 0; i < drops.Length; i++)
            {
                points.Add(new(flow, pressure, 20));
                flow += widths[i];
                pressure -= drops[i];
            }

            var curve = new FanCurve(points);
            var (last, falls) = (double.PositiveInfinity, true);
            for (var i = 0; i <= 200; i++)
            {
                var p = curve.PressurePa(curve.LeastFlowM3PerS + (curve.GreatestFlowM3PerS - curve.LeastFlowM3PerS) * i / 200.0 * (1 - 1e-12));
                falls &= p <= last + 1e-9;
                last = p;
            }

            return falls;
        });

    [Fact]
    public void Flow_read_off_a_pressure_gives_that_pressure_back() => Gen.Double[0.01, 1.99].Sample(pressure =>
        Math.Abs(Straight.PressurePa(Straight.FlowAt(pressure)!.Value) - pressure) < 1e-6);
}
