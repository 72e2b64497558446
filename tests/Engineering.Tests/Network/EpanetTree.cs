using System.Text.Json;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Network;

/// <summary>A tree of tests/Reference/tables/networks.json, with EPANET's flows.</summary>
internal sealed record EpanetTree(
    string Name, double Exponent, double Density, double Viscosity, double[][] Fan, EpanetBranch[] Branches, EpanetPipe Discharge,
    double FanFlow, Dictionary<string, double> Flows)
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    internal static EpanetTree[] Read(string json) => JsonSerializer.Deserialize<EpanetTree[]>(json, Web)!;

    internal FanCurve Curve() => new(Fan.Select(point => new FanPoint(point[0], point[1] * 1.2014 / Density, 20)));

    internal AirNetwork Network() => new([.. Branches.Select(Branch)], Pipe(Discharge.Size, Discharge.LengthM, Discharge.K), Density, Viscosity);

    private NetworkBranch Branch(EpanetBranch b) =>
        new(b.Name, Pipe(b.Size, b.LengthM, b.K), b.Joins, b.Conductance is { } g ? new SoilResistance(g, Exponent, false) : null);

    private static RoutePiece[] Pipe(string size, double lengthM, double k) =>
        [new(PieceKind.Pipe, PipeSize.Of(size), lengthM), new(PieceKind.Tee, PipeSize.Of(size), LossK: k)];
}

internal sealed record EpanetBranch(string Name, string Size, double LengthM, double K, string? Joins, double? Conductance);

internal sealed record EpanetPipe(string Size, double LengthM, double K);
