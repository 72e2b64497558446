namespace MitigationOffice.Engineering.Tests;

/// <summary>The committed check tables; tests/Reference/README.md says how they were made.</summary>
internal static class Tables
{
    internal static string Read(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "tables", name));
}
