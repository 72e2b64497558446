namespace MitigationOffice.Engineering.Sources;

/// <summary>Where a rule or value comes from, and how surely.</summary>
/// <param name="Text">The source in words, for example "ANSI/AARST MAH 2019, 8.5.2".</param>
/// <param name="Certainty">How surely it is known.</param>
public sealed record Citation(string Text, Certainty Certainty)
{
    /// <summary>The certainty in words a reader of a page understands, for example "from memory".</summary>
    public string CertaintyInWords => Certainty switch
    {
        Certainty.Published => "read in the source",
        Certainty.SecondHand => "quoted by another text",
        Certainty.Arithmetic => "plain arithmetic",
        Certainty.FromMemory => "from memory",
        _ => "common practice, no source",
    };

    /// <summary>Source and certainty in one line, for example "ANSI/AARST MAH 2019, 8.5.2 (read in the source)".</summary>
    public override string ToString() => $"{Text} ({CertaintyInWords})";
}
