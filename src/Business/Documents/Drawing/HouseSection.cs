using System.Globalization;
using MitigationOffice.Business.Data;
using static MitigationOffice.Business.Documents.Drawing.LabelPlaces;

namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>Draws the section through a house: ground, slab, pit, test holes, pipe, fan, roof and mouth. Pure.</summary>
public sealed class HouseSection
{
    private readonly HouseFacts _f;
    private readonly HouseLayout _at;
    private readonly List<Shape> _shapes = [];
    private readonly List<(string Of, IReadOnlyList<(string Text, Tone Tone)> Words, IEnumerable<(Spot, Anchor)> Places, bool Needed)> _wanted = [];

    private HouseSection(HouseFacts facts, bool narrow) => (_f, _at) = (facts, new HouseLayout(facts, narrow));

    /// <summary>The drawing, wide for a desk and for paper, or narrow for a phone.</summary>
    public static Picture Draw(HouseFacts facts, bool narrow = false) => new HouseSection(facts, narrow).Draw();

    private Picture Draw()
    {
        DrawHouse();
        Box("slab", Stroke.Thin, new(_at.Left, _at.Slab, _at.Right - _at.Left, _at.SlabBottom - _at.Slab));
        DrawHoles();
        DrawSlab();
        DrawPipe();
        DrawBranches();
        var places = new LabelPlaces(_at.Width, _at.Bottom);
        _shapes.ForEach(places.Avoid);
        var notes = _wanted.Where(w => !places.Place(w.Of, w.Words, w.Places) && w.Needed).SelectMany(w => w.Words).SelectMany(Folded).ToList();
        var spared = places.Placed.Select(l => l.Frame.Grown(4)).Concat(_shapes.OfType<Trace>().Where(t => t.Filled).Select(Extent)).ToList();
        var below = notes.Select((n, i) => new Label("note", n.Text, new(8, _at.Bottom + 18 + i * 17), Anchor.Start, n.Tone)).ToList();
        Shape[] all = [.. Ground().Select(g => new Strokes("ground", Stroke.Hatch, Hatching.Lines(g, spared))), .. _shapes, .. places.Placed, .. below];
        return new Picture(_at.Width, _at.Bottom + (notes.Count == 0 ? 2 : 10 + notes.Count * 17), $"Section through {_f.Name}", DescribeHouse.Of(_f), all);
    }

    private void DrawHouse()
    {
        Line("ground", Stroke.Wall, new(0, _at.Grade), new(_at.Left, _at.Grade));
        Line("ground", Stroke.Wall, new(_at.Right, _at.Grade), new(_at.Width, _at.Grade));
        Line("wall", Stroke.Wall, new(_at.Left, _at.SlabBottom), new(_at.Left, _at.Eave));
        Line("wall", Stroke.Wall, new(_at.Right, _at.SlabBottom), new(_at.Right, _at.Eave));
        for (var floor = _f.Basement ? 0 : 1; floor <= _at.Floors; floor++)
            Line("floor", Stroke.Thin, new(_at.Left, _at.FloorLine(floor)), new(_at.Right, _at.FloorLine(floor)));
        var over = 16 * _at.RoofHeight / (_at.RidgeX - _at.Left);
        _shapes.Add(new Trace("roof", Stroke.Wall, [new(_at.Left - 16, _at.Eave + over), new(_at.RidgeX, _at.Ridge), new(_at.Right + 16, _at.Eave + over)]));
        if (_f.WayOut != WayOut.Garage) return;
        _shapes.Add(new Trace("garage", Stroke.Wall,
            [new(_at.GarageLeft, _at.Grade), new(_at.GarageLeft, _at.GarageTop), new(_at.Left, _at.GarageTop - 12)]));
    }

