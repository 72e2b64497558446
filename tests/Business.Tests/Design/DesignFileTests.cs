using System.Globalization;
using System.Text.Json.Nodes;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Engineering.Freezing.Weather;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Siting;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;
using Piece = MitigationOffice.Engineering.Piping.RoutePiece;
using PieceKind = MitigationOffice.Engineering.Piping.PieceKind;

namespace MitigationOffice.Business.Tests.Design;

/// <summary>Each section of a design file gives the numbers that the engine gives when it is called by hand.</summary>
public sealed class DesignFileTests
{
    private static readonly DesignFile File = Example.File;
    private static readonly DesignReport Report = Example.Report;
    private static readonly SizingReport Sized = SystemSizing.Compute(Sizing());

    [Fact]
    public void Network_and_readings_of_three_suction_points_give_the_engine_s_numbers()
    {
        Assert.Equal(Sized.Fans.Select(f => f.Name), Report.Fans.Select(f => f.Model));
        foreach (var (by, from) in Sized.Fans.Zip(Report.Fans))
        {
            Assert.Equal((by.Holds, by.Because, by.NoiseDbA, by.TenYearDollars), (from.Holds, from.Why, from.NoiseDbA, from.TenYearDollars));
            Example.Same(by.Point!.Points, from.Points);
            Assert.Equal((by.Point.FlowM3PerS, by.Point.FanInletVacuumPa, by.Point.Watts), (from.FlowM3PerS, from.FanInletVacuumPa, from.Watts));
            Example.Same(by.Holes, from.Holes.Select(h => h with { From = null }));
            Assert.Equal(["near stair", "bath", "north wall"], from.Holes.Where(h => h.From == 0 || h.Label == "north wall").Select(h => h.Label));
            Assert.Equal([1, 2], from.Holes.Where(h => h.Label is "garage" or "laundry").OrderBy(h => h.Label, StringComparer.Ordinal).Select(h => h.From!.Value));
        }

        Assert.Equal(["garage", "laundry"], Report.FurtherSoils.Select(s => s.Name));
        Assert.Equal(Sized.FurtherGrounds.Select(g => g.Soil.ConductanceG), Report.FurtherSoils.Select(s => s.Soil.Conductance));
        Assert.Equal(["", "garage", "laundry"], Report.Shown!.Points.Select(p => p.Name));
    }

    [Fact]
    public void The_system_s_curve_with_several_points_is_the_engine_s_and_meets_every_fan()
    {
        var greatest = File.Fans.SelectMany(f => f.Points).Max(p => p.FlowM3PerS);
        Assert.Equal(SystemSizing.Curve(Sizing(), Sized, greatest, 40).Select(p => new SystemPoint(p.FlowM3PerS, p.PressurePa)), Report.SystemCurve);
        Assert.Equal(41, Report.SystemCurve.Count);
        Assert.Empty(ComputeReport.Of(File with { FloorPlan = null, Climate = null }, quick: true).SystemCurve);
    }

    [Fact]
    public void Ground_pipe_and_mouth_add_up_to_the_fan_s_pressure()
    {
        var (shown, route) = (Report.Shown!, Report.Losses.Where(l => l.Branch is null).ToList());
        Assert.Equal(shown.FanPressurePa, route.Sum(l => l.PressurePa), 1e-6 * shown.FanPressurePa);
        var garage = Report.Losses.Where(l => l.Branch == "garage").ToList();
        Assert.Equal(5, garage.Count);
        Assert.Equal(shown.FanPressurePa, garage.Sum(l => l.PressurePa) + route.Where(l => l.Position > 3).Sum(l => l.PressurePa), 1e-6 * shown.FanPressurePa);
        Assert.Equal(["Ground at laundry", "2 in pipe, indoors"], Report.Losses.Where(l => l.Branch == "laundry").Take(2).Select(l => l.Words));
    }

