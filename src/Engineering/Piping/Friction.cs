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

    /// <summary>Darcy friction factor, dimensionless. Example: Re 1e5, relative roughness 1e-4 → 0.018514.</summary>
    /// <param name="reynolds">Reynolds number, dimensionless.</param>
    /// <param name="relativeRoughness">Roughness over diameter, dimensionless.</param>
    /// <remarks>Range: Re above 0 to 1e8, relative roughness 0 to 0.05; refused outside. Between 2000 and 4000 a cubic that meets
    /// both neighbours in value and slope (no physics claimed there). Source: Hagen–Poiseuille; Colebrook 1939, solved exactly.</remarks>
    public static double Factor(double reynolds, double relativeRoughness)
    {
        Require.InRange(reynolds, double.Epsilon, 1e8, "(Reynolds number)");
        Require.InRange(relativeRoughness, 0, 0.05, "(relative roughness)");
        if (reynolds <= LaminarUpTo) return 64 / reynolds;
        return reynolds >= TurbulentFrom ? Colebrook(reynolds, relativeRoughness) : Bridge(reynolds, relativeRoughness);
    }

    private static double Colebrook(double reynolds, double relativeRoughness)
    {
        var (a, b) = (relativeRoughness / 3.7, 2.51 / reynolds);
        var x = -2 * Math.Log10(a + 5.74 / Math.Pow(reynolds, 0.9));
        for (var i = 0; i < 20; i++)
        {
            var inside = a + b * x;
            var step = (x + 2 * Math.Log10(inside)) / (1 + 2 * b / (inside * Math.Log(10)));
            x -= step;
            if (Math.Abs(step) < 1e-13 * x) break;
        }

        return 1 / (x * x);
    }

    /// <summary>Hermite cubic in the Reynolds number between the laminar and the turbulent end.</summary>
    private static double Bridge(double reynolds, double relativeRoughness)
    {
        const double Width = TurbulentFrom - LaminarUpTo;
        var t = (reynolds - LaminarUpTo) / Width;
        var (f0, m0) = (64 / LaminarUpTo, -64 / (LaminarUpTo * LaminarUpTo) * Width);
        var f1 = Colebrook(TurbulentFrom, relativeRoughness);
        var m1 = (Colebrook(TurbulentFrom * 1.001, relativeRoughness) - f1) / (TurbulentFrom * 0.001) * Width;
        var (t2, t3) = (t * t, t * t * t);
        return (2 * t3 - 3 * t2 + 1) * f0 + (t3 - 2 * t2 + t) * m0 + (-2 * t3 + 3 * t2) * f1 + (t3 - t2) * m1;
    }
}
