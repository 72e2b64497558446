namespace MitigationOffice.Business.Design;

/// <summary>A design cannot be computed; the message tells its author what to do.</summary>
public sealed class DesignRefused : FormatException
{
    /// <summary>Where in a design file the fault stands; empty: nowhere in particular.</summary>
    public string Path { get; init; } = "";

    /// <summary>The sentence for the author of a file, with the place of the fault.</summary>
    public string InFile => Path.Length == 0 || Message.StartsWith(Path, StringComparison.Ordinal) ? Message : $"{Path}: {Message}";

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
