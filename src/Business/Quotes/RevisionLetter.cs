namespace MitigationOffice.Business.Quotes;

/// <summary>"A", "B", … "Z", "AA", "AB".</summary>
public static class RevisionLetter
{
    public static string After(string? letter)
    {
        if (string.IsNullOrEmpty(letter)) return "A";
        var (head, last) = (letter[..^1], letter[^1]);
        return last < 'Z' ? head + (char)(last + 1) : After(head) + 'A';
    }
}
