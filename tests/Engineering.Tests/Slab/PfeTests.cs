using CsCheck;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Slab;

public sealed class PfeTests
{
    private const double FtToM = 0.3048;

    /// <summary>Source: hydrostatics, arithmetic; 0.5 %.</summary>
    [Theory]
    [InlineData(20, 16, 5.98)]
    [InlineData(0, 16, 8.74)]
    [InlineData(-20, 16, 11.74)]
    [InlineData(0, 8, 4.37)]
    public void Stack_effect_to_70_F_indoors(double outdoorF, double heightFt, double pa) =>
        Assert.Equal(1, StackEffect.PressurePa((outdoorF - 32) / 1.8, (70 - 32) / 1.8, heightFt * FtToM) / pa, 5e-3);

    [Fact]
    public void Exponent_and_conductance_are_recovered_from_clean_readings() =>
        Gen.Select(Gen.Double[0.5, 1], Gen.Double[1e-5, 1e-3], Gen.Double[20, 60], Gen.Double[1.5, 6]).Sample((n, g, p, more) =>
        {
            PfeSetting At(double pit) => new("vacuum", pit, g * Math.Pow(pit, n));
            var soil = PfeAnalysis.Of(new PfeTest([At(p), At(p * more)], [new("1", null, 0, [-1.0, -2.0])], 0, 20)).Soil;
            return Math.Abs(soil.Exponent - n) < 1e-9 && Math.Abs(soil.ConductanceG / g - 1) < 1e-9 && !soil.ExponentAssumed;
        });

    [Fact]
    public void One_setting_assumes_laminar_soil_and_says_so()
    {
        var found = PfeAnalysis.Of(new PfeTest([new("vacuum", 200, 0.02)], [new("1", 3, 0.4, [-5.6])], 0, 20));
        Assert.Equal(1, found.Soil.Exponent);
        Assert.Contains("Soil exponent assumed 1: only one setting gave a flow.", found.Assumptions);
        Assert.Equal((0.4 + 5.6) / 200, found.Holes[0].Ratio, 12);
    }

    [Fact]
    public void Watts_that_contradict_the_curve_are_named()
    {
        var curve = new Engineering.Fans.FanCurve([new(0, 300, 15), new(0.02, 200, 18), new(0.04, 20, 20)]);
        var found = PfeAnalysis.Of(new PfeTest([new("the 18 W fan", 200, null, 42, curve)], [new("1", 3, 0, [-5.0])], 0, 20));
        Assert.Contains(found.Warnings, w => w.StartsWith("the 18 W fan: 42 W were measured", StringComparison.Ordinal));
        Assert.Equal(0.02, found.Flows[0].FlowM3PerS, 6);
        Assert.True(found.Flows[0].LowM3PerS < 0.02 && found.Flows[0].HighM3PerS > 0.02);
    }

    [Fact]
    public void A_test_without_any_flow_says_what_to_do()
    {
        var refused = Assert.Throws<ArgumentException>(() => PfeAnalysis.Of(new PfeTest([new("vacuum", 200)], [new("1", 3, 0, [-5.0])], 0, 20)));
        Assert.Contains("measure it, or say which fan", refused.Message, StringComparison.Ordinal);
    }
}
