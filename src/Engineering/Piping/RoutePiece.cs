namespace MitigationOffice.Engineering.Piping;

/// <summary>The kinds of pieces a route is made of.</summary>
public enum PieceKind
{
    /// <summary>Straight pipe.</summary>
    Pipe,

    /// <summary>Short 90° elbow.</summary>
    Elbow90,

    /// <summary>Long-sweep 90° elbow.</summary>
    LongElbow90,

    /// <summary>45° elbow.</summary>
    Elbow45,

    /// <summary>Tee, flow through its branch.</summary>
    Tee,

    /// <summary>Coupling.</summary>
    Coupling,

    /// <summary>Change of size.</summary>
    Reducer,

    /// <summary>Where the fan stands; no loss of its own.</summary>
    Fan,
}

/// <summary>One piece of a route, in order from the pit to the mouth.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Size">The pipe size it belongs to.</param>
/// <param name="LengthM">Length of straight pipe, m; 0 for a fitting.</param>
/// <param name="Count">How many of it, dimensionless.</param>
/// <param name="Outdoors">True where it stands in the weather.</param>
/// <param name="RiseM">How much of the length goes up (negative: down), m.</param>
/// <param name="LossK">Measured loss coefficient in place of the handbook's, dimensionless; null for the handbook's.</param>
public sealed record RoutePiece(PieceKind Kind, PipeSize Size, double LengthM = 0, int Count = 1, bool Outdoors = false, double RiseM = 0, double? LossK = null)
{
    /// <summary>Loss coefficient of one fitting, dimensionless. Handbook values with spread: fittings of PVC measured from half
    /// to double of them (Brodhead and Saum, AARST symposium 1996). Source: L/D of Crane TP-410 times a turbulent friction factor of 0.018, from memory.</summary>
    public double K => LossK ?? Kind switch
    {
        PieceKind.Elbow90 => 0.54,
        PieceKind.LongElbow90 => 0.29,
        PieceKind.Elbow45 => 0.29,
        PieceKind.Tee => 1.08,
        PieceKind.Coupling => 0.04,
        PieceKind.Reducer => 0.10,
        _ => 0,
    };

    /// <summary>Pressure lost in this piece, Pa. Example: 30 ft of 3 in at 80 cfm, standard air → 96.7 Pa (0.388 inWC).</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <param name="viscosityPaS">Its dynamic viscosity, Pa·s.</param>
    /// <remarks>Range: flow up to 5 m³/s, refused above; 0 for a flow of 0 or less. Source: Darcy–Weisbach with <see cref="Friction.Factor"/>; minor losses K·ρV²/2.</remarks>
    public double LossPa(double flowM3PerS, double densityKgPerM3, double viscosityPaS)
    {
        if (flowM3PerS <= 0) return 0;
        return new PieceLoss(this, densityKgPerM3, viscosityPaS).At(Require.InRange(flowM3PerS, 0, 5, "m³/s")).Pa;
    }
}
