using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.Measures;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>A design as it is typed: the route from the pit to the mouth, and where the mouth stands.</summary>
public sealed class RouteForm
{
    public const int MostPieces = 40;
    public const int MostBranchPieces = 20;

    public string? TestId { get; set; }
    public string? Target { get; set; }
    public string? DischargeHeight { get; set; }
    public string? OpeningDistance { get; set; }
    public string? AboveOpeningTop { get; set; }
    public string? AboveRoof { get; set; }
    public string? AdjacentBuilding { get; set; }
    public string? FromVertical { get; set; }
    public bool RainCap { get; set; }
    public string? SitingRules { get; set; }
    public string? Notes { get; set; }
    public List<PieceRow> Pieces { get; set; } = [];

    /// <summary>The suction points beside the first.</summary>
    public List<PointRow> Points { get; set; } = [];

    /// <summary>One further suction point. <see cref="JoinsInto"/>: the number of the point whose branch it joins, counted from 1 down the
    /// form; empty: the route. <see cref="JoinsAfter"/>: the number of the piece, as the form counts its rows.</summary>
    public sealed class PointRow
    {
        public string? Name { get; set; }
        public string? TestId { get; set; }
        public string? JoinsInto { get; set; }
        public string? JoinsAfter { get; set; }
        public List<PieceRow> Pieces { get; set; } = [];

        public bool IsEmpty => string.IsNullOrWhiteSpace(Name + TestId + JoinsAfter) && Pieces.TrueForAll(p => p.IsEmpty);
    }

    public sealed class PieceRow
    {
        public string? Kind { get; set; }
        public string? Size { get; set; } = "4in";
        public string? Length { get; set; }
        public string? Rise { get; set; }
        public string? Place { get; set; }
        public string? Count { get; set; }
        public string? LossK { get; set; }

        public bool IsEmpty => string.IsNullOrWhiteSpace(Kind + Length + Rise + LossK);
    }

    /// <summary>The usual shape of a route, its lengths still to be measured.</summary>
    public static List<PieceRow> Usual() =>
    [
        Row(PieceKind.Pipe, PiecePlace.Indoors), Row(PieceKind.Elbow90, PiecePlace.Indoors), Row(PieceKind.Pipe, PiecePlace.Indoors),
        Row(PieceKind.Elbow90, PiecePlace.Outdoors), Row(PieceKind.Fan, PiecePlace.Outdoors), Row(PieceKind.Pipe, PiecePlace.Outdoors),
    ];

    public static RouteForm Of(SuctionDesign d, UnitSystem units) => new()
    {
        TestId = TypedNumbers.Plain((decimal?)d.PressureFieldTestId), Target = Pressure.Number(d.TargetPa, units),
        DischargeHeight = Height.Number(d.DischargeAboveGradeM, units), OpeningDistance = Measures.Length.Number(d.OpeningDistanceM, units),
        AboveOpeningTop = Height.Number(d.AboveOpeningTopM, units), AboveRoof = Height.Number(d.AboveRoofM, units),
        AdjacentBuilding = Measures.Length.Number(d.AdjacentBuildingM, units), FromVertical = TypedNumbers.Plain((decimal)d.FromVerticalDeg),
        RainCap = d.RainCap, SitingRules = d.SitingRules, Notes = d.Notes,
        Pieces = Rows(d, 0, units),
        Points = [.. d.BranchesInOrder().Select(b => new PointRow
        {
            Name = b.Name, TestId = TypedNumbers.Plain((decimal?)b.PressureFieldTestId), JoinsAfter = TypedNumbers.Plain((decimal)b.JoinsAfterPiece),
            JoinsInto = b.JoinsBranch == 0 ? "" : TypedNumbers.Plain((decimal)b.JoinsBranch), Pieces = Rows(d, b.Number, units),
        })],
    };

    private static List<PieceRow> Rows(SuctionDesign d, int branch, UnitSystem units) => [.. d.Line(branch).Select(p => new PieceRow
    {
        Kind = p.Kind.ToString(), Size = p.Size, Place = p.Place.ToString(), Count = TypedNumbers.Plain((decimal)p.Count), LossK = TypedNumbers.Plain((decimal?)p.LossK),
        Length = p.Kind == PieceKind.Pipe ? Measures.Length.Number(p.LengthM, units) : "", Rise = p.RiseM == 0 ? "" : Height.Number(p.RiseM, units),
    })];

    public RouteForm WithRoom(int pieces)
    {
        Fill(Pieces, Math.Min(MostPieces, pieces));
        return this;
    }

    public static void Fill(List<PieceRow> rows, int pieces)
    {
        while (rows.Count < pieces) rows.Add(new() { Size = rows.LastOrDefault()?.Size ?? "4in" });
    }

    /// <summary>One more suction point in the usual shape of a branch, to join before the fan.</summary>
    public void AddPoint(IReadOnlyList<TestChoice> tests)
    {
        if (Points.Count >= SuctionBranch.Most) return;
        var free = tests.FirstOrDefault(t => t.Pits.Count == 1 && t.Value != TestId && Points.TrueForAll(p => p.TestId != t.Value));
        var fan = Pieces.FindIndex(p => p.Kind == nameof(PieceKind.Fan));
        var size = Pieces.Find(p => !p.IsEmpty)?.Size ?? "4in";
        Points.Add(new()
        {
            Name = free?.Pits[0] ?? "", TestId = free?.Value ?? "", JoinsAfter = TypedNumbers.Plain((decimal)Math.Clamp(fan, 0, 1)),
            Pieces = [Row(PieceKind.Pipe, PiecePlace.Indoors, size), Row(PieceKind.Elbow90, PiecePlace.Indoors, size), Row(PieceKind.Pipe, PiecePlace.Indoors, size), Row(PieceKind.Tee, PiecePlace.Indoors, size)],
        });
    }

