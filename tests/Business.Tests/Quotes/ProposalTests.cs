using CsCheck;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Shop.Offers;

namespace MitigationOffice.Business.Tests.Quotes;

public sealed class ProposalTests
{
    private static readonly CompanyProfile Company = new() { LabourPricePerHour = Money.FromDollars(90), LabourCostPerHour = Money.FromDollars(50) };

    private static House House() => new() { Street = "1 Elm", City = "Birchford", State = "MN", Zip = "55999" };

    private static FreezeResult Freeze(double days, double low, double high, double? cable, double? r = 2, bool bypass = false, double kg = 0.1) => new()
    {
        Conclusion = $"{days} days.", DaysAtRisk = days, DaysAtRiskLow = low, DaysAtRiskHigh = high, OutdoorM = 6, CableWPerFt = cable, CableLengthM = cable is null ? null : 6.4, CableDollarsPerWinter = cable is null ? null : 12,
        InsulationR = r, BypassNeeded = bypass, BypassReason = bypass ? "Water runs back." : "Too little water.", CondensateKgPerDay = kg, Assumptions = [], Warnings = [], Cautions = [], Sources = [],
    };

    private static DesignReport Report(FreezeResult? freeze, FanResult? running = null) => new()
    {
        EngineVersion = "1", Recommendation = "", ShownFan = running?.Model, TargetPa = 1, DesignWinterC = -25, WinterLossPa = 1, Soil = new() { Conductance = 1, Exponent = 0.6, ExponentAssumed = true, Settings = [], Holes = [] },
        Fans = running is null ? [] : [running], Losses = [], SystemCurve = [], Freeze = freeze, WhyNoFreeze = freeze is null ? "The freeze forecast does not reach this case." : null, Assumptions = [], Warnings = [], Origins = [],
    };

    private static FanResult Running(double fanPa, double pitPa, double weakest, double low = 0.5, string? speed = null) =>
        new() { Model = "Test 9", Holds = true, Why = "", OnCurve = true, FanPressurePa = fanPa, PitVacuumPa = pitPa, WeakestHole = "4", WeakestWinterPa = weakest, WeakestWinterLowPa = low, SpeedWords = speed, ElectricityDollarsPerYear = 23.456, HouseAirDollarsPerYear = 70 };

    private static TakeOff Route(bool outdoors = true) => TakeOff.Of(
    [
        new() { Position = 1, Kind = PieceKind.Pipe, LengthM = 3.048, RiseM = 3.048 }, new() { Position = 2, Kind = PieceKind.Elbow90, Count = 3 }, new() { Position = 3, Kind = PieceKind.Tee },
        new() { Position = 4, Kind = PieceKind.Fan, Place = outdoors ? PiecePlace.Outdoors : PiecePlace.Attic }, new() { Position = 5, Kind = PieceKind.Pipe, LengthM = 6.096, RiseM = 6.096, Place = outdoors ? PiecePlace.Outdoors : PiecePlace.Attic },
    ]);

    private static QuoteBasis Basis(DesignReport? report, TakeOff? takeOff = null) => new(Company, House(), takeOff ?? Route()) { Report = report, Fan = new Fan { Model = "Test 9", Price = Money.FromDollars(300), ExpectedLifeYears = 8 } };

    private static int _id;

    private static PriceItem Item(string name, TakenBy by = TakenBy.Job, OfferReason reason = OfferReason.Always, int fromTier = 1, string size = "", string fan = "", decimal? from = null, int minutes = 0, PriceUse? use = null) => new()
    {
        Id = ++_id, Code = name, Name = name, Use = use ?? (reason == OfferReason.Always ? PriceUse.Part : PriceUse.AddOn), Rule = PriceRule.Fixed, FixedPrice = Money.FromDollars(10), Cost = Money.FromDollars(4), LabourMinutes = minutes,
        TakenBy = by, OfferedFor = reason, FromTier = fromTier, PipeSize = size, FanModel = fan, RecommendedFrom = from, Reason = "Book.",
    };

    private static QuoteRevision Propose(QuoteBasis basis, params PriceItem[] book)
    {
        var revision = new QuoteRevision { Letter = "A" };
        ProposeTiers.Into(revision, basis, book);
        return revision;
    }

