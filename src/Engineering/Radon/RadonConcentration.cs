using System.Globalization;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>
/// A radon concentration in air, held as decimal pCi/L so that 3.8 and 4.1 average to exactly 3.95 and show 4.0.
/// The default value is 0 pCi/L.
/// </summary>
public readonly record struct RadonConcentration : IComparable<RadonConcentration>
{
    /// <summary>1 pCi/L in Bq/m³ (1 Ci = 3.7e10 Bq, exact; NIST SP 811).</summary>
    public const decimal BqPerM3InOnePciPerL = 37m;

    /// <summary>The largest accepted concentration, in pCi/L; beyond it an entry is taken for a slip of the pen.</summary>
    public const decimal LargestPciPerL = 100_000m;

    /// <summary>Results reported under this many pCi/L are near what a device can measure (ANSI/AARST MAH 2019, 7.1).</summary>
    public const decimal DeviceLimitPciPerL = 2.0m;

    /// <summary>The note shown beside a result under 2.0 pCi/L.</summary>
    public const string NearDeviceLimitNote = "near what the device can measure";

    private RadonConcentration(decimal pciPerL) => PciPerL = pciPerL;

    /// <summary>The concentration in pCi/L, unrounded.</summary>
    public decimal PciPerL { get; }

    /// <summary>The concentration in Bq/m³, unrounded; 4 pCi/L is 148 Bq/m³.</summary>
    public decimal BqPerM3 => PciPerL * BqPerM3InOnePciPerL;

    /// <summary>The concentration in pCi/L as it is reported: one decimal, half away from zero; 3.95 is 4.0.</summary>
    public decimal ReportedPciPerL => Math.Round(PciPerL, 1, MidpointRounding.AwayFromZero);

    /// <summary>The concentration in whole Bq/m³ as it is reported, half away from zero; 2.7 pCi/L is 100 Bq/m³.</summary>
    public decimal ReportedBqPerM3 => Math.Round(BqPerM3, 0, MidpointRounding.AwayFromZero);

    /// <summary>True when the reported value is under 2.0 pCi/L and the note belongs beside it.</summary>
    public bool IsNearDeviceLimit => ReportedPciPerL < DeviceLimitPciPerL;

    /// <summary>A concentration from pCi/L; 4 pCi/L is 148 Bq/m³.</summary>
    /// <param name="pciPerL">Concentration, pCi/L.</param>
    /// <returns>The concentration.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Below 0 or above 100 000 pCi/L.</exception>
    /// <remarks>Range: 0 to 100 000 pCi/L. Source: plain arithmetic; the upper end is a house rule against slips.</remarks>
    public static RadonConcentration FromPciPerL(decimal pciPerL) =>
        new(Require.InRange(pciPerL, 0m, LargestPciPerL, "pCi/L", "The radon concentration"));

    /// <summary>A concentration from Bq/m³; 100 Bq/m³ is 2.7027 pCi/L and shows 2.7.</summary>
    /// <param name="bqPerM3">Concentration, Bq/m³.</param>
    /// <returns>The concentration.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Below 0 or above 3 700 000 Bq/m³.</exception>
    /// <remarks>Range: 0 to 3 700 000 Bq/m³. Source: 1 Ci = 3.7e10 Bq (NIST SP 811).</remarks>
    public static RadonConcentration FromBqPerM3(decimal bqPerM3)
    {
        Require.InRange(bqPerM3, 0m, LargestPciPerL * BqPerM3InOnePciPerL, "Bq/m³", "The radon concentration");
        return new(bqPerM3 / BqPerM3InOnePciPerL);
    }

    /// <summary>The unrounded arithmetic mean; of 3.8 and 4.1 pCi/L it is 3.95, reported as 4.0.</summary>
    /// <param name="results">At least one concentration.</param>
    /// <returns>The mean.</returns>
    /// <exception cref="ArgumentException">No result was given.</exception>
    /// <remarks>Range: one or more results. Source: plain arithmetic; rounding once, at the end (ANSI/AARST MAH 2019, 8.5.2).</remarks>
    public static RadonConcentration Average(IReadOnlyCollection<RadonConcentration> results)
    {
        if (results.Count == 0)
            throw new ArgumentException("An average needs at least one result; none was given.", nameof(results));
        return new(results.Sum(result => result.PciPerL) / results.Count);
    }

    /// <summary>The text for a page or a letter: "3.9 pCi/L", and under 2.0 "1.2 pCi/L (near what the device can measure)".</summary>
    /// <returns>The text, always with a decimal point.</returns>
    public string Display() => IsNearDeviceLimit ? $"{ToString()} ({NearDeviceLimitNote})" : ToString();

    /// <summary>The reported value with its unit, for example "4.0 pCi/L".</summary>
    /// <returns>The text, always with a decimal point.</returns>
    public override string ToString() => ReportedPciPerL.ToString("0.0", CultureInfo.InvariantCulture) + " pCi/L";

    /// <summary>The reported value in the other unit, for example "148 Bq/m³".</summary>
    /// <returns>The text: whole Bq/m³.</returns>
    public string ToBqText() => ReportedBqPerM3.ToString("0", CultureInfo.InvariantCulture) + " Bq/m³";

    /// <summary>Compares unrounded concentrations (pCi/L).</summary>
    /// <param name="other">The other concentration.</param>
    /// <returns>Negative, zero or positive (dimensionless), as for every comparison.</returns>
    public int CompareTo(RadonConcentration other) => PciPerL.CompareTo(other.PciPerL);

    /// <summary>True when the left concentration is lower.</summary>
    public static bool operator <(RadonConcentration left, RadonConcentration right) => left.PciPerL < right.PciPerL;

    /// <summary>True when the left concentration is higher.</summary>
    public static bool operator >(RadonConcentration left, RadonConcentration right) => left.PciPerL > right.PciPerL;

    /// <summary>True when the left concentration is lower or the same.</summary>
    public static bool operator <=(RadonConcentration left, RadonConcentration right) => left.PciPerL <= right.PciPerL;

    /// <summary>True when the left concentration is higher or the same.</summary>
    public static bool operator >=(RadonConcentration left, RadonConcentration right) => left.PciPerL >= right.PciPerL;
}
