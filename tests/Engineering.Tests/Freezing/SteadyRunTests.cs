using CsCheck;
using MitigationOffice.Engineering.Freezing;

namespace MitigationOffice.Engineering.Tests.Freezing;

public class SteadyRunTests
{
    // Closed form: dry air loses heat as exp(−∫U′dx/(ṁc)). U′ is put together here, from the films alone, at each station.
    [Theory]
    [InlineData(50, 4, 6.096)]
    [InlineData(20, 4, 8)]
    [InlineData(5, 1, 3)]
    public void Dry_air_cools_as_the_closed_form_says(double cfm, double wind, double lengthM)
    {
        var run = Runs.FourInch(lengthM, cfm);
        var profile = SteadyRun.At(run, Runs.Dry(12.78) with { WindMPerS = wind }, -17.8);
        var density = 101_325 / (287.05 * (12.78 + 273.15));
        var flow = density * run.FlowM3PerS;
        var exponent = profile.Stations.Select((station, at) =>
            ConductancePerM(run, station, at == 0 ? profile.EntryC : profile.Stations[at - 1].AirC, flow, wind, -17.8)).Sum() * lengthM / profile.Stations.Count / (flow * 1006);
        var expected = -17.8 + (12.78 + 17.8) * Math.Exp(-exponent);
        Assert.Equal(expected + 17.8, profile.ExitC + 17.8, (expected + 17.8) * 0.001);
        Assert.Equal(0, profile.CondensateKgPerDay + profile.FrostKgPerDay, 1e-12);
    }

    private static double ConductancePerM(OutdoorRun run, RunStation station, double air, double flow, double wind, double outdoorC)
    {
        var inside = Math.PI * AirK(air) * InsideFilm.Nusselt(4 * flow / (Math.PI * run.BoreM * AirMu(air)), AirMu(air) * 1006 / AirK(air));
        var outer = run.BoreM + 2 * run.WallM;
        var wall = Math.Log(outer / run.BoreM) / (2 * Math.PI * 0.17);
        var surface = station.WallC + (outdoorC - station.WallC) * wall / (wall + 1 / (Math.PI * outer * 20));
        var outside = Math.PI * outer * OutsideW(surface, outdoorC, wind, outer);
        return 1 / (1 / inside + wall + 1 / outside);
    }

    private static double OutsideW(double surface, double outdoorC, double wind, double outer)
    {
        var film = (surface + outdoorC) / 2;
        var nu = AirMu(film) * 287.05 * (film + 273.15) / 101_325;
        var prandtl = AirMu(film) * 1006 / AirK(film);
        var forced = OutsideFilm.CrossFlowNusselt(wind * outer / nu, prandtl);
        var still = OutsideFilm.StillAirNusselt(9.80665 * (surface - outdoorC) / (film + 273.15) * Math.Pow(outer, 3) * prandtl / (nu * nu), prandtl);
        return Math.Cbrt(Math.Pow(forced, 3) + Math.Pow(still, 3)) * AirK(film) / outer + OutsideFilm.LongWaveWPerM2K(surface, outdoorC);
    }

    private static double AirMu(double c) => 1.458e-6 * Math.Pow(c + 273.15, 1.5) / (c + 273.15 + 110.4);

    private static double AirK(double c) => 2.64638e-3 * Math.Pow(c + 273.15, 1.5) / (c + 273.15 + 245.4 * Math.Pow(10, -12 / (c + 273.15)));

    // Arithmetic on ASHRAE Fundamentals 2017 ch. 1: saturated 55 °F, 50 cfm, cooled to saturated 32 °F: 13.5 kg a day.
    [Fact]
    public void Saturated_air_cooled_to_freezing_gives_up_its_water()
    {
        var run = Runs.FourInch(60, 50);
        var air = Runs.SoilGasOnly(12.778) with { FogCaughtShare = 1 };
        var (cold, mild) = (-5.0, 0.0);
        for (var turn = 0; turn < 30; turn++)
            if (SteadyRun.At(run, air, (cold + mild) / 2).ExitC < 0) cold = (cold + mild) / 2;
            else mild = (cold + mild) / 2;
        var profile = SteadyRun.At(run, air, mild);
        Assert.Equal(0, profile.ExitC, 0.01);
        Assert.Equal(13.5, profile.CondensateKgPerDay + profile.FrostKgPerDay, 13.5 * 0.02);
    }

    // Sensible-only cool-down computed beforehand with an older inside correlation and h_o 25 W/(m²·K): 4 in, 20 ft,
    // 55 °F against 0 °F leaves at 34.1 °F at 50 cfm and 25.4 °F at 20 cfm. Another model, so within 4 °F.
    [Theory]
    [InlineData(50, 34.1)]
    [InlineData(20, 25.4)]
    public void Dry_cool_down_is_near_an_independent_estimate(double cfm, double expectedF)
    {
        var profile = SteadyRun.At(Runs.FourInch(20 * 0.3048, cfm), Runs.Dry(12.778) with { WindMPerS = 4 }, -17.778);
        Assert.InRange(profile.ExitC * 1.8 + 32, expectedF - 4, expectedF + 4);
    }

    [Fact]
    public void Moist_air_leaves_warmer_than_dry_air()
    {
        var run = Runs.FourInch(6, 30);
        Assert.True(SteadyRun.At(run, Runs.SoilGasOnly(12), -15).ExitC > SteadyRun.At(run, Runs.Dry(12), -15).ExitC);
    }

