using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>Where a quality check lies.</summary>
public enum ControlZone
{
    /// <summary>Within the limits.</summary>
    Within,

    /// <summary>The warning limit is reached: look for the cause.</summary>
    Warning,

    /// <summary>The control limit is reached: stop, find the cause, put it right.</summary>
    Control,
}

/// <summary>How two devices side by side agree.</summary>
/// <param name="Mean">Their average; pCi/L inside.</param>
/// <param name="DifferencePciPerL">Their absolute difference, pCi/L.</param>
/// <param name="RelativePercentDifference">The relative percent difference, percent; null below an average of 2.0 pCi/L, where the difference itself is judged.</param>
/// <param name="Limits">The limits it was held against.</param>
/// <param name="Zone">Where it lies.</param>
/// <param name="Source">Where the limits come from.</param>
public sealed record DuplicateFinding(
    RadonConcentration Mean,
    decimal DifferencePciPerL,
    decimal? RelativePercentDifference,
    PairLimits Limits,
    ControlZone Zone,
    Citation Source);

/// <summary>The limits for one pair: percent of relative difference, or below 2.0 pCi/L a difference in pCi/L.</summary>
/// <param name="TargetPercent">Expected mean relative difference, percent; null below 2.0 pCi/L.</param>
/// <param name="WarningPercent">Warning from here up, percent; null below 2.0 pCi/L.</param>
/// <param name="ControlPercent">Control from here up, percent; null below 2.0 pCi/L.</param>
/// <param name="LargestDifferencePciPerL">Largest accepted difference, pCi/L; null from 2.0 pCi/L up.</param>
public sealed record PairLimits(
    decimal? TargetPercent, decimal? WarningPercent, decimal? ControlPercent, decimal? LargestDifferencePciPerL)
{
    /// <summary>From an average of 4.0 pCi/L: 14, 28 and 36 percent.</summary>
    public static readonly PairLimits FromFour = new(14m, 28m, 36m, null);

    /// <summary>From 2.0 to below 4.0 pCi/L: 25, 50 and 67 percent.</summary>
    public static readonly PairLimits FromTwo = new(25m, 50m, 67m, null);

    /// <summary>Below 2.0 pCi/L: a difference of at most 1.0 pCi/L.</summary>
    public static readonly PairLimits BelowTwo = new(null, null, null, 1.0m);

    /// <summary>The default limits for an average, until there are 20 pairs of one's own.</summary>
    /// <param name="mean">The pair's average.</param>
    /// <returns>The limits.</returns>
    /// <remarks>Range: any concentration; the unrounded average chooses the band. Source: ANSI/AARST MS-QA 2019, 3.5 and Table 7.1.</remarks>
    public static PairLimits For(RadonConcentration mean) => mean.PciPerL switch
    {
        >= RadonLevels.EpaActionPciPerL => FromFour,
        >= RadonLevels.EpaConsiderPciPerL => FromTwo,
        _ => BelowTwo,
    };
}

/// <summary>A device exposed to a known concentration, judged.</summary>
/// <param name="RelativePercentError">The relative percent error, percent; positive reads high.</param>
/// <param name="Zone">Where it lies.</param>
/// <param name="Source">Where the limits come from.</param>
public sealed record SpikeFinding(decimal RelativePercentError, ControlZone Zone, Citation Source);

/// <summary>The arithmetic of measurement quality: pairs, spikes and blanks.</summary>
public static class RadonStatistics
{
    /// <summary>A spike warns beyond this relative error, percent.</summary>
    public const decimal SpikeWarningPercent = 20m;

    /// <summary>A spike is out of control beyond this relative error, percent.</summary>
    public const decimal SpikeControlPercent = 30m;

    /// <summary>Relative percent difference of a pair: 100·|a − b| over their average. 4.8 and 5.6 pCi/L give 15.38 %.</summary>
    /// <param name="first">One result.</param>
    /// <param name="second">The other result.</param>
    /// <returns>The difference, percent.</returns>
    /// <exception cref="ArgumentException">Both are 0 pCi/L.</exception>
    /// <remarks>Range: 0 to 200 percent; at least one result above 0 pCi/L. Source: named in ANSI/AARST MS-QA 2019, 3.5; the formula from memory.</remarks>
    public static decimal RelativePercentDifference(RadonConcentration first, RadonConcentration second)
    {
        var sum = first.PciPerL + second.PciPerL;
        if (sum == 0m)
            throw new ArgumentException("Both results are 0 pCi/L; a relative difference needs one above 0 pCi/L.", nameof(first));
        return 200m * Math.Abs(first.PciPerL - second.PciPerL) / sum;
    }

