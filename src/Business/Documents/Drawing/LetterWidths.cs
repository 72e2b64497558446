namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>How wide words may get, as a share of the letter height: an upper bound over the usual sans-serif fonts, so that
/// a label placed clear of a line stays clear of it whatever font the reader has.</summary>
public static class LetterWidths
{
    public static double Of(string text) => text.Sum(Of);

    private static double Of(char letter) => letter switch
    {
        ' ' or '.' or ',' or ':' or ';' or '\'' or 'i' or 'j' or 'l' or '|' or '·' or 'I' => 0.34,
        'f' or 't' or 'r' or '(' or ')' or '/' or '-' or '"' or '“' or '”' => 0.45,
        'm' or 'w' or 'M' or 'W' or '%' or '@' or '—' or '…' => 1.02,
        '−' or '+' or '=' or '×' or '<' or '>' => 0.84,
        >= '0' and <= '9' => 0.64,
        >= 'A' and <= 'Z' => 0.79,
        <= '\u024f' => 0.66,
        _ => 1.02,
    };
}
