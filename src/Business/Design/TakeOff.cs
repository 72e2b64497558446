using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Design;

/// <summary>Pipe of one size.</summary>
/// <param name="Feet">Drawn, whole feet upward; so are those outdoors.</param>
/// <param name="Lengths">Stock lengths to buy, waste included.</param>
/// <param name="Joints">Couplings between stock lengths of one run.</param>
public sealed record PipeTaken(string Size, decimal Feet, decimal OutdoorFeet, int Lengths, int Joints, int Supports);

public sealed record FittingTaken(PieceKind Kind, string Size, int Count);

public enum PassageKind
{
    Wall,
    Roof,
    Garage,
    Ceiling,
}

public sealed record PassageTaken(PassageKind Kind, string Size, int Count);

/// <summary>What a drawn route asks for: the list of materials, and what the price book counts by. Sizes are keys of the pipe sizes.</summary>
public sealed record TakeOff
{
    /// <summary>Common practice, no source.</summary>
    public const decimal StockLengthFt = 10;

    /// <summary>Added for cuts and mistakes: common practice, no source.</summary>
    public const decimal WasteShare = 0.10m;

    /// <summary>Soft couplings that hold a fan so that it can be taken out: common practice, no source.</summary>
    public const int CouplingsAtFan = 2;

    private const double MetresPerFoot = 0.3048;

    /// <summary>Without a design.</summary>
    public static readonly TakeOff ByHand = new() { IsByHand = true };

    public bool IsByHand { get; init; }
    public int SuctionPoints { get; init; } = 1;
    public IReadOnlyList<PipeTaken> Pipes { get; init; } = [];
    public IReadOnlyList<FittingTaken> Fittings { get; init; } = [];
    public IReadOnlyList<PassageTaken> Passages { get; init; } = [];

    /// <summary>Size of the pipe at the fan; empty: no fan is drawn.</summary>
    public string SizeAtFan { get; init; } = "";
    public decimal PipeFeet => Pipes.Sum(p => p.Feet);
    public decimal OutdoorFeet => Pipes.Sum(p => p.OutdoorFeet);

    /// <summary>Route and branches; where a branch comes through a wall to join, that is a passage too.</summary>
    public static TakeOff Of(SuctionDesign design) =>
        Of([design.Line(), .. design.BranchesInOrder().Select(b => design.Line(b.Number))], [.. design.BranchesInOrder().Select(b => Junction(design, b)).OfType<(RoutePiece, RoutePiece)>()]);

    /// <param name="drawn">Pieces in any order; their branch says the line, their position from the pit to the mouth.</param>
    public static TakeOff Of(IEnumerable<RoutePiece> drawn) => Of([.. drawn.GroupBy(p => p.Branch).OrderBy(g => g.Key).Select(g => g.OrderBy(p => p.Position).ToList())], []);