    /// <summary>Relative percent error of a device in a known concentration: 100·(measured − reference)/reference. 12.5 in 10.0 pCi/L gives 25 %.</summary>
    /// <param name="measured">What the device showed.</param>
    /// <param name="reference">The known concentration, above 0 pCi/L.</param>
    /// <returns>The error, percent; positive reads high.</returns>
    /// <exception cref="ArgumentException">The reference is 0 pCi/L.</exception>
    /// <remarks>Range: −100 percent upward; reference above 0 pCi/L. Source: named in ANSI/AARST MS-QA 2019, 5.3; the formula from memory.</remarks>
    public static decimal RelativePercentError(RadonConcentration measured, RadonConcentration reference)
    {
        if (reference.PciPerL == 0m)
            throw new ArgumentException("The reference is 0 pCi/L; a relative error needs a reference above 0 pCi/L.", nameof(reference));
        return 100m * (measured.PciPerL - reference.PciPerL) / reference.PciPerL;
    }

    /// <summary>Coefficient of variation of a pair: its relative percent difference over √2. 4.8 and 5.6 pCi/L give 10.88 %.</summary>
    /// <param name="first">One result.</param>
    /// <param name="second">The other result.</param>
    /// <returns>The coefficient of variation, percent.</returns>
    /// <exception cref="ArgumentException">Both are 0 pCi/L.</exception>
    /// <remarks>Range: 0 to 141.4 percent. Source: arithmetic on the sample standard deviation of two values.</remarks>
    public static decimal CoefficientOfVariation(RadonConcentration first, RadonConcentration second) =>
        RelativePercentDifference(first, second) / 1.4142135623730950488016887242m;

    /// <summary>
    /// Judges a pair of devices side by side. 5.0 and 7.0 pCi/L: 33.3 %, a warning. A limit is reached at its value:
    /// 28.0 % warns. Below an average of 2.0 pCi/L the difference must not pass 1.0 pCi/L.
    /// </summary>
    /// <param name="first">One result.</param>
    /// <param name="second">The other result.</param>
    /// <returns>The finding.</returns>
    /// <remarks>Range: any two concentrations. Source: ANSI/AARST MS-QA 2019, 3.5 and Table 7.1.</remarks>
    public static DuplicateFinding JudgeDuplicates(RadonConcentration first, RadonConcentration second)
    {
        var mean = RadonConcentration.Average([first, second]);
        var limits = PairLimits.For(mean);
        var difference = Math.Abs(first.PciPerL - second.PciPerL);
        if (limits.LargestDifferencePciPerL is { } largest)
        {
            var zone = difference <= largest ? ControlZone.Within : ControlZone.Control;
            return new(mean, difference, null, limits, zone, RadonSources.PairLimits);
        }

        var percent = RelativePercentDifference(first, second);
        return new(mean, difference, percent, limits, ZoneOf(percent, limits), RadonSources.PairLimits);
    }

    /// <summary>Judges a spike: beyond ±20 % warns, beyond ±30 % is out of control. 12.0 in 10.0 pCi/L is within.</summary>
    /// <param name="measured">What the device showed.</param>
    /// <param name="reference">The known concentration, above 0 pCi/L.</param>
    /// <returns>The finding.</returns>
    /// <exception cref="ArgumentException">The reference is 0 pCi/L.</exception>
    /// <remarks>Range: reference above 0 pCi/L. Source: ANSI/AARST MS-QA 2019, 5.3.3.</remarks>
    public static SpikeFinding JudgeSpike(RadonConcentration measured, RadonConcentration reference)
    {
        var error = RelativePercentError(measured, reference);
        var zone = Math.Abs(error) switch
        {
            > SpikeControlPercent => ControlZone.Control,
            > SpikeWarningPercent => ControlZone.Warning,
            _ => ControlZone.Within,
        };
        return new(error, zone, RadonSources.SpikeLimits);
    }

    /// <summary>True when an unexposed device shows more than the lower limit of detection and is to be looked into.</summary>
    /// <param name="blank">What the blank showed.</param>
    /// <param name="lowerLimitOfDetection">The laboratory's lower limit of detection.</param>
    /// <returns>Whether to look into it.</returns>
    /// <remarks>Range: any two concentrations. Source: EPA 402-R-92-004, from memory.</remarks>
    public static bool BlankNeedsAttention(RadonConcentration blank, RadonConcentration lowerLimitOfDetection) =>
        blank > lowerLimitOfDetection;

    private static ControlZone ZoneOf(decimal percent, PairLimits limits)
    {
        if (percent >= limits.ControlPercent)
            return ControlZone.Control;
        return percent >= limits.WarningPercent ? ControlZone.Warning : ControlZone.Within;
    }
}
