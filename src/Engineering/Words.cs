using System.Globalization;

namespace MitigationOffice.Engineering;

internal static class Words
{
    private static readonly string[] Small =
    [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
        "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
    ];

    public static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    public static ArgumentOutOfRangeException Refusal(string name, string message) => new(name, message);

    public static string Count(int number) =>
        number is >= 0 and <= 20 ? Small[number] : number.ToString(CultureInfo.InvariantCulture);

    public static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
