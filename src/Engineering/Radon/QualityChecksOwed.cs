using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>How much was tested in one month.</summary>
/// <param name="Locations">Places tested with passive devices, count (dimensionless).</param>
/// <param name="Devices">Passive devices put out, count (dimensionless).</param>
/// <param name="MonitorTests">Tests with continuous monitors, count (dimensionless).</param>
public sealed record MonthOfTests(int Locations, int Devices, int MonitorTests);

/// <summary>The quality checks owed for a time of testing.</summary>
/// <param name="Duplicates">Pairs of devices side by side, count (dimensionless): 10 % of places, 50 a month are enough.</param>
/// <param name="Blanks">Unexposed devices, count (dimensionless): 5 % of devices, 25 a month are enough.</param>
/// <param name="SpikesByShare">Spiked devices by the share of 3 %, count (dimensionless), before the upper limit.</param>
/// <param name="Spikes">Spiked devices that are enough, count (dimensionless): 6 a month at most, 3 a year at least.</param>
/// <param name="MonitorComparisons">Comparisons of a continuous monitor with another device, count (dimensionless): every tenth test.</param>
public sealed record QualityChecks(int Duplicates, int Blanks, int SpikesByShare, int Spikes, int MonitorComparisons);

/// <summary>How many quality checks a time of testing owes.</summary>
public static class QualityChecksOwed
{
    /// <summary>Fewest spiked devices in a year with any testing, count (dimensionless).</summary>
    public const int FewestSpikesInYear = 3;

    /// <summary>Spiked devices that are enough in one month, count (dimensionless).</summary>
    public const int EnoughSpikesInMonth = 6;

    /// <summary>Pairs that are enough in one month, count (dimensionless).</summary>
    public const int EnoughDuplicatesInMonth = 50;

    /// <summary>Blanks that are enough in one month, count (dimensionless).</summary>
    public const int EnoughBlanksInMonth = 25;

    /// <summary>Checks owed for one month. 1000 devices: 30 spikes by the share, 6 are enough.</summary>
    /// <param name="month">What was tested.</param>
    /// <returns>The checks owed; parts of one count as one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count below 0 or above 1 000 000.</exception>
    /// <remarks>Range: counts of 0 to 1 000 000. Source: ANSI/AARST MS-QA 2019, 5.3.1 (spikes) and 4.2 (comparisons); EPA 402-R-92-004, from memory (duplicates, blanks).</remarks>
    public static QualityChecks ForMonth(MonthOfTests month)
    {
        Refuse(month);
        var spikes = Share(month.Devices, 3);
        return new(
            Math.Min(Share(month.Locations, 10), EnoughDuplicatesInMonth),
            Math.Min(Share(month.Devices, 5), EnoughBlanksInMonth),
            spikes,
            Math.Min(spikes, EnoughSpikesInMonth),
            Share(month.MonitorTests, 10));
    }

    /// <summary>
    /// Checks owed for a year of months. 100 devices in the year: 3 spikes; 40 devices: still 3. Shares are taken of the
    /// year's sums, and each is limited by what would be enough month by month.
    /// </summary>
    /// <param name="months">One to twelve months.</param>
    /// <returns>The checks owed; parts of one count as one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not 1 to 12 months, or a count out of range.</exception>
    /// <remarks>Range: 1 to 12 months. Source: as for one month; summing over the year is a house rule.</remarks>
    public static QualityChecks ForYear(IReadOnlyList<MonthOfTests> months)
    {
        Require.InRange(months.Count, 1, 12, "months", "The number of months");
        var monthly = months.Select(ForMonth).ToList();
        var devices = months.Sum(month => month.Devices);
        var spikes = Share(devices, 3);
        var enough = Math.Max(FewestSpikesInYear, Math.Min(spikes, monthly.Sum(month => month.Spikes)));
        return new(
            Math.Min(Share(months.Sum(month => month.Locations), 10), monthly.Sum(month => month.Duplicates)),
            Math.Min(Share(devices, 5), monthly.Sum(month => month.Blanks)),
            spikes,
            devices == 0 ? 0 : enough,
            Share(months.Sum(month => month.MonitorTests), 10));
    }

    /// <summary>
    /// Checks owed for a part of a year, such as a quarter: shares of its sums, without the year's least number of
    /// spiked devices. Three months of 40 places and devices: 12 pairs, 6 blanks, 4 spikes.
    /// </summary>
    /// <param name="months">One to twelve months.</param>
    /// <returns>The checks owed; parts of one count as one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not 1 to 12 months, or a count out of range.</exception>
    /// <remarks>Range: 1 to 12 months. Source: as for one month; summing over months is a house rule.</remarks>
    public static QualityChecks ForMonths(IReadOnlyList<MonthOfTests> months)
    {
        Require.InRange(months.Count, 1, 12, "months", "The number of months");
        var monthly = months.Select(ForMonth).ToList();
        var devices = months.Sum(month => month.Devices);
        return new(
            Math.Min(Share(months.Sum(month => month.Locations), 10), monthly.Sum(month => month.Duplicates)),
            Math.Min(Share(devices, 5), monthly.Sum(month => month.Blanks)),
            Share(devices, 3),
            Math.Min(Share(devices, 3), monthly.Sum(month => month.Spikes)),
            Share(months.Sum(month => month.MonitorTests), 10));
    }

    private static int Share(int count, int percent) => (count * percent + 99) / 100;

    private static void Refuse(MonthOfTests month)
    {
        Require.InRange(month.Locations, 0, 1_000_000, "places", "The number of places");
        Require.InRange(month.Devices, 0, 1_000_000, "devices", "The number of devices");
        Require.InRange(month.MonitorTests, 0, 1_000_000, "tests", "The number of monitor tests");
    }
}
