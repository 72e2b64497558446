using CsCheck;
using MathNet.Numerics.Interpolation;
using MitigationOffice.Engineering.Fans;

namespace MitigationOffice.Engineering.Tests.Fans;

/// <summary>The curve between its points against the shape-preserving cubic of MathNet.Numerics 5.0.0.</summary>
public sealed class CubicReferenceTests
{
    /// <summary>Source: MathNet.Numerics CubicSpline.InterpolatePchip. Inner intervals only: at the ends the two take different slopes, ours that of the chord.</summary>
    [Fact]
    public void Inner_intervals_are_those_of_MathNet() => Gen.Double[0.6, 1.6].Array[7].Select(Gen.Double[0.6, 1.6].Array[7], Gen.Double[0, 1]).Sample((widths, drops, along) =>
    {
        var (flow, pressure) = (new double[7], new double[7]);
        for (var i = 1; i < 7; i++) flow[i] = flow[i - 1] + 0.01 * widths[i];
        for (var i = 5; i >= 0; i--) pressure[i] = pressure[i + 1] + 50 * drops[i] * widths[i + 1];
        var curve = new FanCurve(flow.Zip(pressure, (q, p) => new FanPoint(q, p, 20 + p)));
        var reference = CubicSpline.InterpolatePchip(flow, pressure);
        var at = flow[1] + along * (flow[5] - flow[1]);
        return Math.Abs(curve.PressurePa(at) - reference.Interpolate(at)) < 1e-8 && Math.Abs(curve.WattsAt(at) - 20 - reference.Interpolate(at)) < 1e-8;
    });

    /// <summary>Source: Hermite's cubic with the slopes of Fritsch and Carlson worked out by hand: points (0, 9), (1, 8), (3, 0): the middle slope is
    /// (5 + 4)/(5/(−1) + 4/(−4)) = −1.5, the ends −1 and −4; at 2 the value is 4 + (−1.5 + 4)·2/8 = 4.625.</summary>
    [Fact]
    public void A_cubic_worked_out_by_hand()
    {
        var curve = new FanCurve([new(0, 9, 1), new(1, 8, 1), new(3, 0, 1)]);
        Assert.Equal(-1.5, curve.SlopePaSPerM3(1), 1e-12);
        Assert.Equal(4.625, curve.PressurePa(2), 1e-12);
        Assert.Equal(8.5 + (-1 + 1.5) / 8, curve.PressurePa(0.5), 1e-12);
    }

    /// <summary>Source: Fritsch and Carlson's circle: where slopes over chords leave the circle of radius 3 they are drawn back onto it.</summary>
    [Fact]
    public void A_sharp_bend_is_drawn_back_onto_the_circle_of_three()
    {
        var curve = new FanCurve([new(0, 101, 1), new(1, 100, 1), new(2, 0, 1)]);
        var (first, second) = (curve.SlopePaSPerM3(0) / -1, curve.SlopePaSPerM3(1) / -1);
        Assert.True(first * first + second * second <= 9 + 1e-9);
        Assert.Equal(1, first, 1e-12);
        Assert.Equal(2 / (1 + 1 / 100.0), second, 1e-9);
    }

    [Fact]
    public void Power_that_rises_and_falls_is_level_at_its_summit()
    {
        var curve = new FanCurve([new(0, 90, 10), new(1, 80, 20), new(2, 60, 15), new(3, 10, 5)]);
        Assert.Equal(20, curve.WattsAt(1), 1e-12);
        Assert.True(curve.WattsAt(0.99) < 20 && curve.WattsAt(1.01) < 20);
        Assert.Equal(20, curve.WattsAt(1 + 1e-6), 1e-6);
    }
}