    private void DrawSlab()
    {
        if (_f.FootingDivides)
        {
            var x = FootingX();
            Box("footing", Stroke.Thin, new(x - 9, _at.SlabBottom, 18, 22));
            Want("footing", [("footing", Tone.Soft)], Around(new(x, _at.SlabBottom + 20), 14, Anchor.Start, Anchor.End), needed: false);
        }

        var pit = new Spot(_at.PitX, _at.SlabBottom + 14);
        _shapes.Add(new Ring("pipe", Stroke.Thin, pit, 13, Filled: true));
        if (_f.PitVacuumPa is { } pa)
            Want("pit", [(Measures.GaugePressure.Show(pa, _f.Units), Tone.Plain), ("at the pit", Tone.Soft)], Around(new(_at.PitX, _at.Slab - 78), 12, Anchor.Start, Anchor.End));
        else Want("pit", [("pit", Tone.Soft)], Around(new(pit.X, pit.Y + 6), 18, Anchor.Start), needed: false);
    }

    private void DrawPipe()
    {
        var pit = new Spot(_at.PitX, _at.SlabBottom + 12);
        var mouth = _at.Mouth;
        if (_f.WayOut == WayOut.None)
        {
            _shapes.Add(new Trace("pipe", Stroke.Pipe, [pit, new(pit.X, _at.Slab - 16)]));
            return;
        }

        Spot[] way = mouth.X == pit.X ? [pit, mouth] : [pit, new(pit.X, _at.Crossing), new(mouth.X, _at.Crossing), mouth];
        _shapes.Add(new Trace("pipe", Stroke.Pipe, way));
        foreach (var dx in new[] { -7, 0, 7 }) Line("breath", Stroke.Measure, new(mouth.X + dx, mouth.Y - 6), new(mouth.X + dx * 1.4, mouth.Y - 16));
        DrawFan(FanSpot(mouth));
        if (_f.DischargeAboveGradeM is { } height && _f.WayOut != WayOut.Roof) DrawHeight(mouth, height);
        SayRoute(mouth);
        if (_f.StartUpPa is not { } start) return;
        Want("start", [(Measures.GaugePressure.Show(start, _f.Units), Tone.Plain), ("start-up reading", Tone.Soft)], Around(new(_at.PitX, _at.Slab - 50), 14, Anchor.Start, Anchor.End));
    }

    private void DrawFan(Spot at)
    {
        if (_f.FanPlace is null) return;
        _shapes.Add(new Trace("pipe", Stroke.Thin, [.. Octagon(at, 12, 17, 5)], Closed: true, Filled: true));
        if (_f.FanWords.Length > 0) Want("fan", [(_f.FanWords, Tone.Plain)], [.. Around(at, 20, Anchor.Start), .. Around(new(_at.Left, at.Y), 10, Anchor.Start), .. Around(at, 20, Anchor.End)]);
    }

    private void DrawHeight(Spot mouth, double height)
    {
        var x = (_f.WayOut == WayOut.Garage ? _at.GarageLeft : _at.PipeX) - (_at.Width < 500 ? 22 : 40);
        Line("height", Stroke.Measure, new(x, _at.Grade - 1), new(x, mouth.Y));
        foreach (var y in new[] { _at.Grade - 1, mouth.Y }) Line("height", Stroke.Measure, new(x - 5, y), new(x + 5, y));
        Want("height", [(Measures.Height.Show(height, _f.Units), Tone.Soft)], Around(new(x, (_at.Grade + mouth.Y) / 2), 6, Anchor.End));
    }

    private void SayRoute(Spot mouth)
    {
        var outdoor = _f.OutdoorM;
        var words = new List<(string, Tone)>();
        if (outdoor > 0) words.Add(($"outdoor run {Measures.Length.Show(outdoor, _f.Units)}", Tone.Soft));
        if (_f.Warning.Length > 0) words.Add((_f.Warning, Tone.Warn));
        if (words.Count > 0)
            Want("outdoor", words, [.. Around(new(mouth.X, mouth.Y - 24), 16, Anchor.Start), .. Around(new(mouth.X, mouth.Y + 20), 54, Anchor.End), (new(6, 18), Anchor.Start), (new(6, 36), Anchor.Start), (new(6, 60), Anchor.Start)]);
        var sizes = string.Join(" and ", _f.Pipe.Select(r => r.Size).Distinct());
        Want("pipe-words", [($"{sizes} pipe, {Measures.Length.Show(_f.Pipe.Sum(r => r.LengthM), _f.Units)}", Tone.Soft)],
            [.. Around(new(_at.PitX, _at.Crossing), 14, Anchor.Start), .. Around(new(_at.PitX, _at.Grade - 60), 14, Anchor.Start)]);
    }