    private static Dictionary<string, decimal> Lines(QuoteRevision r, int tier) => r.Tiers.Single(t => t.Position == tier).Lines.ToDictionary(l => l.Words, l => l.Quantity);

    /// <summary>Two pits counted as two; one more is judged by what the two reach, and the footing no longer speaks for it.</summary>
    [Fact]
    public void With_two_suction_points_pits_are_counted_twice_and_a_third_is_judged_by_what_they_reach()
    {
        RoutePiece[] pieces = [new() { Kind = PieceKind.Pipe, LengthM = 3 }, new() { Position = 1, Kind = PieceKind.Fan }, new() { Position = 2, Kind = PieceKind.Pipe, LengthM = 3 }, new() { Branch = 1, Kind = PieceKind.Pipe, LengthM = 3 }];
        var two = TakeOff.Of(new SuctionDesign { Revision = "A", Pieces = [.. pieces], Branches = [new() { Number = 1, Name = "B" }] });
        var third = Item("One more point", TakenBy.SuctionPoint, OfferReason.ExtraSuctionPoint, 0);
        var weak = Basis(Report(null, Running(300, 200, 0.4)), two);
        weak.House.Areas.Add(new() { Name = "Garage", FootingDivides = true });
        var revision = Propose(weak, Item("Pit", TakenBy.SuctionPoint), third);
        Assert.Equal(2, Lines(revision, 1)["Pit"]);
        Assert.Contains("0.4 Pa are foretold at hole 4 with the 2 suction points of the design", Assert.Single(revision.AddOns).Reason, StringComparison.Ordinal);
        var strong = Basis(Report(null, Running(300, 200, 3, 2)), two);
        strong.House.Areas.Add(new() { Name = "Garage", FootingDivides = true });
        Assert.Equal(AddOnStand.NotOffered, JudgeAddOn.Of(third, strong).Stand);
        Assert.Equal(AddOnStand.Offered, JudgeAddOn.Of(third, strong with { TakeOff = Route() }).Stand);
    }

    /// <summary>The route: 30 ft, 3 elbows, a tee, 2 joints (10 ft: 0; 20 ft: 1), fan outdoors.</summary>
    [Fact]
    public void Each_item_is_counted_by_what_it_says_and_nothing_twice()
    {
        var r = Propose(Basis(null), Item("pipe", TakenBy.PipeFoot), Item("pipe 4", TakenBy.PipeFoot, size: "4in"), Item("pipe 3", TakenBy.PipeFoot, size: "3in"), Item("length", TakenBy.PipeLength, size: "4in"), Item("fitting", TakenBy.Fitting),
            Item("elbow 4", TakenBy.Elbow, size: "4in"), Item("coupling", TakenBy.Coupling), Item("support", TakenBy.Support), Item("wall", TakenBy.WallPassage), Item("roof", TakenBy.RoofPassage), Item("pit", TakenBy.SuctionPoint),
            Item("this fan", TakenBy.Fan, fan: "Test 9"), Item("that fan", TakenBy.Fan, fan: "Test 8"), Item("any fan", TakenBy.Fan), Item("by hand", TakenBy.Hand), Item("job"));
        Dictionary<string, decimal> expected = new()
        {
            ["pipe 4"] = 30, ["length"] = 4, ["fitting"] = 1, ["elbow 4"] = 3, ["coupling"] = 1, ["support"] = 5, ["wall"] = 1, ["pit"] = 1, ["this fan"] = 1, ["any fan"] = 1, ["job"] = 1,
        };
        Assert.Equal(expected.OrderBy(p => p.Key), Lines(r, 1).OrderBy(p => p.Key));
    }

    [Fact]
    public void A_fan_the_book_does_not_know_comes_at_its_catalogue_price()
    {
        var line = Propose(Basis(null), Item("any fan", TakenBy.Fan)).Tiers[0].Lines[0];
        Assert.Equal(("Fan Test 9", 300_00), (line.Words, line.UnitPrice.Cents));
    }

