using CsCheck;
using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Engineering.Tests.Piping;

public sealed class PipingTests
{
    private const double Cfm = 4.719474432e-4;
    private const double InWC = 249.08891;

    /// <summary>Source: textbook value of Colebrook's equation at Re 1e5, ε/D 1e-4.</summary>
    [Fact]
    public void Colebrook_at_1e5_and_1e_4_is_0_018514() => Assert.Equal(0.018514, Friction.Factor(1e5, 1e-4), 2e-6);

    /// <summary>Source: White / Moody chart for smooth pipe, from memory; tolerance 0.5 %.</summary>
    [Theory]
    [InlineData(4e3, 0.0399)]
    [InlineData(1e4, 0.0309)]
    [InlineData(1e5, 0.0180)]
    [InlineData(1e6, 0.0116)]
    public void Smooth_pipe_follows_the_Moody_chart(double reynolds, double expected) => Assert.Equal(1, Friction.Factor(reynolds, 0) / expected, 5e-3);

    /// <summary>Source: Cengel and Cimbala, Fluid Mechanics, Ex. 8–4 (air at 35 °C in smooth plastic duct), tolerance 1 %.</summary>
    [Fact]
    public void Cengel_example_8_4_loses_20_m_of_air()
    {
        var duct = new PipeSize("duct", "duct", 0.267, Math.PI * 0.267 * 0.267 / 4, 0.267, 0);
        Assert.Equal(1, duct.VelocityMPerS(0.35) / 6.24, 1e-2);
        Assert.Equal(0.0180, Friction.Factor(1.145 * duct.VelocityMPerS(0.35) * 0.267 / 1.895e-5, 0), 1e-4);
        Assert.Equal(1, new RoutePiece(PieceKind.Pipe, duct, 150).LossPa(0.35, 1.145, 1.895e-5) / (20 * 1.145 * 9.81), 1e-2);
    }

    /// <summary>Source: Darcy–Weisbach and Colebrook, standard air, computed with a general-purpose fluids library; tolerance 1 %.</summary>
    [Theory]
    [InlineData("3in", 80, 1.294)]
    [InlineData("4in", 60, 0.2133)]
    [InlineData("2in", 40, 2.497)]
    [InlineData("6in", 150, 0.1525)]
    [InlineData("3in", 20, 0.1136)]
    public void Loss_in_100_ft_of_Schedule_40(string size, double cfm, double inWC) =>
        Assert.Equal(1, new RoutePiece(PieceKind.Pipe, PipeSize.Of(size), 30.48).LossPa(cfm * Cfm, 1.2014, 1.825e-5) / InWC / inWC, 1e-2);

    /// <summary>Source: arithmetic with K from Crane TP-410, from memory: 30 ft of 3 in, three elbows and the mouth at 80 cfm, 0.785 inWC, 2 %.</summary>
    [Fact]
    public void A_small_system_of_3_in_pipe_loses_0_785_inWC()
    {
        var size = PipeSize.Of("3in");
        RoutePiece[] route = [new(PieceKind.Pipe, size, 9.144), new(PieceKind.Elbow90, size, Count: 3), new(PieceKind.Coupling, size, LossK: 1)];
        Assert.Equal(1, route.Sum(p => p.LossPa(80 * Cfm, 1.2014, 1.825e-5)) / InWC / 0.785, 2e-2);
    }

    /// <summary>Source: ANSI/AARST SGM-SF 2017 §6.3.8: 1600 fpm is reached at these flows, tolerance 2 %.</summary>
    [Theory]
    [InlineData("2in", 35)]
    [InlineData("3in", 80)]
    [InlineData("4in", 140)]
    [InlineData("6in", 315)]
    public void Noise_begins_at_the_published_flows(string size, double cfm)
    {
        Assert.Equal(1, Velocity.NominalMPerS(PipeSize.Of(size), cfm * Cfm) / Velocity.NoisyMPerS, 2e-2);
        Assert.Equal(VelocityFlag.Noisy, Velocity.FlagOf(PipeSize.Of(size), cfm * Cfm));
        Assert.Equal(VelocityFlag.Fine, Velocity.FlagOf(PipeSize.Of(size), 0.9 * cfm * Cfm));
        Assert.Equal(VelocityFlag.TooFast, Velocity.FlagOf(PipeSize.Of(size), 1.26 * cfm * Cfm));
    }

    /// <summary>Source: ASTM D1785: outer diameter less twice the least wall.</summary>
    [Theory]
    [InlineData("2in", 2.067)]
    [InlineData("3in", 3.068)]
    [InlineData("4in", 4.026)]
    [InlineData("6in", 6.065)]
    public void Schedule_40_has_the_standard_bore(string size, double inches) => Assert.Equal(inches, PipeSize.Of(size).HydraulicDiameterM / 0.0254, 6);

    [Fact]
    public void More_flow_always_loses_more() => Gen.Double[0.001, 0.2].Select(Gen.Double[1.0001, 2], Gen.Int[0, PipeSize.All.Count - 1])
        .Sample((flow, more, i) =>
        {
            var pipe = new RoutePiece(PieceKind.Pipe, PipeSize.All[i], 10);
            return pipe.LossPa(flow * more, 1.2, 1.8e-5) > pipe.LossPa(flow, 1.2, 1.8e-5);
        });

    [Fact]
    public void Friction_is_continuous_where_its_laws_meet()
    {
        foreach (var at in new[] { Friction.LaminarUpTo, Friction.TurbulentFrom })
            Assert.Equal(Friction.Factor(at * (1 - 1e-9), 1e-4), Friction.Factor(at * (1 + 1e-9), 1e-4), 1e-8);
    }
}