    private static TakeOff Of(IReadOnlyList<IReadOnlyList<RoutePiece>> lines, IReadOnlyList<(RoutePiece From, RoutePiece To)> junctions)
    {
        var pieces = lines.SelectMany(l => l).ToList();
        return new()
        {
            SuctionPoints = Math.Max(1, lines.Count),
            Pipes = [.. lines.SelectMany(Runs).GroupBy(r => r.Size).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => PipeOf(g.Key, [.. g]))],
            Fittings = [.. pieces.Where(p => p.Kind is not (PieceKind.Pipe or PieceKind.Fan)).GroupBy(p => (p.Kind, p.Size))
                .OrderBy(g => g.Key.Size, StringComparer.Ordinal).ThenBy(g => g.Key.Kind).Select(g => new FittingTaken(g.Key.Kind, g.Key.Size, g.Sum(Times)))],
            Passages = [.. lines.SelectMany(l => l.Zip(l.Skip(1))).Concat(junctions).SelectMany(PassageOf).GroupBy(p => p).OrderBy(g => g.Key.Kind).Select(g => new PassageTaken(g.Key.Kind, g.Key.Size, g.Count()))],
            SizeAtFan = pieces.FirstOrDefault(p => p.Kind == PieceKind.Fan)?.Size ?? "",
        };
    }

    /// <summary>A straight run: pieces of pipe with nothing between them. Each piece is held by itself.</summary>
    private sealed record Run(string Size, IReadOnlyList<RoutePiece> Pieces, int Times)
    {
        public decimal Feet => Pieces.Sum(FeetOf);
        public int Joints => Math.Max(0, (int)Math.Ceiling(Tidy(Feet) / StockLengthFt) - 1) * Times;
        public int Supports => Pieces.Sum(p => PipeRules.SupportsNeeded(Tidy(FeetOf(p)), IsUpright(p))) * Times;
    }

    private static IEnumerable<Run> Runs(IReadOnlyList<RoutePiece> pieces)
    {
        var together = new List<RoutePiece>();
        foreach (var piece in pieces)
        {
            var joins = together.Count > 0 && piece.Kind == PieceKind.Pipe && piece.Size == together[0].Size && Times(piece) == 1 && Times(together[0]) == 1;
            if (together.Count > 0 && !joins)
            {
                yield return new(together[0].Size, together, Times(together[0]));
                together = [];
            }

            if (piece.Kind == PieceKind.Pipe) together.Add(piece);
        }

        if (together.Count > 0) yield return new(together[0].Size, together, Times(together[0]));
    }

    private static PipeTaken PipeOf(string size, List<Run> runs)
    {
        var feet = runs.Sum(r => r.Feet * r.Times);
        var outdoors = runs.Sum(r => r.Pieces.Where(p => p.Place == PiecePlace.Outdoors).Sum(FeetOf) * r.Times);
        return new(size, Whole(feet), Whole(outdoors), (int)Whole(feet * (1 + WasteShare) / StockLengthFt), runs.Sum(r => r.Joints), runs.Sum(r => r.Supports));
    }

    private static IEnumerable<(PassageKind Kind, string Size)> PassageOf((RoutePiece From, RoutePiece To) at)
    {
        if (Between(at.From.Place, at.To.Place) is { } kind) yield return (kind, at.To.Size);
    }

    /// <summary>The last piece of a branch and the piece that it joins, at the branch's size.</summary>
    private static (RoutePiece, RoutePiece)? Junction(SuctionDesign design, SuctionBranch branch)
    {
        var (own, joined) = (design.Line(branch.Number), design.Line(branch.JoinsBranch));
        if (own.Count == 0 || joined.Count == 0) return null;
        var place = joined[Math.Clamp(branch.JoinsAfterPiece - 1, 0, joined.Count - 1)].Place;
        return (own[^1], new RoutePiece { Size = own[^1].Size, Place = place });
    }

    private static PassageKind? Between(PiecePlace from, PiecePlace to) => (from, to) switch
    {
        _ when from == to => null,
        (PiecePlace.Attic, PiecePlace.Outdoors) or (PiecePlace.Outdoors, PiecePlace.Attic) => PassageKind.Roof,
        (PiecePlace.Attic, _) or (_, PiecePlace.Attic) => PassageKind.Ceiling,
        (PiecePlace.Indoors, PiecePlace.Garage) or (PiecePlace.Garage, PiecePlace.Indoors) => PassageKind.Garage,
        _ => PassageKind.Wall,
    };

    private static bool IsUpright(RoutePiece p) => Math.Abs(p.RiseM) > 0.5 * p.LengthM;

    private static int Times(RoutePiece p) => Math.Max(1, p.Count);

    private static decimal FeetOf(RoutePiece p) => (decimal)(p.LengthM / MetresPerFoot);

    /// <summary>Ten feet typed as metres come back as 10.000001.</summary>
    private static decimal Tidy(decimal feet) => Math.Round(feet, 3, MidpointRounding.AwayFromZero);

    private static decimal Whole(decimal feet) => Math.Ceiling(Tidy(feet));
}
