namespace MitigationOffice.Engineering.Sources;

/// <summary>How surely a rule or a value is known; shown beside it, never hidden.</summary>
public enum Certainty
{
    /// <summary>Read in the published text that is cited.</summary>
    Published,

    /// <summary>Read in another text that quotes the source.</summary>
    SecondHand,

    /// <summary>Plain arithmetic on the numbers given.</summary>
    Arithmetic,

    /// <summary>From memory; check it against the source before relying on it.</summary>
    FromMemory,

    /// <summary>Common practice of the trade, or a house rule: no source.</summary>
    CommonPractice,
}
