using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>Radioactive decay of radon-222.</summary>
public static class RadonDecay
{
    /// <summary>Half-life of radon-222, days. Published evaluations spread by 0.05 % about it.</summary>
    public const double HalfLifeDays = 3.8235;

    /// <summary>Share of radon left after some days: 0.8342 after one, 0.2811 after seven.</summary>
    /// <param name="days">Time, days.</param>
    /// <returns>The share left, dimensionless, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Days outside 0 to 10 000.</exception>
    /// <remarks>Range: 0 to 10 000 days. Source: half-life 3.8235 d as quoted from the ENSDF evaluation; exponential decay.</remarks>
    public static double ShareLeft(double days) =>
        Math.Pow(0.5, Require.InRange(days, 0, 10_000, "days", "The time") / HalfLifeDays);
}