    /// <summary>Takes a suction point out; what joined its branch joins the route in its place.</summary>
    public void TakePointOut(int at)
    {
        if (at < 0 || at >= Points.Count) return;
        var gone = Points[at];
        Points.RemoveAt(at);
        foreach (var point in Points.Where(p => Number(p.JoinsInto) is { } joined && joined >= at + 1))
            if (Number(point.JoinsInto) == at + 1) (point.JoinsInto, point.JoinsAfter) = (gone.JoinsInto, gone.JoinsAfter);
            else point.JoinsInto = TypedNumbers.Plain((decimal)(Number(point.JoinsInto)!.Value - 1));
    }

    /// <summary>An empty row above a piece; branches that join behind it stay where they join.</summary>
    public void InsertPiece(int? point, int at)
    {
        if (RowsOf(point) is not { } rows || at < 0 || at >= rows.Count || rows.Count >= (point is null ? MostPieces : MostBranchPieces)) return;
        rows.Insert(at, new() { Size = rows[at].Size });
        foreach (var joining in Points.Where(p => (Number(p.JoinsInto) ?? 0) == (point + 1 ?? 0) && Number(p.JoinsAfter) > at))
            joining.JoinsAfter = TypedNumbers.Plain((decimal)(Number(joining.JoinsAfter)!.Value + 1));
    }

    public List<PieceRow>? RowsOf(int? point) => point is not { } at ? Pieces : at >= 0 && at < Points.Count ? Points[at].Pieces : null;

    private static int? Number(string? typed) => int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;

    /// <summary>Reads the form into the design; what cannot be read is refused and leaves the design's own value.</summary>
    public void Write(SuctionDesign d, FormReading read, IReadOnlyList<TestChoice> tests)
    {
        d.PressureFieldTestId = int.TryParse(TestId, NumberStyles.None, CultureInfo.InvariantCulture, out var test) ? test : null;
        if (d.PressureFieldTestId is null) read.Refuse(nameof(TestId), "Choose the PFE test this design answers; write one down on sheet 2 first.");
        else if (!tests.Any(t => t.Id == d.PressureFieldTestId)) read.Refuse(nameof(TestId), "That PFE test belongs to another house.");
        d.TargetPa = read.Measure(Pressure with { Name = "suction wanted", Least = 0, Most = 50 }, Target, nameof(Target), needed: true) ?? d.TargetPa;
        d.DischargeAboveGradeM = read.Measure(Height with { Name = "height of the mouth", Least = 0, Most = 60 }, DischargeHeight, nameof(DischargeHeight));
        d.OpeningDistanceM = read.Measure(Measures.Length with { Name = "distance to the opening" }, OpeningDistance, nameof(OpeningDistance));
        d.AboveOpeningTopM = read.Measure(Height with { Name = "height over the opening", Least = -60, Most = 60 }, AboveOpeningTop, nameof(AboveOpeningTop));
        d.AboveRoofM = read.Measure(Height with { Name = "height over the roof", Least = -60, Most = 60 }, AboveRoof, nameof(AboveRoof));
        d.AdjacentBuildingM = read.Measure(Measures.Length with { Name = "distance to the next building" }, AdjacentBuilding, nameof(AdjacentBuilding));
        d.FromVerticalDeg = (double)(read.Number(FromVertical, nameof(FromVertical), "angle of the mouth", 0, 180) ?? 0);
        (d.RainCap, d.SitingRules) = (RainCap, read.Text(SitingRules, nameof(SitingRules), "rules", most: 40));
        d.Notes = read.Text(Notes, nameof(Notes), "note");
        foreach (var words in WriteRoute.Into(d, this, read, tests)) read.Refuse("Pieces[0].Kind", words);
    }

    public static void WritePiece(RoutePiece piece, PieceRow row, string at, FormReading read)
    {
        if (!Enum.TryParse<PieceKind>(row.Kind, out var kind)) read.Refuse($"{at}.Kind", "Say what this piece is, or clear its row.");
        piece.Kind = kind;
        piece.Size = row.Size ?? "4in";
        if (!PipeChoices.All.Any(c => c.Key == piece.Size)) read.Refuse($"{at}.Size", "Choose a pipe size from the list.");
        piece.Place = Enum.TryParse<PiecePlace>(row.Place, out var place) ? place : PiecePlace.Indoors;
        piece.Count = read.Whole(row.Count, $"{at}.Count", "count", 1, 40) ?? 1;
        piece.LossK = (double?)read.Number(row.LossK, $"{at}.LossK", "loss coefficient", 0, 50);
        piece.LengthM = read.Measure(Measures.Length with { Most = 300 }, row.Length, $"{at}.Length", needed: kind == PieceKind.Pipe && row.Kind is not (null or "")) ?? 0;
        piece.RiseM = read.Measure(Height with { Name = "rise", Least = -100, Most = 100 }, row.Rise, $"{at}.Rise") ?? 0;
        if (kind == PieceKind.Pipe && row.Length is { Length: > 0 } && piece.LengthM == 0) read.Refuse($"{at}.Length", "A pipe of no length does nothing; write its length or clear the row.");
        if (Math.Abs(piece.RiseM) > piece.LengthM + 0.001) read.Refuse($"{at}.Rise", "A piece cannot rise more than it is long.");
    }

    private static PieceRow Row(PieceKind kind, PiecePlace place, string size = "4in") => new() { Kind = kind.ToString(), Place = place.ToString(), Count = "1", Size = size };
}
