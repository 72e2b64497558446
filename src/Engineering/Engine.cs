namespace MitigationOffice.Engineering;

/// <summary>Names the engine and its version, stored beside every computed result.</summary>
public static class Engine
{
    /// <summary>Version of the models, dimensionless; raised when a model's numbers change.</summary>
    public const string Version = "1.1";
}
