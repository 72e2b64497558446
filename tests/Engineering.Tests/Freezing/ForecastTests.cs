using CsCheck;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Tests.Freezing;

public class ForecastTests
{
    // Common practice, no source: a short bare outdoor run of 4 in pipe, after some days between about −20 °F and 15 °F,
    // carried about half an inch of ice at its mouth, growing backwards. Right order of size is asked: 5 to 30 mm.
    [Fact]
    public void A_short_bare_run_carries_ice_of_the_size_seen_in_practice()
    {
        var input = Runs.Input(Runs.FourInch(1.2, 22), designC: -28.9) with
        {
            ColdSpellDays = 5,
            ColdSpellSwingK = 19.4,
            Assumptions = new StreamAssumptions { HouseAirShare = 0.25, GroundC = 8 },
        };
        var spell = FreezeForecast.Compute(input).ColdSpell;
        Assert.InRange(spell.Days[^1].MouthIceM, 0.005, 0.030);
        Assert.Equal(spell.IceAtEndM.Max(), spell.IceAtEndM[^1]);
        Assert.Equal(spell.IceAtEndM.Order(), spell.IceAtEndM);
    }

    // Freeze-ups are reported in practice from about 5 °F down (common practice, no source).
    [Fact]
    public void Mild_frost_does_not_close_the_pipe_but_deep_cold_does()
    {
        var run = Runs.FourInch(16 * 0.3048, 22);
        Assert.Null(FreezeForecast.Compute(Runs.Input(run, designC: -5, januaryC: 2)).ColdSpell.DaysUntilHalfClosed);
        Assert.NotNull(FreezeForecast.Compute(Runs.Input(run, designC: -28, januaryC: -12) with { ColdSpellDays = 14 }).ColdSpell.DaysUntilHalfClosed);
    }

    [Fact]
    public void The_report_says_its_conclusion_assumptions_and_sources()
    {
        var report = FreezeForecast.Compute(Runs.Input(Runs.FourInch(16 * 0.3048, 22), -26, -12) with { System = Runs.System, Trials = 20 });
        Assert.StartsWith("Sixteen feet outdoors at 22 cfm ices up on about ", report.Conclusion, StringComparison.Ordinal);
        Assert.Contains("days of a design winter", report.Conclusion, StringComparison.Ordinal);
        Assert.Contains(report.Assumptions, said => said == PlainWinter.Caution);
        Assert.NotEmpty(report.Sources);
        Assert.Contains(report.Cautions, caution => caution.Contains("licensed electrician", StringComparison.Ordinal));
        Assert.True(report.AtRisk.MadeUp);
        Assert.InRange(report.AtRisk.Days, report.AtRisk.Low, report.AtRisk.High);
    }

    // Pins the worked example of docs/calculations/freezing.md, so that the page cannot go stale.
    [Fact]
    public void The_example_of_the_handbook_page_still_holds()
    {
        var run = Runs.FourInch(16 * 0.3048, 22) with { FanBeforeRunW = 20 };
        var report = FreezeForecast.Compute(Runs.Input(run, -22, -8) with { Trials = 60 });
        Assert.Equal((2, 0, 7), (report.AtRisk.Days, report.AtRisk.Low, report.AtRisk.High));
        Assert.Equal(4.3, report.ColdSpell.DaysUntilHalfClosed!.Value, 0.3);
        Assert.Equal(23, report.Cable!.WallWarmWPerFt, 0.5);
        Assert.Equal(12, report.Cable.ChosenWPerFt);
        Assert.Equal(1.4, report.Insulation!.UsR, 0.05);
    }

    [Fact]
    public void A_run_that_stays_warm_needs_nothing()
    {
        var report = FreezeForecast.Compute(Runs.Input(Runs.FourInch(0.305, 60), designC: -1, januaryC: 8));
        Assert.Equal("One foot outdoors at 60 cfm stays above freezing at the design temperature; no heat cable is needed.", report.Conclusion);
        Assert.Null(report.Cable);
        Assert.Null(report.Insulation);
    }

    [Fact]
    public void The_insulation_named_keeps_the_wall_at_freezing_and_a_tenth_less_does_not()
    {
        var run = Runs.FourInch(5, 30);
        var found = FreezeForecast.Compute(Runs.Input(run)).Insulation!;
        Assert.True(found.Enough);
        Assert.True(Wall(found.ThicknessM) >= 0);
        Assert.True(Wall(found.ThicknessM * 0.9) < 0);

        double Wall(double metres) => SteadyRun.At(run with { Pieces = [run.Pieces[0] with { InsulationM = metres }] }, new StreamAssumptions(), -22).ColdestWallC;
    }

