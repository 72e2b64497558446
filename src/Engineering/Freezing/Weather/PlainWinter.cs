using static MitigationOffice.Engineering.Require;

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

    /// <summary>Standard deviation of the daily mean about the season in a made-up winter, K (an assumption).</summary>
    public const double UsualSpellK = 5;

    /// <summary>Standard width of the coldest spell where it is deepened to the design temperature, days (an assumption).</summary>
    public const double SpellWidthDays = 2;

    /// <summary>
    /// Mean temperature at both ends of a made-up winter, °C; warmer if January itself is, colder if a short winter would
    /// otherwise undercut the design temperature (an assumption).
    /// </summary>
    public const double EdgeMeanC = 4;

    /// <summary>
    /// Makes the days: a smooth season from +4 °C down to the January mean and back, with cold and mild spells laid over it
    /// so that the middle 31 days have exactly the January mean and the coldest day's minimum is exactly the design
    /// temperature. Example: design −20 °C, January −5 °C, 150 days gives 150 days whose coldest night is −20 °C.
    /// </summary>
    /// <param name="designC">Design temperature, °C, taken as the coldest night of the made-up winter.</param>
    /// <param name="januaryMeanC">Mean temperature of January, °C.</param>
    /// <param name="days">Length of the winter, days.</param>
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
        InRange(januaryMeanC, -30, 15, "°C", "January mean");
        InRange(designC, -50, Math.Min(5, januaryMeanC - 6), "°C", "Design temperature");
        InRange(days, 60, 240, "days", "Length of the winter");
        var means = Means(designC, januaryMeanC, days, seed);
        var first = new DateOnly(2025, 1, 16).AddDays(-days / 2);
        return [.. means.Select((mean, day) => Day(first.AddDays(day), mean))];
    }

    private static WeatherDay Day(DateOnly day, double meanC) =>
        new() { Day = day, MinC = meanC - DailySwingK / 2, MaxC = meanC + DailySwingK / 2 };

    // The ordinary spells are as large as usual, or smaller where they would undercut the design temperature; then the
    // coldest spell is deepened to reach it, and all days are raised by what that takes from January's mean.
    private static double[] Means(double designC, double januaryMeanC, int days, ulong seed)
    {
        var season = Season(designC, januaryMeanC, days);
        var spells = Spells(days, seed);
        var size = SizeOfSpells(season, spells, designC);
        double[] means = [.. season.Zip(spells, (mean, spell) => mean + size * spell)];
        return Deepened(means, designC + DailySwingK / 2);
    }

    private static double[] Deepened(double[] means, double coldestMeanC)
    {
        var coldest = Array.IndexOf(means, means.Min());
        double[] shape = [.. means.Select((_, day) => Math.Exp(-0.5 * Math.Pow((day - coldest) / SpellWidthDays, 2)))];
        var share = MiddleMean(shape);
        var depth = (means[coldest] - coldestMeanC) / (1 - share);
        return [.. means.Select((mean, day) => mean + depth * (share - shape[day]))];
    }

    private static double[] Season(double designC, double januaryMeanC, int days)
    {
        double[] dip = [.. Enumerable.Range(0, days).Select(day => 1 - Math.Cos(2 * Math.PI * (day + 0.5) / days))];
        var middle = MiddleMean(dip);
        var room = januaryMeanC - DailySwingK / 2 - designC;
        var depth = Math.Min(Math.Max(0, EdgeMeanC - januaryMeanC), 0.5 * room / (dip.Max() / middle - 1));
        return [.. dip.Select(share => januaryMeanC + depth * (1 - share / middle))];
    }

    private static double[] Spells(int days, ulong seed)
    {
        const double memory = 0.75;
        var numbers = new SeededNumbers(seed);
        var spells = new double[days];
        var value = numbers.NextNormal();
        for (var day = 0; day < days; day++)
        {
            spells[day] = Math.Clamp(value, -2.5, 2.5);
            value = memory * value + Math.Sqrt(1 - memory * memory) * numbers.NextNormal();
        }
        var middle = MiddleMean(spells);
        return [.. spells.Select(spell => spell - middle)];
    }

    private static double MiddleMean(double[] values) => values.Skip(values.Length / 2 - 15).Take(31).Average();

    // The coldest night falls as the spells grow, so bisection finds the largest usual size that does not undercut.
    private static double SizeOfSpells(double[] season, double[] spells, double designC)
    {
        var (low, high) = (0.0, UsualSpellK);
        for (var step = 0; step < 50; step++)
        {
            var size = (low + high) / 2;
            if (ColdestNight(season, spells, size) > designC) low = size;
            else high = size;
        }
        return low;
    }

    private static double ColdestNight(double[] season, double[] spells, double size)
    {
        var coldest = double.PositiveInfinity;
        for (var day = 0; day < season.Length; day++)
            coldest = Math.Min(coldest, season[day] + size * spells[day] - DailySwingK / 2);
        return coldest;
    }
}
