namespace MitigationOffice.Engineering.Fans;

/// <summary>An operating point lies off a fan's measured curve, which is never carried on beyond its points.</summary>
public sealed class OffFanCurveException : ArgumentOutOfRangeException
{
    /// <summary>Without words.</summary>
    public OffFanCurveException()
    {
    }

    /// <summary>With words.</summary>
    /// <param name="message">Which value, and what the curve covers.</param>
    public OffFanCurveException(string message) : base(null, message)
    {
    }

    /// <summary>With words and a cause.</summary>
    /// <param name="message">Which value, and what the curve covers.</param>
    /// <param name="innerException">The cause.</param>
    public OffFanCurveException(string message, Exception innerException) : base(message, innerException)
    {
    }

    /// <summary>With the value that lies off the curve.</summary>
    /// <param name="name">The argument's name.</param>
    /// <param name="value">Its value, in the unit its name says.</param>
    /// <param name="message">Which value, and what the curve covers.</param>
    public OffFanCurveException(string name, object value, string message) : base(name, value, message)
    {
    }
}
