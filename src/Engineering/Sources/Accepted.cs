using System.Globalization;

namespace MitigationOffice.Engineering.Sources;

internal static class Accepted
{
    public static decimal Between(decimal value, decimal least, decimal most, string what, string unit)
    {
        if (value < least || value > most)
            throw new ArgumentOutOfRangeException(what, value, Message(Say(value), Say(least), Say(most), what, unit));
        return value;
    }

    public static double Between(double value, double least, double most, string what, string unit)
    {
        if (!(value >= least && value <= most))
            throw new ArgumentOutOfRangeException(what, value, Message(Say(value), Say(least), Say(most), what, unit));
        return value;
    }

    public static int Between(int value, int least, int most, string what, string unit)
    {
        if (value < least || value > most)
            throw new ArgumentOutOfRangeException(what, value, Message(Say(value), Say(least), Say(most), what, unit));
        return value;
    }

    private static string Message(string value, string least, string most, string what, string unit) =>
        $"{what} is {value} {unit}; it must lie from {least} to {most} {unit}.";

    private static string Say(IFormattable value) => value.ToString(null, CultureInfo.InvariantCulture);
}