    [Fact]
    public void The_cable_heat_named_keeps_the_wall_at_freezing_and_a_tenth_less_does_not()
    {
        var run = Runs.FourInch(5, 30);
        var found = FreezeForecast.Compute(Runs.Input(run)).Cable!;
        var perM = found.WallWarmWPerFt / 0.3048;
        Assert.True(SteadyRun.At(run, new StreamAssumptions(), -22, perM).ColdestWallC >= 0);
        Assert.True(SteadyRun.At(run, new StreamAssumptions(), -22, perM * 0.9).ColdestWallC < 0);
        Assert.True(found.HoldsOpenWPerFt <= found.WallWarmWPerFt);
    }

    // Arithmetic: power × hours × price; a record that is always under the thermostat's setting has 24 h a day.
    [Fact]
    public void The_cable_costs_its_power_times_its_hours()
    {
        var cable = FreezeForecast.Compute(Runs.Input(Runs.FourInch(5, 30)) with { Record = Record(-20, -10, 200), DollarsPerKWh = 0.20 }).Cable!;
        Assert.Equal(200 * 24, cable.HoursOn, 1e-6);
        Assert.Equal(cable.ChosenWPerFt!.Value * 5 / 0.3048, cable.PowerW, 1e-9);
        Assert.Equal(cable.PowerW * 4.8, cable.KWhPerWinter, 1e-6);
        Assert.Equal(cable.KWhPerWinter * 0.20, cable.DollarsPerWinter, 1e-9);
    }

    [Fact]
    public void No_cable_on_offer_is_said_with_what_would_do()
    {
        var input = Runs.Input(Runs.FourInch(8, 15), -35, -18) with { CableSizesWPerFt = [1], ColdSpellDays = 14 };
        var report = FreezeForecast.Compute(input);
        Assert.Null(report.Cable!.ChosenWPerFt);
        Assert.Contains("no cable on offer", report.Conclusion, StringComparison.Ordinal);
        var hopeless = FreezeForecast.Compute(input with { Run = Runs.FourInch(55, 2) });
        Assert.False(hopeless.Insulation!.Enough);
        Assert.Contains("shorten or reroute", hopeless.Conclusion, StringComparison.Ordinal);
    }

    [Fact]
    public void Whole_recorded_winters_take_the_made_up_winters_place()
    {
        var report = FreezeForecast.Compute(Runs.Input(Runs.FourInch(5, 22)) with { Record = Record(-30, -15, 200) });
        Assert.False(report.AtRisk.MadeUp);
        Assert.Contains("average winter of the record", report.Conclusion, StringComparison.Ordinal);
        Assert.DoesNotContain(PlainWinter.Caution, report.Assumptions);
    }

    [Fact]
    public void A_record_without_a_whole_winter_is_said_and_replaced()
    {
        var report = FreezeForecast.Compute(Runs.Input(Runs.FourInch(5, 22)) with { Record = Record(-30, -15, 30) });
        Assert.True(report.AtRisk.MadeUp);
        Assert.Contains(report.Warnings, warning => warning.Contains("no whole winter", StringComparison.Ordinal));
    }