    [Fact]
    public void Floor_plan_gives_the_engine_s_map_what_if_and_proposal()
    {
        var slab = SlabCoverage.Compute(Plan());
        var coverage = Report.Coverage!;
        Assert.Equal((slab.ReachM, slab.FootingM, slab.FootingFitted, slab.TypicalMissFactor, slab.ConductanceM3PerSPa), (coverage.ReachM, coverage.FootingM, coverage.FootingFitted, coverage.TypicalMissFactor, coverage.ConductanceM3PerSPa));
        Same(slab.Map, coverage.AsTested);
        Same(slab.WhatIf(new SuctionPlace { At = new(13.2, 3), PitVacuumPa = 180 }), coverage.WhatIf!);
        var best = slab.BestSecondPoint(180, 0.15)!;
        Same(best.Map, coverage.Proposal!.Map);
        Assert.Equal((best.Place.At.XM, best.Place.At.YM, best.PlacesTried), (coverage.Proposal.AcrossM, coverage.Proposal.UpM, coverage.Proposal.PlacesTried));
        Assert.Equal(slab.Holes.Select(h => (h.Reading.Name, h.Reading.VacuumPa, h.ComputedPa, h.Used)), coverage.Holes.Select(h => (h.Label, h.ReadPa, h.MapPa, h.Used)));
        Assert.Equal(slab.Weaknesses, coverage.Weaknesses);
    }

    [Fact]
    public void The_shown_fan_s_map_has_every_suction_point_at_its_own_suction()
    {
        var slab = SlabCoverage.Compute(Plan());
        var pits = Report.Shown!.Points.Zip([new PlanPoint(3, 2), new PlanPoint(13.2, 3), new PlanPoint(9, 6.6)], (p, at) => new SuctionPlace { At = at, PitVacuumPa = p.PitVacuumPa, PitRadiusM = p.Name == "laundry" ? 0.1 : 0.15 }).ToList();
        var map = SlabCoverage.Compute(Plan() with { SuctionPoints = pits, Readings = [], AssumedReachM = slab.ReachM, AssumedFootingM = slab.FootingM }).Map;
        Same(map, Report.Coverage!.WithShownFan!);
        Assert.True(Report.Coverage.WithShownFan!.ShareBeyondTarget > Report.Coverage.AsTested.ShareBeyondTarget);
        Assert.InRange(Report.Coverage.WithShownFanWinterShare!.Value, 0.5, Report.Coverage.WithShownFan.ShareBeyondTarget);
    }

    [Fact]
    public void Cells_come_on_request_and_cover_the_floor()
    {
        var map = ComputeReport.Of(DesignFileText.Read(Example.With("floorPlan.withCells", "true"))).Coverage!.AsTested;
        Assert.Equal(10 * 8 - 4 * 2 + 5.5 * 6, map.Cells!.Sum(c => c.AreaM2), 1e-6);
        Assert.Null(Report.Coverage!.AsTested.Cells);
    }

