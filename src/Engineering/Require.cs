using System.Globalization;
using System.Runtime.CompilerServices;

namespace MitigationOffice.Engineering;

/// <summary>Refuses numbers outside a model's range of validity, naming the value and the range.</summary>
internal static class Require
{
    /// <summary>The value itself when it lies in [least, most]; otherwise an error that names it and the range.</summary>
    public static double InRange(double value, double least, double most, string unit, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value >= least && value <= most ? value : throw Refusal(value, least, most, "0.######", unit, name);

    /// <summary>The same for exact numbers, shown with the digits they have.</summary>
    public static decimal InRange(decimal value, decimal least, decimal most, string unit, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= least && value <= most ? value : throw Refusal(value, least, most, null, unit, name);

    /// <summary>The same for whole numbers.</summary>
    public static int InRange(int value, int least, int most, string unit, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= least && value <= most ? value : throw Refusal(value, least, most, null, unit, name);

    private static ArgumentOutOfRangeException Refusal(IFormattable value, IFormattable least, IFormattable most, string? format, string unit, string? name)
    {
        string Say(IFormattable number) => number.ToString(format, CultureInfo.InvariantCulture);
        return new(name, value, $"{name} is {Say(value)} {unit}; it must lie from {Say(least)} to {Say(most)} {unit}.");
    }
}
