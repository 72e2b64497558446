using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Diagnosis;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>Readings and routes that the houses of the demo share, by the kind of ground and the way of the pipe.</summary>
internal static class DemoReadings
{
    private sealed record Tried(string Fan, double PitInWC, double Watts, double[] HolesPa);

    private static readonly (string Place, double Feet)[] Holes = [("by the stairs", 6), ("middle of the north wall", 17), ("laundry corner", 26), ("far corner", 34)];

    /// <summary>With suction at the first pit alone, or at the second.</summary>
    public static PressureFieldTest Test(DemoHouse house, int houseId, DateOnly day, double outdoorF, Func<string, int> fanId, bool second = false)
    {
        var (off, tried) = Of(house.Ground, second);
        var test = new PressureFieldTest
        {
            HouseId = houseId, Day = day, MeasuredBy = "Cleo Marsh", Instrument = $"{DemoQuality.Manometer}, and U-tube", OutdoorC = (outdoorF - 32) / 1.8, IndoorC = 20.6,
            AppliancesRunning = house.NaturalDraft ? "furnace fan, water heater" : "furnace fan",
            SuctionHoles = [new SuctionHole { Label = second ? "B" : "A", Place = "utility room, 2 ft from the footing" }],
            TestHoles = [.. Holes.Select((h, i) => new TestHole { Position = i + 1, Label = $"{i + 1}", Place = h.Place, DistanceM = h.Feet * 0.3048, FanOffPa = off[i] })],
            Settings = [.. tried.Select((t, i) => new FanSetting
            {
                Position = i + 1, FanId = fanId(t.Fan), Label = t.Fan, PitVacuumPa = Measures.GaugePressure.ToSi(t.PitInWC, "inWC"), PitVacuumAsEntered = $"{t.PitInWC} inWC", Watts = t.Watts,
            })],
        };
        DemoPlans.Place(house, test, second);
        return test;
    }

    public static IEnumerable<HoleReading> Readings(DemoHouse house, PressureFieldTest test, bool second = false)
    {
        var tried = Of(house.Ground, second).Tried;
        return from setting in test.Settings
               from hole in test.TestHoles
               let pa = tried[setting.Position - 1].HolesPa[hole.Position - 1]
               select new HoleReading { TestHoleId = hole.Id, FanSettingId = setting.Id, FanOnPa = pa, AsEntered = $"{pa} Pa" };
    }

    public static List<RoutePiece> Route(DemoHouse house)
    {
        List<RoutePiece> pieces = house.Route == "attic"
            ? [Pipe(9, 9, PiecePlace.Indoors), Bend(2, PiecePlace.Indoors), Pipe(11, 0, PiecePlace.Indoors), Pipe(9 * house.Storeys, 9 * house.Storeys, PiecePlace.Indoors),
                Fan(PiecePlace.Attic), Pipe(5, 5, PiecePlace.Attic), Pipe(2, 2, PiecePlace.Outdoors)]
            : [Pipe(7, 7, PiecePlace.Indoors), Bend(3, PiecePlace.Indoors), Pipe(14, 0, PiecePlace.Indoors), Bend(1, PiecePlace.Outdoors), Fan(PiecePlace.Outdoors),
                Pipe(4 + 9 * house.Storeys, 4 + 9 * house.Storeys, PiecePlace.Outdoors)];
        for (var i = 0; i < pieces.Count; i++) pieces[i].Position = i + 1;
        return pieces;
    }

    /// <summary>From the second pit up to the joists and along them, into the route before it turns to the wall.</summary>
    public static List<RoutePiece> Branch() =>
    [
        new() { Branch = 1, Position = 1, Kind = PieceKind.Pipe, Size = "3in", LengthM = 7 * 0.3048, RiseM = 7 * 0.3048 },
        new() { Branch = 1, Position = 2, Kind = PieceKind.Elbow90, Size = "3in" },
        new() { Branch = 1, Position = 3, Kind = PieceKind.Pipe, Size = "3in", LengthM = 26 * 0.3048, RiseM = 0.1 },
        new() { Branch = 1, Position = 4, Kind = PieceKind.Tee, Size = "4in" },
    ];

    private static RoutePiece Pipe(double feet, double rise, PiecePlace place) =>
        new() { Kind = PieceKind.Pipe, Size = "4in", LengthM = feet * 0.3048, RiseM = rise * 0.3048, Place = place };

    private static RoutePiece Bend(int count, PiecePlace place) => new() { Kind = PieceKind.Elbow90, Size = "4in", Count = count, Place = place };

    private static RoutePiece Fan(PiecePlace place) => new() { Kind = PieceKind.Fan, Size = "4in", Place = place };

    private static (double[] Off, Tried[] Tried) Of(string ground, bool second) => second
        ? ([0.5, 0.6, 0.9, 1.1], [new("Harrow 51", 1.74, 48.5, [-2.4, -1.6, -15.8, -39]), new("Harrow 32", 1.26, 30, [-1.6, -1.0, -11.2, -28])])
        : Of(ground);

    private static (double[] Off, Tried[] Tried) Of(string ground) => ground switch
    {
        "tight" => ([0.5, 0.7, 0.8, 0.9],
        [
            new("Tarn H70", 2.9, 68.5, [-205, -38, -17.2, -10.5]), new("Harrow 51", 1.9, 45, [-134, -24.6, -11, -6.6]),
        ]),
        "divided" => ([0.5, 0.6, 0.9, 1.1],
        [
            new("Harrow 51", 1.6, 46, [-69, -12.1, -1.4, 0.6]), new("Harrow 32", 1.05, 31.3, [-45, -7.8, -0.7, 0.8]),
        ]),
        "sand" => ([0.4, 0.6, 0.6, 0.8],
        [
            new("Harrow 32", 1.1, 31, [-88, -19.6, -12.1, -8.4]), new("Harrow 18", 0.78, 17.1, [-62, -13.7, -8.4, -5.7]),
        ]),
        _ => ([0.6, 0.4, 0.8, 0.9],
        [
            new("Harrow 32", 0.98, 31.6, [-131, -21.4, -13, -9.1]), new("Harrow 18", 0.66, 17.7, [-88, -14.2, -8.5, -6]),
        ]),
    };
}