    /// <summary>Each further pit with its pipe up to the height at which the route leaves the house, and along it to the line it joins.</summary>
    private void DrawBranches()
    {
        if (_f.WayOut == WayOut.None) return;
        for (var i = 0; i < _f.Branches.Count; i++)
        {
            var (branch, x) = (_f.Branches[i], BranchX(i));
            var top = _at.Crossing;
            var joined = branch.Joins.Length == 0 ? -1 : _f.Branches.ToList().FindIndex(b => b.Name == branch.Joins);
            var pit = new Spot(x, _at.SlabBottom + 14);
            _shapes.Add(new Trace("pipe", Stroke.Pipe, [pit with { Y = pit.Y - 2 }, new(x, top), new(joined < 0 ? _at.PitX : BranchX(joined), top)]));
            _shapes.Insert(_shapes.Count - 1, new Ring("pipe", Stroke.Thin, pit, 13, Filled: true));
            var name = branch.Name.Length <= 14 ? branch.Name : branch.Name[..13] + "…";
            List<(string, Tone)> words = branch.PitVacuumPa is { } pa ? [(name, Tone.Soft), (Measures.GaugePressure.Show(pa, _f.Units), Tone.Soft)] : [(name, Tone.Soft)];
            Want(Say($"branch {i}"), words, Around(new(x, pit.Y + 6), 18, Anchor.Start, Anchor.End), needed: false);
        }
    }

    /// <summary>Further pits stand between the holes' marks, evenly to the right of the first.</summary>
    private double BranchX(int index)
    {
        var (from, to) = (FirstHole, _at.Right - 34);
        var gaps = Math.Max(1, _f.Holes.Count - 1);
        var gap = Math.Clamp((int)Math.Round((index + 1.0) * gaps / (_f.Branches.Count + 1), MidpointRounding.AwayFromZero), 0, gaps - 1);
        var between = from + (to - from) * (gap + 0.5) / gaps;
        return gaps > _f.Branches.Count ? between : from + (to - from) * (index + 1.0) / (_f.Branches.Count + 1);
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);

    private void DrawHoles()
    {
        var ordered = _f.Holes.OrderBy(h => h.DistanceM ?? double.MaxValue).Select((h, i) => (Hole: h, X: HoleX(i))).ToList();
        foreach (var (_, x) in ordered) _shapes.Add(new Ring(HoleAt(x), Stroke.Thin, new(x, (_at.Slab + _at.SlabBottom) / 2), 4, Filled: true));
        var weakest = _f.Weakest;
        foreach (var (hole, x) in ordered.OrderBy(o => ReferenceEquals(o.Hole, weakest) ? 0 : 1).ThenBy(o => o.X))
            SayHole(hole, x, ReferenceEquals(hole, weakest) && _f.Holes.Count > 1);
    }

    private void SayHole(HoleMark hole, double x, bool weakest)
    {
        var name = hole.Label.Length <= 9 ? hole.Label : hole.Label[..8] + "…";
        var reading = hole.SuctionPa is { } pa ? Measures.Pressure.Show(pa, _f.Units) : "not read";
        List<(string, Tone)> words = weakest ? [("weakest", Tone.Soft), (reading, Tone.Plain), (name, Tone.Soft)] : [(reading, Tone.Plain), (name, Tone.Soft)];
        var y = _at.Slab - 6 - (words.Count - 1) * 16;
        Want(HoleAt(x), words, [(new(x, y), Anchor.Middle), (new(x - 8, y), Anchor.Middle), (new(x + 8, y), Anchor.Middle), (new(x + 5, y), Anchor.End), (new(x - 5, y), Anchor.Start)], needed: weakest);
    }

