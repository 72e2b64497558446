using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Network;

/// <summary>A branch of the pipe tree, from its pit or junction to the junction it joins, or to the fan.</summary>
/// <param name="Name">What people call it; no two branches of a tree share a name.</param>
/// <param name="Pieces">Its pieces in the order of the air.</param>
/// <param name="JoinsInto">Name of the branch whose beginning it joins; null for the one that ends at the fan.</param>
/// <param name="Soil">The ground at its pit, where it begins at a suction point; null where it begins at a junction.</param>
public sealed record NetworkBranch(string Name, IReadOnlyList<RoutePiece> Pieces, string? JoinsInto = null, SoilResistance? Soil = null);
