using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Houses;

/// <summary>Places of a floor plan as they are kept ("x,y x,y", metres) and as a field shows them (in the reader's unit).</summary>
public static class PlanText
{
    private const int StoredDigits = 4;

    public static string Store(IEnumerable<PlanPoint> places) => Write(places, 1, StoredDigits);

    public static IReadOnlyList<PlanPoint> Load(string stored) =>
        [.. stored.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(p => p.Split(',')).Select(p => new PlanPoint(Number(p[0]), Number(p[1])))];

    /// <summary>Lines of places, as footings are kept.</summary>
    public static IReadOnlyList<IReadOnlyList<PlanPoint>> LoadLines(string stored) =>
        [.. stored.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Load)];

    /// <summary>"0,0 40,0 40,28": as typed fields hold it.</summary>
    public static string Show(IEnumerable<PlanPoint> places, UnitSystem units) =>
        units == UnitSystem.US ? Write(places, 0.3048, 2) : Write(places, 1, 3);

    public static string Show(PlanPoint? place, UnitSystem units) => place is { } at ? Show([at], units) : "";

    /// <summary>"12.5 ft across, 8 ft up": as sentences say it.</summary>
    public static string Say(PlanPoint place, UnitSystem units) =>
        $"{Measures.Length.Show(place.XM, units)} across, {Measures.Length.Show(place.YM, units)} up";

    private static string Write(IEnumerable<PlanPoint> places, double unitM, int digits) =>
        string.Join(' ', places.Select(p => $"{Text(p.XM / unitM, digits)},{Text(p.YM / unitM, digits)}"));

    private static string Text(double value, int digits)
    {
        var rounded = Math.Round(value, digits, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("0.####", CultureInfo.InvariantCulture);
    }

    private static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