    [Fact]
    public void Outdoor_run_and_weather_record_give_the_engine_s_forecast()
    {
        var point = Sized.Recommended!.Point!;
        var record = DailyRecordReader.Read(File.Climate!.Days!.Select(d => string.Create(CultureInfo.InvariantCulture, $"{d.Date:yyyy-MM-dd},{d.TMin},{d.TMax}")).Prepend("DATE,TMIN,TMAX"), RecordUnit.TenthsOfCelsius);
        var fan = Sizing().Fans.Single(f => f.Name == "Harrow 18").Curve;
        var size = PipeSize.Of("4in");
        var forecast = FreezeForecast.Compute(new FreezeInput
        {
            Run = new OutdoorRun
            {
                BoreM = size.HydraulicDiameterM, WallM = size.WallM, FlowM3PerS = point.FlowM3PerS, FanBeforeRunW = point.Watts, ElevationM = 310,
                Pieces = [new RunPiece { LengthM = 1.5 }, new RunPiece { LengthM = 3.5, InsulationM = 0.013, InsulationWPerMK = 0.035 }],
            },
            Assumptions = new StreamAssumptions { GroundC = 9, HouseAirShare = 0.4, HouseC = 17, HouseHumidityPercent = 38, WindMPerS = 4, WindSpreadMPerS = 2, SkyShare = 0.15 },
            DesignC = -20, JanuaryMeanC = -7, WinterDays = 150, DollarsPerKWh = 0.15, Record = record, ColdSpellDays = 7, ColdSpellSwingK = 7, Trials = 40, Seed = 7, CableSizesWPerFt = [3, 5, 8, 10],
            System = SuctionSystem.Of(fan, Sized.GasDensityKgPerM3, point.FlowM3PerS, point.PitVacuumPa, 1 / Sized.Ground.Soil.Exponent),
        });
        var freeze = Report.Freeze!;
        Assert.Equal((forecast.Conclusion, forecast.AtRisk.Days, forecast.AtRisk.High, 2, false), (freeze.Conclusion, freeze.DaysAtRisk, freeze.DaysAtRiskHigh, freeze.Winters, freeze.WinterMadeUp));
        Assert.Equal((forecast.Cable!.ChosenWPerFt, forecast.Cable.KWhPerWinter, forecast.Bypass.ToFanKgPerDay), (freeze.CableWPerFt, freeze.CableKWhPerWinter, freeze.CondensateKgPerDay));
        Assert.Equal(forecast.ColdSpell.Days.Select(d => (d.Day, d.ThickestIceM, d.GaugePa)), freeze.ColdSpell.Select(d => (d.Day, d.ThickestIceM, d.ManometerPa)));
        Assert.DoesNotContain(freeze.Assumptions, said => said == PlainWinter.Caution);
        var withDays = ComputeReport.Of(DesignFileText.Read(Example.With("outdoorRun.withDays", "true"))).Freeze!;
        Assert.Equal(forecast.Winter.Days.Select(d => (d.Day, d.NarrowestOpenShare)), withDays.Winter!.Select(d => (d.Day, d.OpenShare)));
    }

    [Fact]
    public void A_record_as_csv_text_is_the_same_as_its_days()
    {
        var root = JsonNode.Parse(Example.Text)!;
        var csv = string.Join("\r\n", File.Climate!.Days!.Select(d => string.Create(CultureInfo.InvariantCulture, $"\"S1, Birchford\",{d.Date:yyyy-MM-dd},{d.TMax},{d.TMin}")).Prepend("NAME,DATE,TMAX,TMIN"));
        root["climate"] = new JsonObject { ["unit"] = "tenthsOfCelsius", ["csv"] = csv };
        Example.Same(Report, ComputeReport.Of(DesignFileText.Read(root.ToJsonString())));
    }

    /// <summary>Common practice, no source: on the suction side a gauge falls as ice closes the mouth.</summary>
    [Fact]
    public void The_manometer_falls_as_ice_closes()
    {
        var root = JsonNode.Parse(Example.Text)!;
        root.AsObject().Remove("climate");
        Example.Set(root, "outdoorRun.trials", 0);
        Example.Set(root, "site.designWinterC", -35);
        Example.Set(root, "outdoorRun.coldSpellDays", 30);
        Example.Set(root, "outdoorRun.iceKgPerM3", 250);
        Example.Set(root, "outdoorRun.iceSpreadKgPerM3", 0);
        Example.Set(root, "prices.indoorAirShare", 0.9);
        Example.Set(root, "route[9].insulationM", null);
        Example.Set(root, "route[9].lengthM", 9);
        var freeze = ComputeReport.Of(DesignFileText.Read(root.ToJsonString())).Freeze!;
        var gauge = freeze.ColdSpell.Select(d => d.ManometerPa!.Value).ToList();
        // It falls while ice grows, and then goes up and down a little with the balance of frost and melting.
        Assert.Equal(gauge.Take(3).OrderDescending(), gauge.Take(3));
        Assert.All(gauge, pa => Assert.True(pa < freeze.ManometerOpenPa));
        Assert.True(gauge.Min() < 0.9 * freeze.ManometerOpenPa);
        Assert.Contains(freeze.Warnings, said => said.StartsWith("As ice closes in such a spell the manometer falls from", StringComparison.Ordinal));
    }