    [Fact]
    public void Frost_begins_further_on_than_condensate()
    {
        var profile = SteadyRun.At(Runs.FourInch(20, 60), Runs.SoilGasOnly(14), -9);
        Assert.NotNull(profile.FirstCondensateM);
        Assert.NotNull(profile.FirstFrostM);
        Assert.True(profile.FirstFrostM > profile.FirstCondensateM);
    }

    [Fact]
    public void Water_of_a_run_that_leads_down_does_not_come_back()
    {
        var run = Runs.FourInch(4, 50);
        var back = SteadyRun.At(run, Runs.SoilGasOnly(12), 2);
        var down = SteadyRun.At(run with { Pieces = [run.Pieces[0] with { Direction = RunDirection.Down }] }, Runs.SoilGasOnly(12), 2);
        Assert.True(back.BackToFootKgPerDay > 0);
        Assert.Equal(back.CondensateKgPerDay, back.BackToFootKgPerDay, 1e-9);
        Assert.Equal(0, down.BackToFootKgPerDay);
    }

    [Fact]
    public void Fog_that_no_wall_catches_leaves_the_mouth()
    {
        var none = SteadyRun.At(Runs.FourInch(10, 50), Runs.SoilGasOnly(13) with { FogCaughtShare = 0 }, -15);
        var all = SteadyRun.At(Runs.FourInch(10, 50), Runs.SoilGasOnly(13) with { FogCaughtShare = 1 }, -15);
        Assert.True(none.FogOutKgPerDay > all.FogOutKgPerDay);
        Assert.True(none.FrostKgPerDay + none.CondensateKgPerDay < all.FrostKgPerDay + all.CondensateKgPerDay);
    }

    [Fact]
    public void Heat_given_by_the_air_and_the_cable_is_the_heat_lost() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 10], Gen.Double[0, 30]).Sample((run, air, outdoor, cable) =>
        {
            var profile = SteadyRun.At(run, air, outdoor, cable);
            var given = profile.HeatGivenW + cable * run.LengthM;
            Assert.Equal(given, profile.HeatLostW, 0.001 * Math.Max(1, Math.Abs(given)));
        }, iter: 150);

    [Fact]
    public void Water_in_is_water_out_and_drained_and_frosted() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 10]).Sample((run, air, outdoor) =>
        {
            var p = SteadyRun.At(run, air, outdoor);
            var found = p.VapourOutKgPerDay + p.FogOutKgPerDay + p.CondensateKgPerDay + p.FrostKgPerDay;
            Assert.Equal(p.WaterInKgPerDay, found, 0.001 * p.WaterInKgPerDay);
        }, iter: 150);

    [Fact]
    public void Frost_lies_only_on_freezing_wall_and_water_runs_only_from_warmer_wall() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 10]).Sample((run, air, outdoor) =>
            SteadyRun.At(run, air, outdoor).Stations.All(at =>
                (at.FrostKgPerDay <= 0 || at.WallC <= 0) && (at.CondensateKgPerDay <= 0 || at.WallC >= 0)), iter: 150);

    [Fact]
    public void Air_cools_steadily_towards_the_colder_outdoors() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 0]).Sample((run, air, outdoor) =>
        {
            var profile = SteadyRun.At(run, air, outdoor);
            var warmer = profile.EntryC;
            foreach (var station in profile.Stations)
            {
                Assert.True(station.AirC <= warmer + 1e-9);
                Assert.True(station.WallC < warmer);
                warmer = station.AirC;
            }
        }, iter: 150);

    [Fact]
    public void More_flow_makes_the_wall_warmer() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 0], Gen.Double[1.05, 2]).Sample((run, air, outdoor, more) =>
            SteadyRun.At(run with { FlowM3PerS = run.FlowM3PerS * more }, air, outdoor).ColdestWallC
                >= SteadyRun.At(run, air, outdoor).ColdestWallC - 1e-6, iter: 100);

    [Fact]
    public void Insulation_makes_the_wall_warmer() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 0], Gen.Double[0.005, 0.05]).Sample((run, air, outdoor, more) =>
        {
            var wrapped = run with { Pieces = [.. run.Pieces.Select(piece => piece with { InsulationM = piece.InsulationM + more })] };
            Assert.True(SteadyRun.At(wrapped, air, outdoor).ColdestWallC > SteadyRun.At(run, air, outdoor).ColdestWallC);
        }, iter: 100);

    [Fact]
    public void A_longer_run_lets_the_air_out_colder() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 0], Gen.Double[0.3, 5]).Sample((run, air, outdoor, more) =>
        {
            var longer = run with { Pieces = [.. run.Pieces, new RunPiece { LengthM = more }] };
            Assert.True(SteadyRun.At(longer, air, outdoor).ExitC < SteadyRun.At(run, air, outdoor).ExitC + 1e-9);
        }, iter: 100);

    [Fact]
    public void Colder_weather_leaves_less_vapour_in_the_air() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-30, 0], Gen.Double[0.5, 8]).Sample((run, air, outdoor, colder) =>
            SteadyRun.At(run, air, outdoor - colder).VapourOutKgPerDay <= SteadyRun.At(run, air, outdoor).VapourOutKgPerDay + 1e-9, iter: 100);

    [Fact]
    public void A_cable_makes_the_wall_warmer() =>
        Gen.Select(Runs.AnyRun, Runs.AnyAir, Gen.Double[-35, 0], Gen.Double[1, 30]).Sample((run, air, outdoor, watts) =>
            SteadyRun.At(run, air, outdoor, watts).ColdestWallC >= SteadyRun.At(run, air, outdoor).ColdestWallC - 1e-9, iter: 100);
}
