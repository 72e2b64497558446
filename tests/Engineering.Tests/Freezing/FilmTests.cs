using CsCheck;
using MitigationOffice.Engineering.Freezing;

namespace MitigationOffice.Engineering.Tests.Freezing;

public class FilmTests
{
    // Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, Ex. 7.4: Nu 40.6 (40.637 to more digits).
    [Fact]
    public void Wind_across_a_pipe_gives_the_textbook_Nusselt_number() =>
        Assert.Equal(40.637, OutsideFilm.CrossFlowNusselt(6071, 0.70), 0.04);

    // Cengel and Ghajar, Heat and Mass Transfer: air at 60 °C film, 8 m/s, D 0.10 m, Re 42 190, Pr 0.7202: Nu 124.
    [Fact]
    public void Wind_across_a_larger_pipe_gives_the_other_textbook_value() =>
        Assert.Equal(124.45, OutsideFilm.CrossFlowNusselt(42_190, 0.7202), 0.5);

    // Incropera and DeWitt, Ex. 9.4 (from memory): Ra 5.073e6, Pr 0.697: Nu 23.3 by this correlation.
    [Fact]
    public void A_pipe_in_still_air_gives_the_textbook_Nusselt_number() =>
        Assert.Equal(23.3, OutsideFilm.StillAirNusselt(5.073e6, 0.697), 23.3 * 0.01);

    [Fact]
    public void Slow_flow_has_the_laminar_Nusselt_number() => Assert.Equal(3.66, InsideFilm.Nusselt(1500, 0.71), 1e-12);

    // Incropera and DeWitt, Ex. 8.6 (from memory): Re 20 384; the book's own correlation (Dittus and Boelter, cooling)
    // gives Nu 57.9. Gnielinski is known to lie about a tenth below it for gases at this Reynolds number.
    [Fact]
    public void Turbulent_flow_lies_near_the_books_older_correlation()
    {
        var book = 0.023 * Math.Pow(20_384, 0.8) * Math.Pow(0.70, 0.3);
        Assert.Equal(57.9, book, 0.1);
        Assert.InRange(InsideFilm.Nusselt(20_384, 0.70) / book, 0.88, 1.0);
    }

    // The same example: 0.050 kg/s from 103 to 77 °C, cp 1010, gives 1313 W; h_i 11.6; with h_o 6 the wall is 50.7 °C.
    [Fact]
    public void The_hot_duct_of_the_textbook_comes_out()
    {
        Assert.Equal(1313, 0.050 * 1010 * (103 - 77), 13.0);
        var inside = InsideFilm.CoefficientWPerM2K(57.9, 0.030, 0.15);
        Assert.Equal(11.6, inside, 0.116);
        Assert.Equal(50.7, 77 * (1 / 6.0) / (1 / 6.0 + 1 / inside), 0.507);
    }

    // ln(OD/ID)/(2πk) with k 0.17 W/(m·K) (EN 12524 design value) and ASTM D1785 diameters.
    [Theory]
    [InlineData(4.500, 4.026, 0.1042)]
    [InlineData(3.500, 3.068, 0.1233)]
    public void The_wall_of_PVC_pipe_has_its_resistance(double outerIn, double innerIn, double expected) =>
        Assert.Equal(expected, PipeWall.ResistanceMKPerW(innerIn * 0.0254, outerIn * 0.0254, PipeWall.PvcConductivityWPerMK), expected * 0.002);

    // Arithmetic: 1 ft²·°F·h/Btu = 0.17611 m²·K/W, so R 4 at k 0.035 is 24.7 mm.
    [Fact]
    public void The_R_value_on_the_package_becomes_a_thickness() => Assert.Equal(0.02466, PipeWall.ThicknessM(4, 0.035), 1e-5);

    // Stefan–Boltzmann with emissivity 0.90 at 0 °C: 4·0.9·5.670374e-8·273.15³ = 4.160 (arithmetic).
    [Fact]
    public void Long_waves_carry_about_four_watts_per_square_metre_and_kelvin() =>
        Assert.Equal(4.160, OutsideFilm.LongWaveWPerM2K(0, 0), 0.001);

    // Swinbank (1963), from memory: 0.0552·273.15^1.5 = 249.2 K.
    [Fact]
    public void A_clear_sky_is_some_twenty_four_kelvin_colder_than_freezing_air() =>
        Assert.Equal(-23.95, OutsideFilm.ClearSkyC(0), 0.01);

    [Fact]
    public void An_ice_sleeve_leaves_the_square_of_the_free_bore()
    {
        Assert.Equal(0.814, IceSleeve.OpenShare(0.005, 0.10226), 0.0005);
        Assert.Equal(0.003515, IceSleeve.ThicknessM(1, 917, 0.10226), 1e-6);
    }

    [Fact]
    public void Clear_ice_conducts_as_clear_ice_and_airy_ice_less()
    {
        Assert.Equal(2.22, IceSleeve.ConductivityWPerMK(917), 1e-9);
        Assert.InRange(IceSleeve.ConductivityWPerMK(300), 0.05, 0.5);
    }

    [Fact]
    public void What_lies_out_of_range_is_refused_with_value_and_range()
    {
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => InsideFilm.Nusselt(2e6, 0.7));
        Assert.Contains("2000000", refused.Message, StringComparison.Ordinal);
        Assert.Contains("1000000", refused.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => OutsideFilm.ClearSkyC(51));
        Assert.Throws<ArgumentOutOfRangeException>(() => PipeWall.ResistanceMKPerW(0.2, 0.1, 0.17));
        Assert.Throws<ArgumentOutOfRangeException>(() => IceSleeve.OpenShare(0.06, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => InsideFilm.Nusselt(double.NaN, 0.7));
    }

    [Fact]
    public void More_turbulence_always_carries_more_heat_inside() =>
        Gen.Select(Gen.Double[10, 9e5], Gen.Double[1.0001, 1.1], Gen.Double[0.6, 1]).Sample((reynolds, more, prandtl) =>
            InsideFilm.Nusselt(reynolds * more, prandtl) >= InsideFilm.Nusselt(reynolds, prandtl));

    [Fact]
    public void More_wind_always_carries_more_heat_outside() =>
        Gen.Select(Gen.Double[1, 1e6], Gen.Double[1.001, 2]).Sample((reynolds, more) =>
            OutsideFilm.CrossFlowNusselt(reynolds * more, 0.71) > OutsideFilm.CrossFlowNusselt(reynolds, 0.71));

    [Fact]
    public void Mass_to_thickness_to_open_share_goes_round() =>
        Gen.Select(Gen.Double[0.03, 0.4], Gen.Double[200, 917], Gen.Double[0, 0.99]).Sample((bore, density, filled) =>
        {
            var mass = filled * density * Math.PI * bore * bore / 4;
            var open = IceSleeve.OpenShare(IceSleeve.ThicknessM(mass, density, bore), bore);
            Assert.Equal(1 - filled, open, 1e-9);
        });
}
