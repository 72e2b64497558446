namespace MitigationOffice.Business.Design;

/// <summary>A design cannot be computed; the message tells its author what to do.</summary>
public sealed class DesignRefused : FormatException
{
    public DesignRefused()
    {
    }

    public DesignRefused(string message)
        : base(message)
    {
    }

    public DesignRefused(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
