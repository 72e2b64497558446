using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Siting;
using static MitigationOffice.Business.Documents.Drawing.LabelPlaces;

namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>Draws the mouth of the pipe as one sees it before the wall, with what stands near it and the clearances, to scale. Pure.</summary>
public sealed class MouthSection
{
    private readonly MouthLayout _at;
    private readonly SitingReport _report;
    private readonly DischargeSite _site;
    private readonly UnitSystem _units;
    private readonly List<Shape> _shapes = [];
    private readonly List<(string Of, IReadOnlyList<(string Text, Tone Tone)> Words, IEnumerable<(Spot, Anchor)> Places)> _wanted = [];

    private MouthSection(SitingReport report, UnitSystem units, bool narrow) =>
        (_report, _site, _units, _at) = (report, report.Site, units, new MouthLayout(report, narrow));

    public static Picture Draw(SitingReport report, UnitSystem units, bool narrow = false) => new MouthSection(report, units, narrow).Draw();

    private Picture Draw()
    {
        DrawHouse();
        DrawRing();
        foreach (var building in _at.Buildings) DrawBuilding(building);
        foreach (var wall in _at.Walls) DrawWall(wall);
        foreach (var opening in _at.Openings) DrawOpening(opening);
        DrawPipe();
        DrawHeights();
        var places = new LabelPlaces(_at.Width, _at.Height);
        _shapes.ForEach(places.Avoid);
        var notes = _wanted.Where(w => !places.Place(w.Of, w.Words, w.Places) && !places.Place(w.Of, Folded(w.Words), w.Places)).SelectMany(w => w.Words).ToList();
        var below = notes.Select((n, i) => new Label("note", n.Text, new(8, _at.Height + 16 + i * 17), Anchor.Start, n.Tone)).ToList();
        var ground = new Strokes("ground", Stroke.Hatch, Hatching.Lines(new Frame(0, _at.Ground, _at.Width, _at.Height - _at.Ground), [.. places.Placed.Select(l => l.Frame.Grown(4))]));
        return new Picture(_at.Width, _at.Height + (notes.Count == 0 ? 0 : 8 + notes.Count * 17), "The mouth and what stands near it", Describe(), [ground, .. _shapes, .. places.Placed, .. below]);
    }

    /// <summary>"Kitchen window, 9 ft, fails" as a name and what is said of it, where one line finds no room.</summary>
    private static IReadOnlyList<(string Text, Tone Tone)> Folded(IReadOnlyList<(string Text, Tone Tone)> words) =>
        [.. words.SelectMany(w => w.Text.Split(", ", 2).Select(part => (part, w.Tone)))];

    private void DrawHouse()
    {
        Line("ground", Stroke.Wall, new(0, _at.Ground), new(_at.Width, _at.Ground));
        Box("house", Stroke.Thin, new(_at.HouseLeft, _at.Eave, _at.Width - _at.HouseLeft + 4, _at.Ground - _at.Eave), filled: false);
        if (_at.IsFlat) Line("roof", Stroke.Wall, new(_at.HouseLeft - 8, _at.Eave), new(_at.Width, _at.Eave));
        else _shapes.Add(new Trace("roof", Stroke.Wall, [new(_at.HouseLeft - 8, _at.Eave + 3), new(_at.HouseLeft + _at.RoofRun, _at.Ridge), new(_at.Width, _at.Ridge)]));
        if (!_at.IsFlat) Line("roof", Stroke.Wall, new(_at.HouseLeft - 8, _at.Eave + 3), new(_at.Width, _at.Eave + 3));
    }

    /// <summary>The distance that openings must keep, as far as it lies over the ground.</summary>
    private void DrawRing()
    {
        if (_report.RuleSet.Rules.FirstOrDefault(r => r.Kind == SitingRuleKind.OpeningClearance)?.MinimumFt is not { } least) return;
        var radius = (double)least * _at.PerFt;
        var run = new List<Spot>();
        for (var step = 0; step <= 96; step++)
        {
            var angle = Math.PI / 2 + step * Math.Tau / 96;
            var spot = new Spot(_at.Mouth.X + radius * Math.Cos(angle), _at.Mouth.Y + radius * Math.Sin(angle));
            var inside = spot.X > 2 && spot.X < _at.Width - 2 && spot.Y > 2 && spot.Y < _at.Ground - 1;
            if (inside) run.Add(spot);
            if ((!inside || step == 96) && run.Count > 1) _shapes.Add(new Trace("ring", Stroke.Measure, [.. run]));
            if (!inside) run.Clear();
        }

        Want("ring", [($"{Feet(least)} around", Tone.Soft)], [.. Around(new(_at.Mouth.X, _at.Mouth.Y - radius), 4), .. Around(new(_at.Mouth.X - radius * 0.7, _at.Mouth.Y - radius * 0.7), 4), .. Around(new(_at.Mouth.X + radius * 0.7, _at.Mouth.Y - radius * 0.7), 4)]);
    }

