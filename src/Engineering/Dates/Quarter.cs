using System.Globalization;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>A quarter of a calendar year.</summary>
public readonly record struct Quarter
{
    /// <summary>A quarter; the second of 2025 ends on 2025-06-30.</summary>
    /// <param name="year">Calendar year, 1978 to 9998.</param>
    /// <param name="number">1 to 4.</param>
    /// <exception cref="ArgumentOutOfRangeException">A year or number out of range.</exception>
    public Quarter(int year, int number)
    {
        Year = Require.InRange(year, FederalHolidays.FirstYear, FederalHolidays.LastYear, "(calendar year)", "The year");
        Number = Require.InRange(number, 1, 4, "(1 to 4)", "The quarter");
    }

    /// <summary>The calendar year (dimensionless).</summary>
    public int Year { get; }

    /// <summary>1 to 4 (dimensionless).</summary>
    public int Number { get; }

    /// <summary>The first day.</summary>
    public DateOnly FirstDay => new(Year, Number * 3 - 2, 1);

    /// <summary>The last day.</summary>
    public DateOnly LastDay => FirstDay.AddMonths(3).AddDays(-1);

    /// <summary>The quarter a day lies in.</summary>
    /// <param name="day">The day.</param>
    /// <returns>The quarter.</returns>
    public static Quarter Of(DateOnly day) => new(day.Year, (day.Month + 2) / 3);

    /// <summary>For example "Q2 2025".</summary>
    /// <returns>The text.</returns>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"Q{Number} {Year}");
}
