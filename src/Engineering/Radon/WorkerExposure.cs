using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>Time one worker spent in radon.</summary>
/// <param name="Day">The day.</param>
/// <param name="Concentration">The concentration worked in; pCi/L inside.</param>
/// <param name="Hours">Time in it, hours.</param>
/// <param name="EquilibriumRatio">Equilibrium ratio of the decay products, dimensionless, 0 to 1.</param>
public sealed record ExposureEntry(
    DateOnly Day, RadonConcentration Concentration, decimal Hours, decimal EquilibriumRatio = WorkerExposure.AssumedEquilibriumRatio)
{
    /// <summary>The exposure, working level months (WLM).</summary>
    public decimal WorkingLevelMonths => WorkerExposure.WorkingLevelMonths(Concentration, Hours, EquilibriumRatio);
}

/// <summary>How near a worker has come to the yearly limit.</summary>
public enum ExposureStanding
{
    /// <summary>Below half the limit.</summary>
    Fine,

    /// <summary>At half the limit or more (house rule): plan the next months.</summary>
    NearingLimit,

    /// <summary>At the limit or more: no further exposure.</summary>
    AtLimit,
}

/// <summary>A worker's exposure over twelve months.</summary>
/// <param name="WorkingLevelMonths">The sum, working level months (WLM).</param>
/// <param name="LimitWorkingLevelMonths">The limit, working level months (WLM).</param>
/// <param name="Standing">How near the limit it is.</param>
/// <param name="Source">Where the limit comes from.</param>
public sealed record ExposureYear(
    decimal WorkingLevelMonths, decimal LimitWorkingLevelMonths, ExposureStanding Standing, Citation Source);

/// <summary>Exposure of workers to radon decay products.</summary>
public static class WorkerExposure
{
    /// <summary>Equilibrium ratio assumed where none was measured, dimensionless.</summary>
    public const decimal AssumedEquilibriumRatio = 0.5m;

    /// <summary>Hours in a working month, h.</summary>
    public const decimal HoursInWorkingMonth = 170m;

    /// <summary>Limit over twelve months, working level months (WLM).</summary>
    public const decimal YearLimitWorkingLevelMonths = 4m;

    /// <summary>Share of the limit from which to warn, dimensionless; a house rule.</summary>
    public const decimal WarnAtShareOfLimit = 0.5m;

    /// <summary>Source of the limit.</summary>
    public static readonly Citation LimitSource = new("32 Ill. Adm. Code 422.70(e)", Certainty.Published);

    /// <summary>Working levels: pCi/L times equilibrium ratio over 100. 4 pCi/L at 0.5 is 0.02 WL.</summary>
    /// <param name="concentration">The concentration.</param>
    /// <param name="equilibriumRatio">Equilibrium ratio, dimensionless.</param>
    /// <returns>Working levels (WL).</returns>
    /// <exception cref="ArgumentOutOfRangeException">A ratio outside 0 to 1.</exception>
    /// <remarks>Range: ratio 0 to 1. Source: 216-RICR-50-15-2.5 pairs 4 pCi/L with 0.02 WL; the formula from memory.</remarks>
    public static decimal WorkingLevels(RadonConcentration concentration, decimal equilibriumRatio = AssumedEquilibriumRatio) =>
        concentration.PciPerL * Require.InRange(equilibriumRatio, 0m, 1m, "(dimensionless)", "The equilibrium ratio") / 100m;

    /// <summary>Working level months: working levels times hours over 170. 4 pCi/L, 0.5, 2000 h: 0.235 WLM.</summary>
    /// <param name="concentration">The concentration.</param>
    /// <param name="hours">Time in it, hours.</param>
    /// <param name="equilibriumRatio">Equilibrium ratio, dimensionless.</param>
    /// <returns>Working level months (WLM).</returns>
    /// <exception cref="ArgumentOutOfRangeException">Hours outside 0 to 8784, or a ratio outside 0 to 1.</exception>
    /// <remarks>Range: 0 to 8784 h; ratio 0 to 1. Source: arithmetic on the definition of the working level month, from memory.</remarks>
    public static decimal WorkingLevelMonths(
        RadonConcentration concentration, decimal hours, decimal equilibriumRatio = AssumedEquilibriumRatio) =>
        WorkingLevels(concentration, equilibriumRatio)
            * Require.InRange(hours, 0m, 8784m, "h", "The working time") / HoursInWorkingMonth;

    /// <summary>
    /// Sums the twelve months that end with a day. Entries of 2025-03-02 to 2026-03-01 count for 2026-03-01.
    /// 8500 h at 4 pCi/L and 0.5 is 1.0 WLM.
    /// </summary>
    /// <param name="entries">The entries of one worker, in any order.</param>
    /// <param name="lastDay">The last day of the twelve months.</param>
    /// <returns>The sum and its standing.</returns>
    /// <remarks>Range: any entries. Source: 32 Ill. Adm. Code 422.70(e), 4 WLM in twelve months; the warning at half of it is a house rule.</remarks>
    public static ExposureYear TwelveMonthsTo(IEnumerable<ExposureEntry> entries, DateOnly lastDay)
    {
        var yearBefore = lastDay.AddYears(-1);
        var sum = entries
            .Where(entry => entry.Day > yearBefore && entry.Day <= lastDay)
            .Sum(entry => entry.WorkingLevelMonths);
        return new(sum, YearLimitWorkingLevelMonths, StandingOf(sum), LimitSource);
    }

    private static ExposureStanding StandingOf(decimal sum) => sum switch
    {
        >= YearLimitWorkingLevelMonths => ExposureStanding.AtLimit,
        >= YearLimitWorkingLevelMonths * WarnAtShareOfLimit => ExposureStanding.NearingLimit,
        _ => ExposureStanding.Fine,
    };
}