    private void DrawPipe()
    {
        var (foot, mouth) = (new Spot(_at.Mouth.X, _at.PipeFoot), _at.Mouth);
        var lean = (double)(_site.FromVerticalDeg ?? 0) * Math.PI / 180;
        var bend = new Spot(mouth.X + 22 * Math.Sin(lean), mouth.Y + 22 * Math.Cos(lean));
        var way = lean < 0.02 ? (Spot[])[foot, mouth] : [foot with { X = bend.X }, bend, mouth];
        _shapes.Add(new Trace("pipe", Stroke.Pipe, way));
        var (dx, dy) = (-Math.Sin(lean), -Math.Cos(lean));
        var fails = Failed(SitingRuleKind.Direction);
        foreach (var aside in new[] { -6.0, 0, 6 })
            Line("pipe", fails ? Stroke.Warn : Stroke.Measure, new(mouth.X + dx * 7 - dy * aside, mouth.Y + dy * 7 + dx * aside), new(mouth.X + dx * 17 - dy * aside * 1.4, mouth.Y + dy * 17 + dx * aside * 1.4));
        if (lean >= 0.02) Want("pipe", [($"{_site.FromVerticalDeg:0.#}° from upright{(fails ? ", fails" : "")}", fails ? Tone.Warn : Tone.Soft)], Around(new(mouth.X, mouth.Y - 4), 26));
        if (_site.HasRainCap != true) return;
        _shapes.Add(new Trace("pipe", Failed(SitingRuleKind.NoRainCap) ? Stroke.Warn : Stroke.Thin, [new(mouth.X - 12, mouth.Y - 4), new(mouth.X, mouth.Y - 13), new(mouth.X + 12, mouth.Y - 4)]));
        Want("pipe", [(Failed(SitingRuleKind.NoRainCap) ? "rain cap, fails" : "rain cap", Failed(SitingRuleKind.NoRainCap) ? Tone.Warn : Tone.Soft)], Around(new(mouth.X, mouth.Y - 16), 18));
    }

    private void DrawHeights()
    {
        var mouth = _at.Mouth;
        if (_site.HeightAboveGradeFt is { } height)
            Upright("height", mouth.X - _at.Aside, _at.Ground, mouth.Y, $"{Feet(height)} above grade", Failed(SitingRuleKind.HeightAboveGrade), Anchor.End, Anchor.Start);
        if (_site.AboveRoofEdgeIn is { } edge && _site.Mounting == DischargeMounting.SideOfHouse)
            Upright("edge", mouth.X + _at.Aside, _at.Eave, mouth.Y, $"{Inches(Math.Abs(edge))} {(edge < 0 ? "below" : "above")} the roof edge", Failed(SitingRuleKind.RoofEdge), Anchor.Start, Anchor.End);
        else if (_site.AboveRoofIn is { } roof)
            Upright("edge", mouth.X + _at.Aside, _at.RoofSurface, mouth.Y, $"{Inches(Math.Abs(roof))} {(roof < 0 ? "below" : "above")} the roof", Failed(SitingRuleKind.RoofClearance), Anchor.Start, Anchor.End);
    }

    private void Upright(string of, double x, double from, double to, string words, bool fails, params Anchor[] sides)
    {
        var stroke = fails ? Stroke.Warn : Stroke.Measure;
        Line(of, stroke, new(x, from), new(x, to));
        foreach (var y in new[] { from, to }) Line(of, stroke, new(x - 4, y), new(x + 4, y));
        var along = new[] { 0.5, 0.3, 0.7, 0.15, 0.85 }.Select(share => new Spot(x, from + (to - from) * share));
        Want(of, [(words + (fails ? ", fails" : ""), fails ? Tone.Warn : Tone.Plain)],
            [.. along.SelectMany(spot => Around(spot, 7, sides)), .. Around(new(x, to - 30), 40, sides), .. Around(new(_at.HouseLeft, _at.Eave + 24), 12, Anchor.End), .. Around(new(_at.Mouth.X, _at.Ground - 60), 40, sides)]);
    }