    /// <summary>Whatever a book counts fittings by, it counts each of them once where it has an item for all of them.</summary>
    [Fact]
    public void No_fitting_is_counted_twice_or_forgotten_whatever_the_book_holds() =>
        Gen.Select(Gen.Bool.Array[8], Gen.Int[1, 9], Gen.Int[0, 5], Gen.Int[0, 4]).Sample((has, elbows, tees, small) =>
        {
            PriceItem[] all =
            [
                Item("f", TakenBy.Fitting), Item("f4", TakenBy.Fitting, size: "4in"), Item("e", TakenBy.Elbow), Item("e4", TakenBy.Elbow, size: "4in"), Item("e3", TakenBy.Elbow, size: "3in"), Item("t", TakenBy.Tee), Item("t4", TakenBy.Tee, size: "4in"), Item("c", TakenBy.Coupling),
            ];
            PriceItem[] book = [all[0], .. all[1..].Where((_, i) => has[i])];
            var takeOff = TakeOff.Of([new() { Position = 1, Kind = PieceKind.Pipe, LengthM = 3.048 * 2.5 }, new() { Position = 2, Kind = PieceKind.Elbow90, Count = elbows }, .. tees == 0 ? Array.Empty<RoutePiece>() : [new() { Position = 3, Kind = PieceKind.Tee, Count = tees }], .. small == 0 ? Array.Empty<RoutePiece>() : [new() { Position = 4, Kind = PieceKind.Elbow45, Size = "3in", Count = small }]]);
            var count = new CountItems(new QuoteBasis(Company, House(), takeOff), book);
            Assert.Equal(elbows + tees + small + 2, book.Sum(count.Of));
        }, iter: 500);

    [Fact]
    public void Hours_are_those_of_the_other_lines_in_one_line_that_does_not_tell_them()
    {
        var r = Propose(Basis(null), Item("work", minutes: 100), Item("small things", TakenBy.Hour));
        var line = r.Tiers[0].Lines.Single(l => l.Words == "small things");
        Assert.Equal((1m, 17_50L, 7_00L, "each"), (line.Quantity, line.UnitPrice.Cents, line.UnitCost.Cents, line.Unit)); // 1.67 h → 1.75 × $10.
    }

    [Theory]
    [InlineData(12, 30, 10.0, 3, "cable", true)] // ice and a cable for it
    [InlineData(0.4, 2, 10.0, 3, "cable", true)] // possible ice
    [InlineData(0, 0.5, 8.0, 1, "cable", false)] // no ice
    [InlineData(12, 30, null, 3, "insulation", true)] // ice that no cable holds off
    [InlineData(0, 0, null, 1, "cable", false)] // stays warm
    public void The_winter_s_protection_follows_the_forecast(double days, double high, double? cable, int tier, string held, bool recommended)
    {
        var r = Propose(Basis(Report(Freeze(days, 0, high, cable))), Item("job"), Item("cable", TakenBy.OutdoorFoot, OfferReason.FreezeGuard, 3), Item("insulation", TakenBy.OutdoorFoot, OfferReason.Insulation, 3));
        Assert.Equal(tier, r.RecommendedTier);
        var third = Lines(r, 3);
        Assert.Equal([held], third.Keys.Except(["job", "Fan Test 9"]));
        if (cable is not null) Assert.Equal(21, third["cable"]); // 6.4 m of cable
        Assert.Equal(recommended, r.AddOns.Single(a => a.Words.StartsWith(held, StringComparison.Ordinal)).Recommended);
        Assert.All(r.AddOns, a => Assert.StartsWith("Book. ", a.Reason, StringComparison.Ordinal));
    }

    [Fact]
    public void Cable_and_insulation_are_never_both_part_of_a_choice_nor_both_recommended() =>
        Gen.Select(Gen.Double[0, 40], Gen.Double[0, 60], Gen.Double[0, 30], Gen.Int[0, 3], Gen.Int[0, 3], Gen.Decimal[0, 20], Gen.Int[0, 3]).Sample((days, more, watts, cableTier, insulationTier, from, kind) =>
        {
            var freeze = Freeze(days, 0, days + more, kind is 0 or 1 ? watts : null, kind is 0 or 2 ? 2 : null);
            var basis = kind == 3 && days < 5 ? Basis(Report(null)) : Basis(Report(freeze));
            var r = Propose(basis, Item("cable", reason: OfferReason.FreezeGuard, fromTier: cableTier, from: from), Item("insulation", reason: OfferReason.Insulation, fromTier: insulationTier, from: from));
            Assert.True(r.AddOns.Count(a => a.Recommended) <= 1);
            Assert.All(r.Tiers, t => Assert.True(t.Lines.Count(l => l.OfferedFor is OfferReason.FreezeGuard or OfferReason.Insulation) <= 1));
        }, iter: 2000);