    [Fact]
    public void Mouth_and_fan_are_held_against_the_rules_that_the_file_names()
    {
        foreach (var rules in SitingRuleSets.All)
        {
            var siting = ComputeReport.Of(DesignFileText.Read(Example.With("discharge.rules", $"\"{rules.Id}\""))).Siting!;
            var by = DischargeSiting.Judge(new DischargeSite
            {
                HeightAboveGradeFt = 20.341m, Mounting = DischargeMounting.SideOfHouse, AboveRoofEdgeIn = 1.148m * 12, FromVerticalDeg = 0, HasRainCap = false, Fan = FanLocation.Outdoors, Walls = [],
                Openings = [new("bedroom window", OpeningKind.Window, 8.530m, 2.953m), new("kitchen fan intake", OpeningKind.AirIntake, 17.060m, 9.843m)],
                AdjacentBuildings = [new("14½ Tannery Row", 24.606m)],
            }, rules);
            Assert.Equal(by.Findings.Select(f => (f.Rule, f.Why, f.IsAdvisory)), siting.Rules.Select(r => (r.Rule, r.Why, r.Advisory)));
        }
    }

    [Fact]
    public void A_file_as_the_sheet_exports_it_reads_without_the_sections_that_came_later()
    {
        var old = File with
        {
            FurtherPoints = null,
            FloorPlan = null,
            OutdoorRun = null,
            Climate = null,
            Site = File.Site with { GroundC = null, NeutralPlaneM = null },
            Test = File.Test with { HoleResolutionPa = null, PitResolutionPa = null },
            Discharge = new FileDischarge { Rules = "us-pa", AboveGradeM = 6 },
            Fans = [.. File.Fans.Select(f => f with { NoiseDbA = null })],
            Route = [.. File.Route.Select(p => p with { InsulationM = null, InsulationWPerMK = null })],
        };
        var text = DesignFileText.Write(old);
        string[] later = ["furtherPoints", "floorPlan", "outdoorRun", "climate", "groundC", "neutralPlaneM", "ResolutionPa", "mounting", "openings\"", "walls", "noiseDbA", "insulation"];
        Assert.All(later, field => Assert.DoesNotContain(field, text, StringComparison.Ordinal));
        var read = DesignFileText.Read(text);
        Assert.Equal(DesignFileText.HashOf(old), DesignFileText.HashOf(read));
        var report = ComputeReport.Of(read);
        Assert.Null(report.Coverage);
        Assert.True(report.Freeze!.WinterMadeUp);
        Assert.Equal(41, report.SystemCurve.Count);
    }