    private static string HoleAt(double x) => string.Create(CultureInfo.InvariantCulture, $"hole at {x:0}");

    private double HoleX(int index) => FirstHole + (_at.Right - 34 - FirstHole) * (_f.Holes.Count == 1 ? 0.6 : index / (_f.Holes.Count - 1.0));

    private double FirstHole => _at.PitX + (_at.Width < 500 ? 40 : 66);

    private double FootingX() => _f.Holes.Count < 2 ? _at.PitX + 0.4 * (_at.Right - _at.PitX) : (HoleX((_f.Holes.Count - 1) / 2) + HoleX((_f.Holes.Count - 1) / 2 + 1)) / 2;

    private Spot FanSpot(Spot mouth) => _f.FanPlace switch
    {
        RoutePlace.Indoors => new(_at.PitX, (_at.Slab + Math.Min(_at.Crossing, _at.Slab - 90)) / 2 - 10),
        RoutePlace.Attic => new(_at.PitX, Math.Max((_at.Eave + _at.RoofAt(_at.PitX)) / 2, mouth.Y + 20)),
        RoutePlace.Garage => new(mouth.X, (_at.Crossing + _at.GarageTop) / 2),
        _ => mouth with { Y = Math.Min((mouth.Y + _at.Crossing) / 2 + 10, _at.Crossing - 22) },
    };

    private IEnumerable<Frame> Ground()
    {
        yield return new(0, _at.Grade, _at.Left, _at.Bottom - _at.Grade);
        yield return new(_at.Right, _at.Grade, _at.Width - _at.Right, _at.Bottom - _at.Grade);
        yield return new(_at.Left, _at.SlabBottom, _at.Right - _at.Left, _at.Bottom - _at.SlabBottom);
    }

    private void Line(string of, Stroke stroke, Spot from, Spot to) => _shapes.Add(new Trace(of, stroke, [from, to]));

    private void Box(string of, Stroke stroke, Frame b) =>
        _shapes.Add(new Trace(of, stroke, [new(b.X, b.Y), new(b.Right, b.Y), new(b.Right, b.Bottom), new(b.X, b.Bottom)], Closed: true, Filled: true));

    private void Want(string of, IReadOnlyList<(string, Tone)> words, IEnumerable<(Spot, Anchor)> places, bool needed = true) =>
        _wanted.Add((of, words, places, needed));

    private static Frame Extent(Trace figure) => new(
        figure.Corners.Min(c => c.X), figure.Corners.Min(c => c.Y),
        figure.Corners.Max(c => c.X) - figure.Corners.Min(c => c.X), figure.Corners.Max(c => c.Y) - figure.Corners.Min(c => c.Y));

    /// <summary>A note broken between words so that each line fits the paper.</summary>
    private IEnumerable<(string Text, Tone Tone)> Folded((string Text, Tone Tone) note)
    {
        var line = "";
        foreach (var word in note.Text.Split(' '))
        {
            if (line.Length > 0 && LetterWidths.Of($"{line} {word}") * 13 > _at.Width - 20)
            {
                yield return (line, note.Tone);
                line = "";
            }

            line = line.Length == 0 ? word : $"{line} {word}";
        }

        yield return (line, note.Tone);
    }

    private static IEnumerable<Spot> Octagon(Spot c, double w, double h, double cut) =>
        [new(c.X - w + cut, c.Y - h), new(c.X + w - cut, c.Y - h), new(c.X + w, c.Y - h + cut), new(c.X + w, c.Y + h - cut),
         new(c.X + w - cut, c.Y + h), new(c.X - w + cut, c.Y + h), new(c.X - w, c.Y + h - cut), new(c.X - w, c.Y - h + cut)];
}