    [Fact]
    public void Where_no_pipe_is_outdoors_nothing_against_the_winter_is_offered_and_it_says_why()
    {
        var r = Propose(Basis(Report(null), Route(outdoors: false)), Item("cable", reason: OfferReason.FreezeGuard, fromTier: 3), Item("bypass", reason: OfferReason.CondensateBypass, fromTier: 2));
        Assert.Empty(r.AddOns);
        Assert.Equal("bypass: No pipe of the route is outdoors.\ncable: No pipe of the route is outdoors.", r.NotOffered);
    }

    [Theory]
    [InlineData(true, 0.5, null, AddOnStand.Included, true)]
    [InlineData(false, 0.1, null, AddOnStand.Offered, false)]
    [InlineData(false, 0.5, 1.0, AddOnStand.Included, true)] // 0.5 kg are 1.1 lb
    [InlineData(true, 0.4, 1.0, AddOnStand.Offered, false)] // 0.4 kg are 0.88 lb
    public void A_bypass_follows_the_water_or_the_book_s_own_limit(bool needed, double kg, double? from, AddOnStand stand, bool recommended)
    {
        var verdict = JudgeAddOn.Of(Item("bypass", reason: OfferReason.CondensateBypass, fromTier: 2, from: (decimal?)from), Basis(Report(Freeze(0, 0, 0, null, bypass: needed, kg: kg))));
        Assert.Equal((stand, recommended), (verdict.Stand, verdict.Recommended));
    }

    [Theory]
    [InlineData(SumpKind.Open, AddOnStand.Included)]
    [InlineData(SumpKind.Sealed, AddOnStand.NotOffered)]
    [InlineData(SumpKind.None, AddOnStand.NotOffered)]
    public void A_lid_is_for_an_open_sump(SumpKind sump, AddOnStand stand)
    {
        var basis = Basis(null);
        basis.House.Sump = sump;
        Assert.Equal(stand, JudgeAddOn.Of(Item("lid", reason: OfferReason.SumpLid, fromTier: 2), basis).Stand);
    }

    [Fact]
    public void A_pit_that_only_the_floor_plan_shows_is_offered_a_lid_and_asked_about()
    {
        var basis = Basis(null);
        (basis.House.SumpXM, basis.House.SumpYM) = (1, 2);
        var verdict = JudgeAddOn.Of(Item("lid", reason: OfferReason.SumpLid, fromTier: 2), basis);
        Assert.Equal((AddOnStand.Offered, true), (verdict.Stand, verdict.Recommended));
        Assert.Contains("does not say whether it is sealed", verdict.Why, StringComparison.Ordinal);
        basis.House.Sump = SumpKind.Sealed;
        Assert.Equal(AddOnStand.NotOffered, JudgeAddOn.Of(Item("lid", reason: OfferReason.SumpLid, fromTier: 2), basis).Stand);
    }

    [Fact]
    public void A_guard_is_offered_under_trees_and_warned_of_where_ice_is_foretold()
    {
        var guard = Item("guard", reason: OfferReason.CritterGuard, fromTier: 0);
        var basis = Basis(Report(Freeze(6, 2, 14, 10)));
        Assert.Equal(AddOnStand.NotOffered, JudgeAddOn.Of(guard, basis).Stand);
        basis.House.UnderTrees = true;
        var icy = JudgeAddOn.Of(guard, basis);
        Assert.Equal((AddOnStand.Offered, false), (icy.Stand, icy.Recommended));
        Assert.Contains("up to 14 days a winter", icy.Why, StringComparison.Ordinal);
        Assert.True(JudgeAddOn.Of(guard, basis with { Report = Report(Freeze(0, 0, 0, null)) }).Recommended);
    }