    [Fact]
    public void Water_on_the_fan_asks_for_a_bypass_and_a_fan_above_does_not()
    {
        var wet = Runs.Input(Runs.FourInch(6, 40)) with { Assumptions = Runs.SoilGasOnly(12), JanuaryMeanC = 0 };
        var below = FreezeForecast.Compute(wet);
        Assert.True(below.Bypass.Needed);
        Assert.Contains(below.Bypass.Reason, below.Warnings);
        Assert.False(FreezeForecast.Compute(wet with { Run = wet.Run with { FanStandsBeforeRun = false } }).Bypass.Needed);
        var down = wet with { Run = wet.Run with { Pieces = [new RunPiece { LengthM = 6, Direction = RunDirection.Down }] } };
        Assert.Contains("mind where it stands", FreezeForecast.Compute(down).Bypass.Reason, StringComparison.Ordinal);
        Assert.Contains("too little", FreezeForecast.Compute(wet with { Assumptions = Runs.Dry(18) }).Bypass.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_level_piece_is_warned_of()
    {
        var run = Runs.FourInch(5, 40) with { Pieces = [new RunPiece { LengthM = 5, Direction = RunDirection.Level }] };
        Assert.Contains(FreezeForecast.Compute(Runs.Input(run)).Warnings, warning => warning.Contains("1/8 in per foot", StringComparison.Ordinal));
    }

    [Fact]
    public void Ice_melts_when_the_weather_turns()
    {
        var cold = Enumerable.Range(0, 60).Select(day => Day(day, -28, -15));
        var mild = Enumerable.Range(60, 100).Select(day => Day(day, 2, 10));
        var record = new DailyRecord { Days = [], Problems = [], FilledDays = 0, Winters = [[.. cold, .. mild]] };
        var winter = FreezeForecast.Compute(Runs.Input(Runs.FourInch(5, 22)) with { Record = record, System = Runs.System }).Winter;
        Assert.True(winter.ThickestIceM > 0.02);
        Assert.Equal(0, winter.Days[^1].ThickestIceM);
        Assert.NotNull(winter.DaysUntilShut);
        Assert.True(winter.ShutDays > 0);
        Assert.Equal(0, winter.Days[55].GaugePa);
        Assert.Equal(280, winter.Days[^1].GaugePa!.Value, 0.5);
    }

    [Fact]
    public void The_same_seed_gives_the_same_range()
    {
        var input = Runs.Input(Runs.FourInch(5, 22), -26, -12) with { Trials = 15 };
        Assert.Equal(FreezeForecast.Compute(input).AtRisk, FreezeForecast.Compute(input).AtRisk);
        Assert.True(FreezeForecast.Compute(input).AtRisk.High > FreezeForecast.Compute(input).AtRisk.Low);
    }

    [Fact]
    public void Input_out_of_range_is_refused_by_name()
    {
        var input = Runs.Input(Runs.FourInch(5, 22));
        Refused("Bore", input with { Run = input.Run with { BoreM = 1 } });
        Refused("Flow", input with { Run = input.Run with { FlowM3PerS = 0 } });
        Refused("January mean", input with { JanuaryMeanC = -20 });
        Refused("Number of pieces", input with { Run = input.Run with { Pieces = [] } });
        Refused("Share of house air", input with { Assumptions = new StreamAssumptions { HouseAirShare = 1.2 } });
        Refused("Heat cable size", input with { CableSizesWPerFt = [0] });
        Refused("First flow", input with { System = Runs.System with { Curve = [new(0.001, 400), new(0.02, 100)] } });
        Refused("Fan curve", input with { System = Runs.System with { Curve = [new(0, 400)] } });
        Refused("Fan curve", input with { System = Runs.System with { Curve = [new(0, 400), new(0.02, 500)] } });
        Refused("Fan curve", input with { System = Runs.System with { Curve = [new(0, 400), new(0, 300), new(0.03, 200)] } });
        Refused("Open gauge", input with { System = Runs.System with { OpenGaugePa = 500 } });
        Refused("end of the fan curve", input with { System = Runs.System with { Curve = [new(0, 400), new(0.005, 300)] } });

        static void Refused(string name, FreezeInput input) =>
            Assert.Contains(name, Assert.Throws<ArgumentOutOfRangeException>(() => FreezeForecast.Compute(input)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void As_the_mouth_closes_flow_and_gauge_fall_together() =>
        Gen.Select(Gen.Double[0.05, 1], Gen.Double[0.5, 1], Gen.Double[1, 2], Gen.Double[50, 300]).Sample((share, part, exponent, gauge) =>
        {
            var system = Runs.System with { OpenGaugePa = gauge, SuctionExponent = exponent };
            var (wide, narrow) = (system.FlowM3PerS(share, 0.0104, 0.102), system.FlowM3PerS(share * part, 0.0104, 0.102));
            Assert.True(narrow <= wide + 1e-12);
            Assert.True(system.GaugePa(narrow, 0.0104) <= system.GaugePa(wide, 0.0104) + 1e-9);
            Assert.True(wide <= 0.0104);
        });

    [Fact]
    public void An_open_mouth_keeps_the_flow_and_a_shut_one_stops_it()
    {
        Assert.Equal(0.0104, Runs.System.FlowM3PerS(1, 0.0104, 0.102), 1e-9);
        Assert.Equal(0, Runs.System.FlowM3PerS(0, 0.0104, 0.102));
        Assert.Equal(0, Runs.System.GaugePa(0, 0.0104));
        Assert.Equal(280, Runs.System.GaugePa(0.0104, 0.0104), 1e-9);
    }

    // The whole counts: in a partly wrapped run more frost at the start dries the air and can spare the bare end.
    [Fact]
    public void A_colder_spell_never_lays_down_less_frost() =>
        Gen.Select(Runs.AnyRun, Gen.Double[-30, -8], Gen.Double[0.5, 10]).Sample((run, design, colder) =>
        {
            var input = Runs.Input(run, design, 0) with { ColdSpellDays = 3, CableSizesWPerFt = [] };
            var mild = FreezeForecast.Compute(input).ColdSpell;
            var cold = FreezeForecast.Compute(input with { DesignC = design - colder }).ColdSpell;
            if (cold.DaysUntilShut is not null) return;
            Assert.True(cold.Days.Sum(day => day.FrostKg) >= 0.99 * mild.Days.Sum(day => day.FrostKg) - 1e-3);
            Assert.All(cold.Days, day => Assert.InRange(day.NarrowestOpenShare, 0.04 - 1e-9, 1));
        }, iter: 15);

    [Fact]
    public void Light_frost_is_told_from_closing_ice()
    {
        var light = Runs.Input(Runs.FourInch(3, 60), designC: -18, januaryC: 0) with { Assumptions = new StreamAssumptions { HouseAirShare = 0.9 } };
        var report = FreezeForecast.Compute(light);
        Assert.EndsWith("W/ft cable holds it open for about $" + FormattableString.Invariant($"{report.Cable!.DollarsPerWinter:0}") + " a winter.", report.Conclusion, StringComparison.Ordinal);
        Assert.Contains("frosts in the coldest weather but stays more than half open in a design winter", report.Conclusion, StringComparison.Ordinal);
        Assert.All(report.ColdSpell.Days, day => Assert.Null(day.GaugePa));
        Assert.Equal(0, report.AtRisk.Days);
    }

    [Fact]
    public void A_range_that_reaches_closing_ice_is_told()
    {
        var input = Runs.Input(Runs.FourInch(5, 22), designC: -18, januaryC: -7) with { Trials = 40 };
        var risk = Enumerable.Range(-24, 14).Select(design => FreezeForecast.Compute(input with { DesignC = design }))
            .First(report => report.AtRisk.Days < 1 && report.AtRisk.High >= 1);
        Assert.Contains("days are possible", risk.Conclusion, StringComparison.Ordinal);
    }

    // No allocation in the inner loop: forty more days cost their own records and no more.
    [Fact]
    public void A_longer_winter_costs_only_its_own_days_of_memory()
    {
        var input = Runs.Input(Runs.FourInch(5, 22)) with { CableSizesWPerFt = [] };
        FreezeForecast.Compute(input);
        var shorter = Allocated(input with { WinterDays = 120 });
        var longer = Allocated(input with { WinterDays = 160 });
        Assert.InRange(longer - shorter, 0, 40 * 1500);

        static long Allocated(FreezeInput input)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            FreezeForecast.Compute(input);
            return GC.GetAllocatedBytesForCurrentThread() - before;
        }
    }

    private static WeatherDay Day(int at, double min, double max) => new() { Day = new DateOnly(2023, 11, 1).AddDays(at), MinC = min, MaxC = max };

    private static DailyRecord Record(double min, double max, int days) =>
        DailyRecordReader.Read(["DATE,TMIN,TMAX", .. Enumerable.Range(0, days).Select(at => FormattableString.Invariant($"{new DateOnly(2023, 10, 1).AddDays(at):yyyy-MM-dd},{min},{max}"))], RecordUnit.Celsius);

    // The system made of a fan's curve holds the fan's own point, falls to nothing when shut, and says where it assumed.
    [Theory]
    [InlineData(0.0, true)]
    [InlineData(0.004, false)]
    public void A_fan_s_curve_makes_the_system_that_ice_closes(double leastFlow, bool fromNoFlow)
    {
        var fan = new FanCurve([new(leastFlow, 300, 15), new(0.01, 250, 18), new(0.02, 150, 20), new(0.03, 20, 21)]);
        var open = 0.0137;
        var system = SuctionSystem.Of(fan, 1.1, open, 0.9 * fan.PressurePa(open, 1.1), 1.2);
        Assert.Equal(fromNoFlow, system.CurveFromNoFlow);
        Assert.Equal(0, system.Curve[0].FlowM3PerS);
        Assert.Equal(fan.PressurePa(leastFlow, 1.1), system.Curve[0].StaticPa);
        Assert.Contains(new CurvePoint(open, fan.PressurePa(open, 1.1)), system.Curve);
        Assert.Equal(open, system.FlowM3PerS(1, open, 0.1), 1e-9);
        Assert.Equal(system.OpenGaugePa, system.GaugePa(open, open), 1e-9);
        Assert.Equal(0, system.GaugePa(system.FlowM3PerS(0, open, 0.1), open));
        var gauges = Enumerable.Range(1, 20).Select(share => system.GaugePa(system.FlowM3PerS(share / 20.0, open, 0.1), open)).ToList();
        Assert.Equal(gauges.Order(), gauges);
        var report = FreezeForecast.Compute(Runs.Input(Runs.FourInch(5, 29), -30, -12) with { System = system, Run = Runs.FourInch(5, 29) with { FlowM3PerS = open }, Trials = 0 });
        Assert.Equal(!fromNoFlow, report.Assumptions.Any(said => said.StartsWith("The fan was not measured down to no flow", StringComparison.Ordinal)));
    }
}
