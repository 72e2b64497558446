namespace MitigationOffice.Engineering.Piping;

/// <summary>A pipe or duct as its flow sees it.</summary>
/// <param name="Key">How files and records name it, for example "4in".</param>
/// <param name="Name">How people read it.</param>
/// <param name="HydraulicDiameterM">Four times the area over the wetted edge; for a round pipe its inner diameter, m.</param>
/// <param name="AreaM2">Free area, m².</param>
/// <param name="NominalDiameterM">Diameter by which the velocity rule of ANSI/AARST SGM-SF 2017 §6.3.8 counts, m.</param>
/// <param name="WallM">Thickness of the wall, m.</param>
public sealed record PipeSize(string Key, string Name, double HydraulicDiameterM, double AreaM2, double NominalDiameterM, double WallM)
{
    private const double Inch = 0.0254;

    /// <summary>The sizes of the trade. Sources: ASTM D1785/D2665 Schedule 40 (outer diameter less twice the least wall);
    /// ASTM D2729 thin wall, from memory; downspouts by their outer sides less a 0.5 mm wall, common practice, no source.</summary>
    public static IReadOnlyList<PipeSize> All { get; } =
    [
        Round("1.5in", "1½ in Schedule 40", 1.900, 0.145, 1.5), Round("2in", "2 in Schedule 40", 2.375, 0.154, 2),
        Round("3in", "3 in Schedule 40", 3.500, 0.216, 3), Round("4in", "4 in Schedule 40", 4.500, 0.237, 4),
        Round("6in", "6 in Schedule 40", 6.625, 0.280, 6),
        Round("3in-thin", "3 in thin wall", 3.250, 0.070, 3), Round("4in-thin", "4 in thin wall", 4.215, 0.075, 4),
        Duct("2x3in", "2 × 3 in downspout", 2, 3, 2), Duct("3x4in", "3 × 4 in downspout", 3, 4, 3),
        Duct("4x5in", "4 × 5 in downspout", 4, 5, 4), Duct("5x6in", "5 × 6 in downspout", 5, 6, 6),
    ];

    /// <summary>The size with a key; an unknown one is refused with the keys there are.</summary>
    /// <param name="key">A key such as "4in".</param>
    public static PipeSize Of(string key) =>
        All.FirstOrDefault(s => string.Equals(s.Key, key, StringComparison.OrdinalIgnoreCase))
        ?? throw new ArgumentException($"There is no pipe size “{key}”. The sizes are {string.Join(", ", All.Select(s => s.Key))}.", nameof(key));

    /// <summary>The next larger size of the same kind, or null at the largest.</summary>
    public PipeSize? Larger() => All.Where(s => s.Key.Contains('x', StringComparison.Ordinal) == Key.Contains('x', StringComparison.Ordinal)
        && s.Key.EndsWith("-thin", StringComparison.Ordinal) == Key.EndsWith("-thin", StringComparison.Ordinal) && s.AreaM2 > AreaM2).MinBy(s => s.AreaM2);

    /// <summary>Mean velocity of a flow, m/s. Example: 80 cfm in 3 in Schedule 40 → 7.9 m/s (1558 fpm).</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: any flow. Source: continuity.</remarks>
    public double VelocityMPerS(double flowM3PerS) => flowM3PerS / AreaM2;

    private static PipeSize Round(string key, string name, double outer, double wall, double nominal)
    {
        var inner = (outer - 2 * wall) * Inch;
        return new(key, name, inner, Math.PI * inner * inner / 4, nominal * Inch, wall * Inch);
    }

    private static PipeSize Duct(string key, string name, double a, double b, double nominal)
    {
        const double Sheet = 0.0005;
        var (x, y) = (a * Inch - 2 * Sheet, b * Inch - 2 * Sheet);
        return new(key, name, 2 * x * y / (x + y), x * y, nominal * Inch, Sheet);
    }
}
