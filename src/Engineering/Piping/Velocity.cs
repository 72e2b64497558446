namespace MitigationOffice.Engineering.Piping;

/// <summary>What a velocity in the pipe means.</summary>
public enum VelocityFlag
{
    /// <summary>Quiet, and water runs back.</summary>
    Fine,

    /// <summary>From 1600 fpm: noise people object to.</summary>
    Noisy,

    /// <summary>From 2000 fpm: condensate no longer runs back to the pit.</summary>
    TooFast,
}

/// <summary>The velocity rule of ANSI/AARST SGM-SF 2017 §6.3.8, counted on nominal diameters.</summary>
public static class Velocity
{
    /// <summary>1600 fpm, m/s.</summary>
    public const double NoisyMPerS = 1600 * TradeUnits.MPerSPerFpm;

    /// <summary>2000 fpm, m/s.</summary>
    public const double TooFastMPerS = 2000 * TradeUnits.MPerSPerFpm;

    /// <summary>Velocity through the nominal diameter, m/s. Example: 80 cfm in 3 in → 8.28 m/s (1630 fpm).</summary>
    /// <param name="size">Pipe size.</param>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: any flow. Source: ANSI/AARST SGM-SF 2017 §6.3.8, whose table follows from nominal diameters; ducts by their real area.</remarks>
    public static double NominalMPerS(PipeSize size, double flowM3PerS) => size.Key.Contains('x', StringComparison.Ordinal)
        ? size.VelocityMPerS(flowM3PerS)
        : flowM3PerS / (Math.PI * size.NominalDiameterM * size.NominalDiameterM / 4);

    /// <summary>The flag of a flow in a size. Example: 140 cfm in 4 in → noisy (1604 fpm).</summary>
    /// <param name="size">Pipe size.</param>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: any flow. Source: ANSI/AARST SGM-SF 2017 §6.3.8.</remarks>
    public static VelocityFlag FlagOf(PipeSize size, double flowM3PerS) => NominalMPerS(size, flowM3PerS) switch
    {
        >= TooFastMPerS => VelocityFlag.TooFast,
        >= NoisyMPerS => VelocityFlag.Noisy,
        _ => VelocityFlag.Fine,
    };
}
