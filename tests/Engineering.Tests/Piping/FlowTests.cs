using CsCheck;
using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Engineering.Tests.Piping;

/// <summary>Published and computed pipe-flow cases beside those of <see cref="PipingTests"/>.</summary>
public sealed class FlowTests
{
    private const double Cfm = 4.719474432e-4;
    private const double InWC = 249.08891;

    /// <summary>Source: Darcy–Weisbach and Colebrook on smooth pipe, standard air, computed with the general-purpose fluids library; tolerance 1 %.</summary>
    [Theory]
    [InlineData(20, 0.739, 0.1136, 0.0314, 0.0045)]
    [InlineData(40, 2.497, 0.3811, 0.1048, 0.0150)]
    [InlineData(60, 5.118, 0.7780, 0.2133, 0.0304)]
    [InlineData(80, 8.536, 1.294, 0.3541, 0.0503)]
    [InlineData(100, 12.71, 1.923, 0.5255, 0.0745)]
    [InlineData(120, 17.60, 2.660, 0.7260, 0.1028)]
    [InlineData(150, 26.26, 3.960, 1.080, 0.1525)]
    public void The_friction_table_of_four_sizes(double cfm, double two, double three, double four, double six)
    {
        foreach (var (size, expected) in new[] { ("2in", two), ("3in", three), ("4in", four), ("6in", six) })
        {
            // Half a unit of the table's last digit comes on top of the 1 %; our wall of 1.5 µm adds 0.1 to 1.2 %.
            var loss = new RoutePiece(PieceKind.Pipe, PipeSize.Of(size), 30.48).LossPa(cfm * Cfm, 1.2014, 1.825e-5) / InWC;
            Assert.Equal(expected, loss, 0.013 * expected + 0.00005);
        }
    }

    /// <summary>Source: Cengel and Cimbala, Fluid Mechanics, Ex. 8–5: 300 m of the duct of Ex. 8–4 with the same loss carries 0.24 m³/s, 31 % less; 1.5 %.</summary>
    [Fact]
    public void Cengel_example_8_5_carries_0_24_m3_per_s()
    {
        var duct = new RoutePiece(PieceKind.Pipe, new("duct", "duct", 0.267, Math.PI * 0.267 * 0.267 / 4, 0.267, 0), 300);
        var loss = (duct with { LengthM = 150 }).LossPa(0.35, 1.145, 1.895e-5);
        var (low, high) = (0.01, 1.0);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            if (duct.LossPa(middle, 1.145, 1.895e-5) < loss) low = middle;
            else high = middle;
        }

