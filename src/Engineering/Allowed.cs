using System.Globalization;

namespace MitigationOffice.Engineering;

internal static class Allowed
{
    public static double Within(double value, double low, double high, string name, string unit)
    {
        if (value >= low && value <= high) return value;
        var spaced = unit.Length == 0 ? "" : " " + unit;
        throw Refused(name, string.Create(CultureInfo.InvariantCulture,
            $"{name} is {value:G6}{spaced}; it must lie between {low:G6} and {high:G6}{spaced}."));
    }

    public static ArgumentOutOfRangeException Refused(string name, string message) => new(name, message);
}