    private void DrawOpening(PlacedOpening o)
    {
        var fails = _at.Fails(_site with { Openings = [o.Opening] }, SitingRuleKind.OpeningClearance);
        Box(o.Opening.Name, fails ? Stroke.Warn : Stroke.Thin, o.Box);
        if (o.Opening.Kind is OpeningKind.Window) Line(o.Opening.Name, Stroke.Thin, new(o.Box.Centre.X, o.Box.Y), new(o.Box.Centre.X, o.Box.Bottom));
        Line(o.Opening.Name, fails ? Stroke.Warn : Stroke.Measure, _at.Mouth, o.Nearest);
        List<(string, Tone)> words = [($"{o.Opening.Name}, {Feet(o.Opening.DistanceFt)}{(o.IsFar ? " (drawn nearer)" : "")}{(fails ? ", fails" : "")}", fails ? Tone.Warn : Tone.Plain)];
        words.Add(o.Opening.TopBelowExhaustFt is { } top ? ($"top {Feet(Math.Abs(top))} {(top < 0 ? "above" : "below")} the mouth", Tone.Soft) : ("its top not measured", Tone.Soft));
        Want(o.Opening.Name, words, [.. Around(new(o.Box.Centre.X, o.Box.Bottom + 2), 12, Anchor.Middle), .. Around(new(o.Box.Right, o.Box.Centre.Y), 6, Anchor.Start), .. Around(new(o.Box.X, o.Box.Centre.Y), 6, Anchor.End), .. Around(new(o.Box.Centre.X, o.Box.Y - 18), 12, Anchor.Middle), .. Around(new(o.Box.X, o.Box.Bottom + 20), 0, Anchor.End)]);
    }

    private void DrawBuilding(PlacedThing b)
    {
        var one = _site with { AdjacentBuildings = [_site.AdjacentBuildings![b.Number]] };
        var fails = _at.Fails(one, SitingRuleKind.AdjacentBuilding) || _at.Fails(one, SitingRuleKind.AdjacentOpening);
        Box(b.Name, fails ? Stroke.Warn : Stroke.Thin, b.Box);
        Level(b, b.Box.Right, fails);
    }

    private void DrawWall(PlacedThing w)
    {
        var fails = _at.Fails(_site with { Walls = [_site.Walls![w.Number]] }, SitingRuleKind.RisingWall);
        Box(w.Name, fails ? Stroke.Warn : Stroke.Wall, w.Box);
        Level(w, w.Box.X, fails);
    }

    private void Level(PlacedThing thing, double to, bool fails)
    {
        var y = thing.LevelY;
        Line(thing.Name, fails ? Stroke.Warn : Stroke.Measure, new(_at.Mouth.X, y), new(to, y));
        foreach (var x in new[] { _at.Mouth.X, to }) Line(thing.Name, fails ? Stroke.Warn : Stroke.Measure, new(x, y - 4), new(x, y + 4));
        Want(thing.Name, [($"{thing.Name}, {Feet(thing.DistanceFt)}{(thing.IsFar ? " (drawn nearer)" : "")}{(fails ? ", fails" : "")}", fails ? Tone.Warn : Tone.Plain)],
            [.. Around(new((_at.Mouth.X + to) / 2, y), 5, Anchor.Middle), .. Around(new(to, y), 8, Anchor.Start, Anchor.End), .. Around(thing.Box.Centre, 4, Anchor.Middle)]);
    }

    private bool Failed(SitingRuleKind kind) => _at.Fails(_site, kind);

    private string Describe()
    {
        var failed = _report.Findings.Where(f => f.Outcome == SitingOutcome.Failed).Select(f => f.Why).ToList();
        List<string> said =
        [
            _site.HeightAboveGradeFt is { } h ? $"The mouth stands {Feet(h)} above grade." : "The height of the mouth is not measured.",
            .. (_site.Openings ?? []).Select(o => $"{Capital(o.Name)}: {Feet(o.DistanceFt)} away."),
            .. (_site.AdjacentBuildings ?? []).Select(b => $"{Capital(b.Name)}: {Feet(b.DistanceFt)} away."),
            .. (_site.Walls ?? []).Select(w => $"{Capital(w.Name)}: {Feet(w.DistanceFt)} away."),
            failed.Count == 0 ? "Nothing measured fails." : "Fails: " + string.Join(" ", failed),
        ];
        return string.Join(' ', said);
    }

    private static string Capital(string name) => name.Length == 0 ? name : char.ToUpper(name[0], CultureInfo.InvariantCulture) + name[1..];

    private string Feet(decimal feet) => Measures.Height.Show((double)feet * 0.3048, _units);

    private string Inches(decimal inches) => _units == UnitSystem.US ? string.Create(CultureInfo.InvariantCulture, $"{inches:0.#} in") : Measures.Height.Show((double)inches * 0.0254, _units);

    private void Line(string of, Stroke stroke, Spot from, Spot to) => _shapes.Add(new Trace(of, stroke, [from, to]));

    private void Box(string of, Stroke stroke, Frame b, bool filled = true) =>
        _shapes.Add(new Trace(of, stroke, [new(b.X, b.Y), new(b.Right, b.Y), new(b.Right, b.Bottom), new(b.X, b.Bottom)], Closed: true, Filled: filled));

    private void Want(string of, IReadOnlyList<(string, Tone)> words, IEnumerable<(Spot, Anchor)> places) => _wanted.Add((of, words, places));
}
