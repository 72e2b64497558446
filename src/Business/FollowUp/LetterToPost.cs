namespace MitigationOffice.Business.FollowUp;

/// <summary>One letter as it is printed.</summary>
/// <param name="Address">A line each.</param>
/// <param name="Page">The house owner's own page, printed as a square code; empty: none.</param>
public sealed record LetterToPost(IReadOnlyList<string> Address, string Subject, string Text, string Page)
{
    /// <summary>The paragraphs that stand over the others.</summary>
    public IReadOnlyList<string> Heads { get; init; } = [];

    /// <summary>Name and postal address as lines: a comma ends the street, the last two parts stay together.</summary>
    public static IReadOnlyList<string> AddressLines(string name, string postal)
    {
        var lines = postal.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (lines.Length == 1 && lines[0].Split(',', StringSplitOptions.TrimEntries) is { Length: > 2 } parts)
            lines = [.. parts[..^2], $"{parts[^2]}, {parts[^1]}"];
        return [.. lines.Prepend(name).Where(l => l.Length > 0)];
    }
}
