using static MitigationOffice.Engineering.Freezing.Allowed;

namespace MitigationOffice.Engineering.Freezing.Weather;

/// <summary>
/// A winter made up from three numbers: the design temperature, the January mean and the length. It is no record of any
/// year; it is a plain stand-in until a daily record is imported, and every page that shows it says so.
/// </summary>
public static class PlainWinter
{
    /// <summary>Sentence that goes with every result from a made-up winter.</summary>
    public const string Caution =
        "The winter is made up from the design temperature, the January mean and the length; it is not a weather record.";

    /// <summary>Difference between a day's highest and lowest temperature in a made-up winter, K (an assumption).</summary>
    public const double DailySwingK = 10;

    /// <summary>Mean temperature at both ends of a made-up winter, °C, unless January itself is warmer (an assumption).</summary>
    public const double EdgeMeanC = 4;

    /// <summary>
    /// Makes the days: a smooth season from +4 °C down to the January mean and back, with cold and mild spells laid over it
    /// so that the middle 31 days have exactly the January mean and the coldest day's minimum is exactly the design
    /// temperature. Example: design −20 °C, January −5 °C, 150 days gives 150 days whose coldest night is −20 °C.
    /// </summary>
    /// <param name="designC">Design temperature, °C, taken as the coldest night of the made-up winter.</param>
    /// <param name="januaryMeanC">Mean temperature of January, °C.</param>
    /// <param name="days">Length of the winter, a plain count of days.</param>
    /// <param name="seed">Seed of the spells: the same seed gives the same winter, dimensionless.</param>
    /// <returns>The days in order, the middle one on 16 January of an ordinary year.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: design −50 to 5 °C and at least 6 K under the January mean; January mean −30 to 15 °C; 60 to 240 days.
    /// Source: made up; the spells are an autoregressive series of one day's memory 0.75, the memory a usual size for daily
    /// temperatures (from memory, no source).
    /// </remarks>
    public static IReadOnlyList<WeatherDay> Days(double designC, double januaryMeanC, int days, ulong seed = 1)
    {
        Within(januaryMeanC, -30, 15, "January mean", "°C");
        Within(designC, -50, Math.Min(5, januaryMeanC - 6), "Design temperature", "°C");
        Within(days, 60, 240, "Length of the winter", "days");
        var season = Season(januaryMeanC, days);
        var spells = Spells(days, seed);
        var size = SizeOfSpells(season, spells, designC);
        var first = new DateOnly(2025, 1, 16).AddDays(-days / 2);
        return [.. Enumerable.Range(0, days).Select(day => Day(first.AddDays(day), season[day] + size * spells[day]))];
    }

    private static WeatherDay Day(DateOnly day, double meanC) =>
        new() { Day = day, MinC = meanC - DailySwingK / 2, MaxC = meanC + DailySwingK / 2 };

    private static double[] Season(double januaryMeanC, int days)
    {
        var edge = Math.Max(EdgeMeanC, januaryMeanC);
        var dip = new double[days];
        for (var day = 0; day < days; day++)
            dip[day] = 0.5 * (1 - Math.Cos(2 * Math.PI * (day + 0.5) / days));
        var depth = (edge - januaryMeanC) / MiddleMean(dip);
        return [.. dip.Select(share => edge - depth * share)];
    }

    private static double[] Spells(int days, ulong seed)
    {
        const double memory = 0.75;
        var numbers = new SeededNumbers(seed);
        var spells = new double[days];
        var value = numbers.NextNormal();
        for (var day = 0; day < days; day++)
        {
            spells[day] = value;
            value = memory * value + Math.Sqrt(1 - memory * memory) * numbers.NextNormal();
        }
        var middle = MiddleMean(spells);
        return [.. spells.Select(spell => spell - middle)];
    }

    private static double MiddleMean(double[] values) => values.Skip(values.Length / 2 - 15).Take(31).Average();

    // The coldest night falls steadily as the spells grow: each day with a negative spell gets colder, so bisection finds
    // the size at which the coldest night is the design temperature.
    private static double SizeOfSpells(double[] season, double[] spells, double designC)
    {
        var (low, high) = (0.0, 100.0);
        for (var step = 0; step < 60; step++)
        {
            var size = (low + high) / 2;
            if (ColdestNight(season, spells, size) > designC) low = size;
            else high = size;
        }
        return (low + high) / 2;
    }

    private static double ColdestNight(double[] season, double[] spells, double size)
    {
        var coldest = double.PositiveInfinity;
        for (var day = 0; day < season.Length; day++)
            coldest = Math.Min(coldest, season[day] + size * spells[day] - DailySwingK / 2);
        return coldest;
    }
}
