using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>Where a result stands against the US action level.</summary>
public enum EpaLevel
{
    /// <summary>Reported below 2.0 pCi/L: hard to lower further.</summary>
    BelowTwo,

    /// <summary>Reported 2.0 to 3.9 pCi/L: consider fixing.</summary>
    ConsiderFixing,

    /// <summary>Reported 4.0 pCi/L or more: fix.</summary>
    Fix,
}

/// <summary>Where a result stands against the World Health Organization's reference levels.</summary>
public enum WhoLevel
{
    /// <summary>Reported at or below 100 Bq/m³.</summary>
    WithinReference,

    /// <summary>Reported above 100 and up to 300 Bq/m³.</summary>
    AboveReference,

    /// <summary>Reported above 300 Bq/m³, the level not to be passed even where 100 cannot be reached.</summary>
    AboveUpperLimit,
}

/// <summary>The published levels a result is held against. Each comparison uses the reported (rounded) value.</summary>
public static class RadonLevels
{
    /// <summary>EPA action level, pCi/L.</summary>
    public const decimal EpaActionPciPerL = 4.0m;

    /// <summary>EPA "consider fixing" from this level up, pCi/L.</summary>
    public const decimal EpaConsiderPciPerL = 2.0m;

    /// <summary>WHO reference level, Bq/m³.</summary>
    public const decimal WhoReferenceBqPerM3 = 100m;

    /// <summary>WHO upper limit where the reference level cannot be reached, Bq/m³.</summary>
    public const decimal WhoUpperBqPerM3 = 300m;

    /// <summary>Source of the EPA levels.</summary>
    public static readonly Citation EpaSource = new("EPA 402/K-12/002; ANSI/AARST MAH 2019, 7.1", Certainty.Published);

    /// <summary>Source of the WHO reference level of 100 Bq/m³.</summary>
    public static readonly Citation WhoSource = new("WHO Handbook on Indoor Radon 2009, as given in ANSI/AARST MAH 2019, 7.1", Certainty.Published);

    /// <summary>Source of the WHO upper limit of 300 Bq/m³.</summary>
    public static readonly Citation WhoUpperSource = new("WHO Handbook on Indoor Radon 2009", Certainty.FromMemory);

    /// <summary>The EPA class; 3.95 pCi/L is reported as 4.0 and is therefore <see cref="EpaLevel.Fix"/>.</summary>
    /// <param name="result">The result, pCi/L inside.</param>
    /// <returns>The class.</returns>
    /// <remarks>Range: any concentration. Source: EPA 402/K-12/002; ANSI/AARST MAH 2019, 7.1 and 8.5.2(b).</remarks>
    public static EpaLevel EpaLevelOf(RadonConcentration result) => result.ReportedPciPerL switch
    {
        >= EpaActionPciPerL => EpaLevel.Fix,
        >= EpaConsiderPciPerL => EpaLevel.ConsiderFixing,
        _ => EpaLevel.BelowTwo,
    };

    /// <summary>The WHO class; 2.7 pCi/L is reported as 100 Bq/m³ and is still <see cref="WhoLevel.WithinReference"/>.</summary>
    /// <param name="result">The result, pCi/L inside.</param>
    /// <returns>The class.</returns>
    /// <remarks>Range: any concentration. Source: WHO Handbook on Indoor Radon 2009 (100 as given in ANSI/AARST MAH 2019, 7.1; 300 from memory).</remarks>
    public static WhoLevel WhoLevelOf(RadonConcentration result) => result.ReportedBqPerM3 switch
    {
        > WhoUpperBqPerM3 => WhoLevel.AboveUpperLimit,
        > WhoReferenceBqPerM3 => WhoLevel.AboveReference,
        _ => WhoLevel.WithinReference,
    };
}
