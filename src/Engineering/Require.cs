using System.Globalization;
using System.Runtime.CompilerServices;

namespace MitigationOffice.Engineering;

/// <summary>Refuses numbers outside a model's range of validity, naming the value and the range.</summary>
internal static class Require
{
    /// <summary>The value itself when it lies in [least, most]; otherwise an error that names it and the range.</summary>
    public static double InRange(double value, double least, double most, string unit, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value >= least && value <= most
            ? value
            : throw new ArgumentOutOfRangeException(name, value, string.Create(CultureInfo.InvariantCulture,
                $"{name} is {value:0.######} {unit}; it must be between {least:0.######} and {most:0.######} {unit}."));
}
