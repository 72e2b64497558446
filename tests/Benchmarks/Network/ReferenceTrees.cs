using MitigationOffice.Engineering.Tests.Network;

namespace MitigationOffice.Benchmarks.Network;

internal static class ReferenceTrees
{
    internal static readonly EpanetTree[] All = EpanetTree.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "tables", "networks.json")));
}
