namespace MitigationOffice.Engineering.Slab;

/// <summary>A place on the floor plan.</summary>
public readonly record struct PlanPoint
{
    /// <summary>Makes a place. Example: 3 m to the right and 2 m up from the plan's corner.</summary>
    /// <param name="xM">Distance to the right, m.</param>
    /// <param name="yM">Distance upwards on the plan, m.</param>
    /// <remarks>Range: −1000 to 1000 m, checked where the plan is used. Source: the plan's own grid.</remarks>
    public PlanPoint(double xM, double yM) => (XM, YM) = (xM, yM);

    /// <summary>Distance to the right, m.</summary>
    public double XM { get; }

    /// <summary>Distance upwards on the plan, m.</summary>
    public double YM { get; }

    /// <summary>Straight distance to another place, m. Example: from (0, 0) to (3, 4) is 5 m.</summary>
    /// <param name="other">The other place.</param>
    /// <returns>Distance, m.</returns>
    /// <remarks>Range: any two places. Source: Pythagoras.</remarks>
    public double DistanceM(PlanPoint other) => Math.Sqrt((XM - other.XM) * (XM - other.XM) + (YM - other.YM) * (YM - other.YM));
}