        Assert.Equal(1, low / 0.24, 1.5e-2);
        Assert.Equal(0.31, 1 - low / 0.35, 0.015);
    }

    /// <summary>Source: Cengel and Cimbala, Ex. 8–3 (water, 0.05 m stainless steel, ε 0.002 mm): Re 134 300, f 0.0172; the US version Re 126 400, ε/D 4.2e-5, f 0.0174, from memory; 1 %.</summary>
    [Theory]
    [InlineData(134_300, 0.002 / 50, 0.0172)]
    [InlineData(126_400, 7e-6 * 12 / 2, 0.0174)]
    public void Cengel_example_8_3_friction_factor(double reynolds, double roughness, double expected) =>
        Assert.Equal(1, Friction.Factor(reynolds, roughness) / expected, 1e-2);

    /// <summary>Source: Crane TP-410 Ex. 7.1 as published: Re 100 600, f 0.0179; 1.5 %.</summary>
    [Fact]
    public void Crane_example_7_1_friction_factor() => Assert.Equal(1, Friction.Factor(100_600, 0) / 0.0179, 1.5e-2);

    /// <summary>Source: Cengel and Cimbala, Ex. 8–5: Re 68 300, f 0.0195; 1 %.</summary>
    [Fact]
    public void Cengel_example_8_5_friction_factor() => Assert.Equal(1, Friction.Factor(68_300, 0) / 0.0195, 1e-2);

    /// <summary>Source: arithmetic: 80 cfm in a bore of 3.068 in is 1558 fpm; 0.1 %.</summary>
    [Fact]
    public void Eighty_cfm_in_3_in_is_1558_fpm_in_the_real_bore() =>
        Assert.Equal(1, PipeSize.Of("3in").VelocityMPerS(80 * Cfm) / 0.00508 / 1558, 1e-3);

    /// <summary>Source: ANSI/AARST SGM-SF 2017 §6.3.8 (2000 fpm) and arithmetic on the real bore; 0.2 %.</summary>
    [Theory]
    [InlineData("3in", 102.7)]
    [InlineData("4in", 176.8)]
    public void Two_thousand_fpm_in_the_real_bore(string size, double cfm) =>
        Assert.Equal(1, PipeSize.Of(size).VelocityMPerS(cfm * Cfm) / Velocity.TooFastMPerS, 2e-3);

    /// <summary>Source: ANSI/AARST SGM-SF 2017 §6.3.8: downspouts count as the nominal pipe beside them in its list; by their area they are a little roomier.</summary>
    [Theory]
    [InlineData("2x3in", 35)]
    [InlineData("3x4in", 80)]
    [InlineData("4x5in", 140)]
    public void A_downspout_is_no_worse_than_the_pipe_it_stands_for(string size, double cfm) =>
        Assert.True(Velocity.NominalMPerS(PipeSize.Of(size), cfm * Cfm) < 1.02 * Velocity.NoisyMPerS);

    /// <summary>Source: velocity pressure of standard air, 4005 fpm → 1.00 inWC, from memory; 0.3 %.</summary>
    [Fact]
    public void A_velocity_head_at_4005_fpm_is_1_inWC()
    {
        var size = PipeSize.Of("4in");
        var head = new RoutePiece(PieceKind.Coupling, size, LossK: 1).LossPa(4005 * 0.00508 * size.AreaM2, 1.2014, 1.825e-5);
        Assert.Equal(1, head / InWC, 3e-3);
    }

    /// <summary>Source: Crane TP-410, L/D 30 for a 90° elbow, from memory: 7.7 ft of 3 in and 10.1 ft of 4 in; arithmetic.</summary>
    [Theory]
    [InlineData("3in", 7.7)]
    [InlineData("4in", 10.1)]
    public void An_elbow_is_thirty_diameters_of_rough_pipe(string size, double feet)
    {
        Assert.Equal(feet, 30 * PipeSize.Of(size).HydraulicDiameterM / 0.3048, 0.05);
        Assert.Equal(30 * 0.018, new RoutePiece(PieceKind.Elbow90, PipeSize.Of(size)).K, 1e-9);
    }

    /// <summary>Source: Hagen–Poiseuille: 128·μ·L·Q/(π·D⁴), arithmetic.</summary>
    [Fact]
    public void Slow_air_follows_Poiseuille() => Gen.Double[1e-9, 5e-4].Sample(flow =>
    {
        var size = PipeSize.Of("3in");
        var exact = 128 * 1.825e-5 * 10 * flow / (Math.PI * Math.Pow(size.HydraulicDiameterM, 4));
        return Math.Abs(new RoutePiece(PieceKind.Pipe, size, 10).LossPa(flow, 1.2, 1.825e-5) / exact - 1) < 1e-9;
    });

    [Fact]
    public void The_friction_factor_solves_Colebrook() => Gen.Double[3.61, 8].Select(Gen.Double[0, 0.05]).Sample((logRe, roughness) =>
    {
        var reynolds = Math.Pow(10, logRe);
        var x = 1 / Math.Sqrt(Friction.Factor(reynolds, roughness));
        return Math.Abs(x + 2 * Math.Log10(roughness / 3.7 + 2.51 * x / reynolds)) < 1e-10 * x;
    });

    [Fact]
    public void Rougher_pipe_never_has_less_friction() => Gen.Double[2.5, 8].Select(Gen.Double[0, 0.02], Gen.Double[0.001, 0.02]).Sample((logRe, rough, more) =>
        Friction.Factor(Math.Pow(10, logRe), rough + more) >= Friction.Factor(Math.Pow(10, logRe), rough));

    [Fact]
    public void Loss_never_falls_as_flow_rises_through_the_transition() => Gen.Double[1000, 6000].Select(Gen.Double[1.0001, 1.1]).Sample((reynolds, more) =>
        Friction.Factor(reynolds * more, 0) * more * more > Friction.Factor(reynolds, 0));

    [Fact]
    public void Twice_the_pipe_is_twice_the_loss() => Gen.Double[1e-4, 0.2].Select(Gen.Double[0.1, 100]).Sample((flow, length) =>
    {
        double Loss(double m, int count) => new RoutePiece(PieceKind.Pipe, PipeSize.Of("4in"), m, count).LossPa(flow, 1.2, 1.8e-5);
        return Math.Abs(Loss(2 * length, 1) / Loss(length, 1) - 2) < 1e-9 && Math.Abs(Loss(length, 2) / Loss(length, 1) - 2) < 1e-9;
    });

    [Fact]
    public void A_larger_size_of_the_same_kind_loses_less() => Gen.Int[0, PipeSize.All.Count - 1].Select(Gen.Double[1e-3, 0.2]).Sample((i, flow) =>
        PipeSize.All[i].Larger() is not { } larger
        || new RoutePiece(PieceKind.Pipe, larger, 10).LossPa(flow, 1.2, 1.8e-5) < new RoutePiece(PieceKind.Pipe, PipeSize.All[i], 10).LossPa(flow, 1.2, 1.8e-5));

    [Theory]
    [InlineData(PieceKind.LongElbow90, 0.29)]
    [InlineData(PieceKind.Elbow45, 0.29)]
    [InlineData(PieceKind.Tee, 1.08)]
    [InlineData(PieceKind.Coupling, 0.04)]
    [InlineData(PieceKind.Reducer, 0.10)]
    [InlineData(PieceKind.Pipe, 0)]
    [InlineData(PieceKind.Fan, 0)]
    public void Handbook_losses_of_fittings_pinned(PieceKind kind, double k)
    {
        Assert.Equal(k, new RoutePiece(kind, PipeSize.Of("3in")).K, 1e-9);
        Assert.Equal(2.5, new RoutePiece(kind, PipeSize.Of("3in"), LossK: 2.5).K);
    }

    [Fact]
    public void No_flow_loses_nothing_and_too_much_is_refused()
    {
        var pipe = new RoutePiece(PieceKind.Pipe, PipeSize.Of("3in"), 10);
        Assert.Equal(0, pipe.LossPa(0, 1.2, 1.8e-5));
        Assert.Contains("5 m³/s", Assert.Throws<ArgumentOutOfRangeException>(() => pipe.LossPa(6, 1.2, 1.8e-5)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 0, "reynolds is 0")]
    [InlineData(1e5, 0.2, "relativeRoughness is 0.2")]
    [InlineData(double.NaN, 0, "reynolds is NaN")]
    public void Friction_out_of_range_is_refused(double reynolds, double roughness, string words) =>
        Assert.Contains(words, Assert.Throws<ArgumentOutOfRangeException>(() => Friction.Factor(reynolds, roughness)).Message, StringComparison.Ordinal);

    [Fact]
    public void An_unknown_size_is_refused_with_the_sizes_there_are() =>
        Assert.Contains("1.5in, 2in, 3in", Assert.Throws<ArgumentException>(() => PipeSize.Of("7in")).Message, StringComparison.Ordinal);

    [Fact]
    public void The_largest_of_each_kind_has_no_larger()
    {
        Assert.Equal("4in", PipeSize.Of("3in").Larger()!.Key);
        Assert.Equal("4in-thin", PipeSize.Of("3in-thin").Larger()!.Key);
        Assert.Equal("3x4in", PipeSize.Of("2x3in").Larger()!.Key);
        Assert.All(["6in", "4in-thin", "5x6in"], key => Assert.Null(PipeSize.Of(key).Larger()));
    }
}
