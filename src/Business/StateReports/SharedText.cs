namespace MitigationOffice.Business.StateReports;

/// <summary>Gives the same text for equal texts that come close after one another, so that ten thousand houses of one city hold its name once.
/// It forgets, and so stays small however many different texts there are.</summary>
public sealed class SharedText
{
    private const int Places = 4096;
    private readonly string[] _known = new string[Places];

    public string Of(string text)
    {
        if (text.Length == 0) return "";
        ref var known = ref _known[(uint)string.GetHashCode(text, StringComparison.Ordinal) % Places];
        if (known != text) known = text;
        return known;
    }
}
