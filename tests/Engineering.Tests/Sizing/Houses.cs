using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Sizing;

/// <summary>Made-up houses for the sizing tests.</summary>
internal static class Houses
{
    internal static readonly FanCurve Strong = new([new(0, 700, 60), new(0.03, 600, 70), new(0.06, 380, 75), new(0.09, 20, 74)]);
    internal static readonly FanCurve Middling = new([new(0, 330, 25), new(0.025, 280, 33), new(0.05, 170, 36), new(0.08, 5, 35)]);
    internal static readonly FanCurve Gentle = new([new(0, 130, 10), new(0.02, 105, 13), new(0.04, 60, 15), new(0.06, 3, 15)]);

    internal static readonly SizingSite Site = new(300, -20, 21, 10, 2.4, 1, 14, 3800, 0.85, 1.3, 0.5);

    internal static readonly CandidateFan[] Fans =
        [new(1, "Strong", Strong, 320), new(2, "Middling", Middling, 240), new(3, "Gentle", Gentle, 210)];

    internal static RoutePiece[] Route(string size = "3in", double indoors = 8, double outdoors = 4) =>
    [
        new(PieceKind.Pipe, PipeSize.Of(size), indoors), new(PieceKind.Elbow90, PipeSize.Of(size), Count: 3), new(PieceKind.Fan, PipeSize.Of(size)),
        new(PieceKind.Pipe, PipeSize.Of(size), outdoors, Outdoors: true, RiseM: outdoors),
    ];

    internal static PfeTest Test(double pit = 250, double flow = 0.02, params (string Label, double OnPa)[] holes) =>
        new([new("shop vacuum", pit, flow)], [.. holes.Select(h => new PfeHole(h.Label, null, 0, [h.OnPa]))], -15, 21);

    internal static SizingInput One(params (string Label, double OnPa)[] holes) => new(Site, Test(250, 0.02, holes), Route(), Fans);
}