    private static SizingInput Sizing()
    {
        var fans = File.Fans.Select((f, i) => new CandidateFan(i, f.Model, new FanCurve(f.Points.Select(p => new FanPoint(p.FlowM3PerS, p.StaticPressurePa, p.Watts))), f.PriceDollars, f.ExpectedLifeYears, f.NoiseDbA)).ToList();
        PfeTest first = new(
            [new("Harrow 18", 205, null, 17, fans.Single(f => f.Name == "Harrow 18").Curve), new("Harrow 11", 114, null, 10.3, fans.Single(f => f.Name == "Harrow 11").Curve)],
            [new("near stair", 2.2, 0.4, [-41.0, -22.6]), new("bath", 4.5, 0.5, [-13.4, -7.3]), new("north wall", 6.1, 0.6, [-5.9, -3.1]), new("laundry", 7.6, 0.5, [-2.2, null]), new("garage", 8.5, 0.3, [-0.3, -0.1])], -4, 20);
        PfeTest garage = new([new("vacuum", 420, 0.011)], [new("garage", null, 0.3, [-58.0]), new("laundry", null, 0.5, [-1.4])], -4, 20);
        PfeTest laundry = new([new("vacuum", 380, 0.006)], [new("laundry", null, 0.5, [-74.0]), new("north wall", null, 0.6, [-9.0])], -4, 20);
        Piece At(PieceKind kind, string size, double length = 0, double rise = 0, bool outdoors = false) => new(kind, PipeSize.Of(size), length, 1, outdoors, rise);
        return new SizingInput(
            new SizingSite(310, -20, 20, 9, 3.2, 1, 15, 4100, 0.9, 1.1, 0.4), first,
            [
                At(PieceKind.Pipe, "3in", 2.4, 2.4), At(PieceKind.Elbow90, "3in"), At(PieceKind.Pipe, "3in", 4, 0.05), At(PieceKind.Elbow90, "3in"), At(PieceKind.Reducer, "4in"), At(PieceKind.Pipe, "4in", 1.2, 0.02),
                At(PieceKind.Elbow90, "4in", outdoors: true), At(PieceKind.Fan, "4in", outdoors: true), At(PieceKind.Pipe, "4in", 1.5, 1.5, true), At(PieceKind.Pipe, "4in", 3.5, 3.5, true),
            ], fans)
        {
            FurtherPoints =
            [
                new("garage", garage, [At(PieceKind.Pipe, "3in", 2.4, 2.4), At(PieceKind.Elbow90, "3in"), At(PieceKind.Pipe, "3in", 5, 0.06), At(PieceKind.Tee, "3in")], 3),
                new("laundry", laundry, [At(PieceKind.Pipe, "2in", 2.4, 2.4), At(PieceKind.Elbow90, "2in"), At(PieceKind.Pipe, "2in", 2, 0.03), At(PieceKind.Tee, "3in")], 2, "garage"),
            ],
        };
    }

    private static CoverageInput Plan() => new()
    {
        Plan = new SlabPlan
        {
            Areas =
            [
                new SlabArea { Name = "basement", Corners = [new(0, 0), new(10, 0), new(10, 8), new(4, 8), new(4, 6), new(0, 6)] },
                new SlabArea { Name = "garage", Corners = [new(10, 0), new(15.5, 0), new(15.5, 6), new(10, 6)] },
            ],
            Footings = [new FootingLine { From = new(6.5, 0), To = new(6.5, 8) }],
        },
        SuctionPoints = [new SuctionPlace { At = new(3, 2), PitVacuumPa = 205, FlowM3PerS = Sized.Ground.Flows[0].FlowM3PerS }],
        Readings =
        [
            Hole("near stair", 4.6, 3.5, 0.4 - -41.0), Hole("bath", 1, 5.5, 0.5 - -13.4), Hole("north wall", 5.4, 7.6, 0.6 - -5.9), Hole("laundry", 9.5, 5.8, 0.5 - -2.2), Hole("garage", 11.5, 2.5, 0.3 - -0.3), Hole("hall", 7.4, 2.2, 7),
        ],
        TargetPa = 1,
    };

    private static HoleReading Hole(string name, double x, double y, double vacuum) => new() { Name = name, At = new(x, y), VacuumPa = vacuum };

    private static void Same(CoverageMap by, MapResult from)
    {
        Assert.Equal((by.Sentence, by.ShareBeyondTarget, by.WeakestSpot.VacuumPa), (from.Sentence, from.ShareBeyondTarget, from.WeakestSpot.VacuumPa));
        Assert.Equal(by.Suction.Select(s => (s.Place.At.XM, s.Place.PitVacuumPa)), from.SuctionPoints.Select(p => (p.AcrossM, p.PitVacuumPa)));
    }
}
