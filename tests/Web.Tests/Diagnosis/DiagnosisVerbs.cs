using System.Globalization;
using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Tests.Diagnosis;

/// <summary>Makes houses with readings, through the pages where there are pages for it.</summary>
public static class DiagnosisVerbs
{
    private static int _houses;

    /// <summary>A house with one basement of 1000 ft², without anything measured.</summary>
    public static Task<int> PlainHouseAsync(this OfficeApp office) => office.WithDbAsync(async db =>
    {
        var house = new House
        {
            Street = $"{Interlocked.Increment(ref _houses)} Heron Row", City = "Birchford", State = "MN", Zip = "55999", StoreysAboveGrade = 1, AskedAtUtc = OfficeApp.Start.UtcDateTime,
            Areas = [new() { Name = "Basement", Kind = FoundationKind.Basement, FloorM2 = 92.9 }],
        };
        house.MakeSearchable();
        db.Houses.Add(house);
        await db.SaveChangesAsync();
        return house.Id;
    });

    /// <summary>Two invented fans whose curves hold the trade's readings: about 42 W and about 15 W.</summary>
    public static Task<(int Large, int Small)> TwoFansAsync(this OfficeApp office) => office.WithDbAsync(async db =>
    {
        if (await db.Fans.FirstOrDefaultAsync(f => f.Model == "Test 42") is { } known)
            return (known.Id, (await db.Fans.SingleAsync(f => f.Model == "Test 15")).Id);
        var large = new Fan { Model = "Test 42", Connection = "4in", Price = Money.FromDollars(190m), Points = Curve((0, 450, 45), (25, 400, 43.5), (50, 345, 42), (75, 270, 42), (100, 180, 42.5), (130, 20, 43)) };
        var small = new Fan { Model = "Test 15", Connection = "4in", Price = Money.FromDollars(140m), Points = Curve((0, 260, 14.2), (20, 222, 15.2), (40, 175, 15.9), (60, 110, 16.5), (85, 10, 17)) };
        db.AddRange(large, small);
        await db.SaveChangesAsync();
        return (large.Id, small.Id);
    });

    /// <summary>A house whose day of readings was typed in: the larger fan and the smaller one, four holes.</summary>
    public static async Task<int> HouseWithReadingsAsync(this OfficeApp office)
    {
        var house = await office.PlainHouseAsync();
        var fans = await office.TwoFansAsync();
        var answer = await (await office.SignInAsOwnerAsync()).SubmitAsync($"/houses/{house}/diagnosis/readings", TradeReadings(fans.Large, fans.Small));
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return house;
    }

    /// <summary>Common practice, no source: on one house a 42 W fan gave 6.0 Pa at the weakest hole and a 15 W fan 3.7 Pa;
    /// a hole beside the pit read 213 Pa while the manometer read 0.9 inWC.</summary>
    public static Dictionary<string, string> TradeReadings(int large, int small) => new()
    {
        ["Input.Day"] = "2026-01-14", ["Input.Instrument"] = "M-2", ["Input.Outdoor"] = "30 °F", ["Input.Indoor"] = "68",
        ["Input.Settings[0].FanId"] = Text(large), ["Input.Settings[0].PitVacuum"] = "1.46 inWC", ["Input.Settings[0].Watts"] = "42",
        ["Input.Settings[1].FanId"] = Text(small), ["Input.Settings[1].PitVacuum"] = "0.9 inWC", ["Input.Settings[1].Watts"] = "15",
        ["Input.Holes[0].Label"] = "beside", ["Input.Holes[0].Distance"] = "1 ft", ["Input.Holes[0].FanOff"] = "0", ["Input.Holes[0].On[0]"] = "345 Pa", ["Input.Holes[0].On[1]"] = "213 Pa",
        ["Input.Holes[1].Label"] = "middle", ["Input.Holes[1].Distance"] = "14 ft", ["Input.Holes[1].FanOff"] = "0.0", ["Input.Holes[1].On[0]"] = "−12.1", ["Input.Holes[1].On[1]"] = "-7.4",
        ["Input.Holes[2].Label"] = "far", ["Input.Holes[2].Distance"] = "27'6\"", ["Input.Holes[2].FanOff"] = "0", ["Input.Holes[2].On[0]"] = "-6.0", ["Input.Holes[2].On[1]"] = "3.7",
    };

    private static List<FanPoint> Curve(params (double Cfm, double Pa, double Watts)[] points) =>
        [.. points.Select(p => new FanPoint { FlowM3PerS = p.Cfm * 4.719474432e-4, StaticPressurePa = p.Pa, Watts = p.Watts })];

    private static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);
}
