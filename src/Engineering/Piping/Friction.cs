namespace MitigationOffice.Engineering.Piping;

/// <summary>Darcy friction factor for laminar, transition and turbulent flow.</summary>
public static class Friction
{
    /// <summary>Below this Reynolds number flow is laminar (dimensionless).</summary>
    public const double LaminarUpTo = 2000;

    /// <summary>Above this Reynolds number Colebrook's equation holds (dimensionless).</summary>
    public const double TurbulentFrom = 4000;

    /// <summary>Roughness of drawn plastic, m. Source: handbook value, from memory.</summary>
    public const double PlasticM = 1.5e-6;

    private const double TwoOverLn10 = 2 / 2.302585092994046;

    /// <summary>Darcy friction factor, dimensionless. Example: Re 1e5, relative roughness 1e-4 → 0.018514.</summary>
    /// <param name="reynolds">Reynolds number, dimensionless.</param>
    /// <param name="relativeRoughness">Roughness over diameter, dimensionless.</param>
    /// <remarks>Range: Re above 0 to 1e8, relative roughness 0 to 0.05; refused outside. Between 2000 and 4000 a cubic that meets
    /// both neighbours in value and slope (no physics claimed there). Source: Hagen–Poiseuille; Colebrook 1939, solved exactly.</remarks>
    public static double Factor(double reynolds, double relativeRoughness)
    {
        Require.InRange(reynolds, double.Epsilon, 1e8, "(Reynolds number)");
        Require.InRange(relativeRoughness, 0, 0.05, "(relative roughness)");
        return Evaluate(reynolds, relativeRoughness).Factor;
    }

    /// <summary>Factor and its slope against the Reynolds number; unchecked and free of allocation, for inner loops.</summary>
    internal static (double Factor, double Slope) Evaluate(double reynolds, double relativeRoughness)
    {
        if (reynolds >= TurbulentFrom) return Colebrook(reynolds, relativeRoughness);
        return reynolds <= LaminarUpTo ? (64 / reynolds, -64 / (reynolds * reynolds)) : Bridge(reynolds, relativeRoughness);
    }

    /// <summary>Halley's method on 1/√f, begun by one substitution from 1/√f = 7: two steps then reach the last digits everywhere in the range.</summary>
    private static (double Factor, double Slope) Colebrook(double reynolds, double relativeRoughness)
    {
        var (a, b) = (relativeRoughness / 3.7, 2.51 / reynolds);
        var x = -TwoOverLn10 * Math.Log(a + 7 * b);
        for (var step = 0; step < 2; step++)
        {
            var argument = a + b * x;
            var bend = b / argument;
            var slope = 1 + TwoOverLn10 * bend;
            var newton = (x + TwoOverLn10 * Math.Log(argument)) / slope;
            x -= newton / (1 + newton * TwoOverLn10 * bend * bend / (2 * slope));
        }

        var inside = TwoOverLn10 * b / (a + b * x);
        return (1 / (x * x), -2 * inside / (reynolds * (1 + inside) * x * x));
    }

    /// <summary>Hermite cubic in the Reynolds number between the laminar and the turbulent end.</summary>
    private static (double Factor, double Slope) Bridge(double reynolds, double relativeRoughness)
    {
        const double Width = TurbulentFrom - LaminarUpTo;
        var t = (reynolds - LaminarUpTo) / Width;
        var (f0, m0) = (64 / LaminarUpTo, -64 / (LaminarUpTo * LaminarUpTo) * Width);
        var (f1, slope) = Colebrook(TurbulentFrom, relativeRoughness);
        var m1 = slope * Width;
        var (c2, c3) = (3 * (f1 - f0) - 2 * m0 - m1, 2 * (f0 - f1) + m0 + m1);
        return (f0 + t * (m0 + t * (c2 + t * c3)), (m0 + t * (2 * c2 + t * 3 * c3)) / Width);
    }
}
