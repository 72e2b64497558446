using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using MitigationOffice.Web.Tests.Diagnosis;

namespace MitigationOffice.Web.Tests.Plan;

[Trait("Database", "either")]
public sealed partial class CoverageTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [GeneratedRegex(@"A further point at|With a further point at (?<x>[\d.]+) ft across, (?<y>[\d.]+) ft up")]
    private static partial Regex Further();

    [Fact]
    public async Task The_map_says_what_the_engine_says_of_the_same_plan_and_readings()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        var slab = SlabCoverage.Compute(await InputAsync(house));
        Assert.Equal((9, 2), (slab.Holes.Count, slab.Map.Suction.Count));
        var text = await owner.TextAsync($"/houses/{house}/coverage");
        Assert.Contains($"{Round(slab.Map.ShareBeyondTarget * 100, "0")} % of the floor has at least 1 Pa.", text, StringComparison.Ordinal);
        Assert.Contains($"{Round(slab.ReachM / 0.3048, "0.#")} ft (95 % range {Round(slab.ReachLowM / 0.3048, "0.#")} to {Round(slab.ReachHighM / 0.3048, "0.#")} ft)", text, StringComparison.Ordinal);
        Assert.Contains($"has {Round(slab.Map.WeakestSpot.VacuumPa, "0.#")} Pa.", text, StringComparison.Ordinal);
        foreach (var hole in slab.Holes) Assert.Contains($"{Round(hole.ComputedPa, "0.#")} Pa", text, StringComparison.Ordinal);
        foreach (var weak in slab.Weaknesses) Assert.Contains(weak, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_further_point_is_kept_in_the_address_and_gives_a_second_map()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        var slab = SlabCoverage.Compute(await InputAsync(house));
        var with = slab.WhatIf(new SuctionPlace { At = new(10.668, 1.524), PitVacuumPa = 250 });
        var text = await owner.TextAsync($"/houses/{house}/coverage?at=35,5&target=8");
        Assert.Contains("With a further point at 35 ft across, 5 ft up", text, StringComparison.Ordinal);
        Assert.Contains($"has {Round(with.WeakestSpot.VacuumPa, "0.#")} Pa.", text, StringComparison.Ordinal);
        Assert.True(with.WeakestSpot.VacuumPa > slab.Map.WeakestSpot.VacuumPa);
        Assert.Contains("a real fan gives less when a second pit draws from it too", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_proposed_place_lies_on_a_slab_clear_of_its_walls_and_covers_at_least_as_much()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        var text = await owner.TextAsync($"/houses/{house}/coverage?best=1&target=15");
        var match = Further().Match(text);
        var at = new PlanPoint(Feet(match.Groups["x"]), Feet(match.Groups["y"]));
        var plan = FloorPlan.Of(await office.WithDbAsync(db => db.Houses.Include(h => h.Areas).SingleAsync(h => h.Id == house)));
        var home = plan.Areas.Where(a => a.HasSlab).Select(a => new PlanShape(a.Corners)).Single(s => s.Holds(at));
        Assert.True(home.WallDistanceM(at) >= MapCoverage.PitFromWallM - 0.02, $"{home.WallDistanceM(at)} m from the wall");
        var shares = Regex.Matches(text, @"(\d+) % of the floor").Select(m => int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(2, shares.Count);
        Assert.True(shares[1] > shares[0], $"{shares[0]} % then {shares[1]} %");
    }

    [Fact]
    public async Task The_map_and_its_table_agree_and_meaning_is_not_by_colour_alone()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        var html = WebUtility.HtmlDecode(await owner.GetStringAsync($"/houses/{house}/coverage"));
        Assert.Contains(">20 Pa</text>", html, StringComparison.Ordinal);
        Assert.Contains("fill=\"url(#map-under)\"", html, StringComparison.Ordinal);
        Assert.Contains("T1 58.4 Pa", html, StringComparison.Ordinal);
        var shares = Regex.Matches(html, @"<tr><th scope=""row"">[^<]*Pa[^<]*</th><td class=""number"">(\d+) %</td>").Sum(m => int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture));
        Assert.InRange(shares, 97, 103);
    }

    [Theory]
    [InlineData("at=90,90", "The further point, 90 ft across, 90 ft up, lies outside every slab of the plan.")]
    [InlineData("at=20,30", "The further point, 20 ft across, 30 ft up, lies outside every slab of the plan.")]
    [InlineData("at=there", "Corner 1 of the place of the further point cannot be read")]
    [InlineData("at=1,1%202,2", "Write the place of the further point as one pair")]
    [InlineData("target=much", "Write the target as a number")]
    [InlineData("target=-4", "-4 is out of range: the target must be between")]
    [InlineData("target=1000000", "out of range")]
    public async Task What_cannot_be_mapped_is_said_beside_its_field_and_the_map_stays(string query, string words)
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        var text = await owner.TextAsync($"/houses/{house}/coverage?{query}");
        Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Contains("of the floor has at least", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_readings_plan_or_places_the_sheet_says_what_is_missing()
    {
        var owner = await office.SignInAsOwnerAsync();
        var plain = await office.PlainHouseAsync();
        Assert.Contains("there are none yet", await owner.TextAsync($"/houses/{plain}/coverage"), StringComparison.Ordinal);
        var read = await office.HouseWithReadingsAsync();
        Assert.Contains("The floor plan has no slab yet: draw it first.", await owner.TextAsync($"/houses/{read}/coverage"), StringComparison.Ordinal);
        await owner.DrawAsync(read, new() { ["Input.Areas[0].Corners"] = "40 L 28 L 40 L" });
        Assert.Contains("Suction hole S1 has no place on the plan yet.", await owner.TextAsync($"/houses/{read}/coverage"), StringComparison.Ordinal);
        await owner.DrawAsync(read, new() { ["Input.Holes[0].At"] = "10,10" });
        Assert.Contains("No test hole could be used: the map rests on an assumed reach", await owner.TextAsync($"/houses/{read}/coverage"), StringComparison.Ordinal);
        await owner.DrawAsync(read, new() { ["Input.Areas[0].Kind"] = "CrawlSpace" });
        Assert.Contains("The floor plan has no slab yet", await owner.TextAsync($"/houses/{read}/coverage"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_floor_too_wide_for_the_map_is_told_not_thrown()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = "from -100,-100: E 140 N 128 W 140", ["Input.Areas[1].Corners"] = "40,6 58,6 58,28 40,28" });
        Assert.Contains("Number of grid cells over the plan", await owner.TextAsync($"/houses/{house}/coverage"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_maps_of_a_large_floor_stay_under_a_hundred_kilobytes()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.MeasuredHouseAsync(owner);
        await owner.DrawAsync(house, new() { ["Input.Areas[0].Corners"] = "0,0 40,0 40,28 40,90 -60,90 -60,0", ["Input.Areas[2].Corners"] = "" });
        var page = await owner.GetByteArrayAsync($"/houses/{house}/coverage?at=-40,70");
        Assert.InRange(page.Length, 10_000, 100_000);
    }

    private Task<CoverageInput> InputAsync(int house) => office.WithDbAsync(async db =>
    {
        var plan = FloorPlan.Of(await db.Houses.Include(h => h.Areas).SingleAsync(h => h.Id == house));
        var test = await db.PressureFieldTests.Include(t => t.SuctionHoles).Include(t => t.TestHoles).ThenInclude(h => h.Readings).SingleAsync(t => t.HouseId == house);
        return new CoverageInput
        {
            Plan = new SlabPlan
            {
                Areas = [.. plan.Areas.Take(2).Select(a => new SlabArea { Name = a.Name, Corners = a.Corners })],
                Footings = [new FootingLine { From = new(6.7056, 0), To = new(6.7056, 8.5344) }],
            },
            SuctionPoints = [.. test.SuctionHoles.OrderBy(s => s.Id).Select(s => new SuctionPlace { At = new(s.XM!.Value, s.YM!.Value), PitVacuumPa = 250 })],
            Readings = [.. test.TestHoles.OrderBy(h => h.Position).Select(h => new Engineering.Slab.HoleReading { Name = h.Label, At = new(h.XM!.Value, h.YM!.Value), VacuumPa = h.FanOffPa!.Value - h.Readings.Single().FanOnPa })],
        };
    });

    private static string Round(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture);

    private static double Feet(Group typed) => double.Parse(typed.Value, CultureInfo.InvariantCulture) * 0.3048;
}