    [Fact]
    public void Alarms_follow_floors_and_chimneys()
    {
        var basis = Basis(null);
        var (second, monoxide) = (Item("second", reason: OfferReason.SecondAlarm, from: 3), Item("monoxide", reason: OfferReason.BackdraftAlarm));
        Assert.Equal(AddOnStand.NotOffered, JudgeAddOn.Of(second, basis).Stand);
        Assert.Equal("No furnace, heater or other appliance is written down for this house.", JudgeAddOn.Of(monoxide, basis).Why);
        basis.House.Appliances.Add(new Appliance { Name = "Range", Draft = Draft.Electric });
        Assert.Equal(new AddOnVerdict(AddOnStand.NotOffered, false, "No appliance of the house draws by the chimney alone."), JudgeAddOn.Of(monoxide, basis));
        basis.House.StoreysAboveGrade = 2;
        Assert.False(JudgeAddOn.Of(second, basis).Recommended);
        basis.House.Areas.Add(new FoundationArea { Name = "Basement", Kind = FoundationKind.Basement });
        basis.House.Appliances.Add(new Appliance { Name = "Water heater", Draft = Draft.Natural });
        Assert.Equal((AddOnStand.Offered, true), (JudgeAddOn.Of(second, basis).Stand, JudgeAddOn.Of(second, basis).Recommended));
        Assert.Contains("Water heater", JudgeAddOn.Of(monoxide, basis).Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(200, 120, null, null, AddOnStand.Offered)] // 40 %
    [InlineData(200, 150, null, null, AddOnStand.NotOffered)] // 25 %
    [InlineData(200, 150, 20, null, AddOnStand.Offered)]
    [InlineData(200, 190, null, "may be heard", AddOnStand.Offered)]
    public void A_larger_pipe_follows_the_share_it_takes(double fan, double pit, int? from, string? speed, AddOnStand stand)
    {
        var item = Item("larger", TakenBy.PipeFoot, OfferReason.LargerPipe, 0, "6in", from: from);
        var basis = Basis(Report(null, Running(fan, pit, 3, speed: speed)));
        Assert.Equal(stand, JudgeAddOn.Of(item, basis).Stand);
        if (stand == AddOnStand.Offered) Assert.Equal("larger, 30 each", Assert.Single(Propose(basis, item).AddOns).Words);
    }

    [Theory]
    [InlineData(0.4, 0.1, false, null, AddOnStand.Offered, true)]
    [InlineData(1.4, 0.9, false, null, AddOnStand.Offered, false)]
    [InlineData(3, 2, false, null, AddOnStand.NotOffered, false)]
    [InlineData(3, 2, true, null, AddOnStand.Offered, false)]
    [InlineData(3, 2, false, 4, AddOnStand.Offered, true)]
    public void A_further_suction_point_follows_the_weakest_hole(double weakest, double low, bool footing, int? from, AddOnStand stand, bool recommended)
    {
        var basis = Basis(Report(null, Running(200, 150, weakest, low)));
        basis.House.Areas.Add(new FoundationArea { Name = "Wing", FootingDivides = footing });
        var verdict = JudgeAddOn.Of(Item("hole", TakenBy.SuctionPoint, OfferReason.ExtraSuctionPoint, 0, from: from), basis);
        Assert.Equal((stand, recommended), (verdict.Stand, verdict.Recommended));
        Assert.Contains($"{weakest:0.0} Pa are foretold at hole 4", verdict.Why, StringComparison.Ordinal);
        Assert.Equal(footing, verdict.Why.Contains("Wing", StringComparison.Ordinal));
    }

    [Fact]
    public void By_hand_one_of_each_common_item_of_the_usual_size_is_taken()
    {
        var r = Propose(new QuoteBasis(Company, House(), TakeOff.ByHand), Item("pipe 4", TakenBy.PipeFoot, size: "4in"), Item("pipe 3", TakenBy.PipeFoot, size: "3in"), Item("fan X", TakenBy.Fan, fan: "X"), Item("roof", TakenBy.RoofPassage), Item("job"),
            Item("cable", reason: OfferReason.FreezeGuard, fromTier: 3));
        Assert.Equal(["job", "pipe 4"], Lines(r, 1).Keys.Order());
        Assert.Equal(["cable", "job", "pipe 4"], Lines(r, 3).Keys.Order());
        Assert.True(Assert.Single(r.AddOns).Recommended);
    }

    [Fact]
    public void A_retired_item_is_in_no_proposal()
    {
        var retired = Item("gone");
        retired.Retired = true;
        Assert.DoesNotContain("gone", Lines(Propose(Basis(null), retired, Item("job")), 3).Keys);
    }
}
