using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Html;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using static MitigationOffice.Web.Setup.Drawings.PlanFrame;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>The floor plan as inline SVG: grid, floors, footings, holes, and the vacuum under the slab where there is a map.</summary>
public sealed class PlanDrawing
{
    private readonly StringBuilder _svg = new();

    // Letters of a wide drawing, and the larger ones that a small one needs; the style sheet shows those that fit.
    private readonly LabelPlaces _wide = new(10);
    private readonly LabelPlaces _narrow = new(18);
    private readonly List<string> _words = [];
    private readonly PlanView _view;
    private readonly PlanFrame _frame;

    private PlanDrawing(PlanView view)
    {
        _view = view;
        // A map is about the floors: of the picture, what lies around them is enough.
        _frame = new PlanFrame([.. view.Areas.SelectMany(a => a.Area.Corners), .. view.Footings.SelectMany(f => f), .. view.Marks.Select(m => m.At), .. view is { Picture: { } p, Map: null } ? (PlanPoint[])[p.Low, p.High] : []], view.SpareM);
    }

    public static IHtmlContent Of(PlanView view) => new HtmlString(new PlanDrawing(view).Draw());

    private double UnitM => _view.Units == UnitSystem.US ? 0.3048 : 1;

    private string Draw()
    {
        var id = _view.Id;
        Add($"<svg class=\"drawing plan\" id=\"{id}\" viewBox=\"0 0 {Px(Width)} {Px(_frame.Height)}\" role=\"img\" aria-labelledby=\"{id}-title {id}-words\" data-scale=\"{Exact(_frame.Scale * UnitM)}\" data-x=\"{Exact(_frame.OriginX)}\" data-y=\"{Exact(_frame.OriginY)}\">");
        Add($"<title id=\"{id}-title\">{Encode(_view.Title)}</title><desc id=\"{id}-words\">{Encode(_view.Description)}</desc>");
        if (_view.Picture is { } picture) Add($"<image class=\"backdrop{(picture.Printed ? "" : " no-print")}\" href=\"{picture.Address}\" x=\"{Px(_frame.X(picture.Low.XM))}\" y=\"{Px(_frame.Y(picture.High.YM))}\" width=\"{Px((picture.High.XM - picture.Low.XM) * _frame.Scale)}\" height=\"{Px((picture.High.YM - picture.Low.YM) * _frame.Scale)}\" preserveAspectRatio=\"none\"/>");
        Grid();
        foreach (var places in (LabelPlaces[])[_wide, _narrow]) KeepFree(places);
        if (_view.Map is { } map) Bands(map);
        foreach (var area in _view.Areas) Floor(area);
        foreach (var footing in _view.Footings.Where(f => f.Count > 1)) Add($"<path class=\"footing\" d=\"{_frame.Path(footing, false)}\"/>");
        foreach (var mark in _view.Marks) Mark(mark);
        if (_view.Map is { } shown) ContourWords(shown);
        foreach (var area in _view.Areas) AreaWords(area.Area);
        if (_view.Map is null) Lengths();
        foreach (var words in _words) _svg.Append(words);
        return _svg.Append("</svg>").ToString();
    }

    private void KeepFree(LabelPlaces places)
    {
        foreach (var area in _view.Areas) places.Block([.. area.Area.Corners.Append(area.Area.Corners[0]).Select(c => (_frame.X(c.XM), _frame.Y(c.YM)))]);
        foreach (var footing in _view.Footings) places.Block([.. footing.Select(c => (_frame.X(c.XM), _frame.Y(c.YM)))]);
        foreach (var mark in _view.Marks) places.Take(_frame.X(mark.At.XM), _frame.Y(mark.At.YM), 7);
    }

    /// <summary>Writes a label where there is room for it; in a small drawing with fewer words, or not at all.</summary>
    private void Label(string kind, string words, LabelPlace[] places, Func<double, int, bool>? fits = null, string? brief = null)
    {
        var (wide, narrow, said) = (_wide.Find(words, places, fits), _narrow.Find(words, places, fits), words);
        if (narrow is null && brief is not null) (narrow, said) = (_narrow.Find(brief, places, fits), brief);
        if (wide is { } same && wide == narrow && said == words) Words(words, places[same], kind);
        else
        {
            if (wide is { } minor) Words(words, places[minor], kind + " minor");
            if (narrow is { } major) Words(said, places[major], kind + " major");
        }
    }

    private void Grid()
    {
        var step = new[] { 1.0, 2, 5, 10, 20, 50 }.First(s => Math.Max(_frame.RightM - _frame.LeftM, _frame.HighM - _frame.LowM) / UnitM / s <= (s == 50 ? double.MaxValue : 32));
        var lines = new StringBuilder();
        for (var x = Math.Ceiling(_frame.LeftM / UnitM / step) * step; x * UnitM <= _frame.RightM; x += step)
        {
            lines.Append(CultureInfo.InvariantCulture, $"M{Px(_frame.X(x * UnitM))} {Px(_frame.Y(_frame.HighM))}V{Px(_frame.Y(_frame.LowM))}");
            if (IsNamed(x, step)) Axis(Plain(x), _frame.X(x * UnitM), _frame.Height - 8, "middle");
        }

        for (var y = Math.Ceiling(_frame.LowM / UnitM / step) * step; y * UnitM <= _frame.HighM; y += step)
        {
            lines.Append(CultureInfo.InvariantCulture, $"M{Px(_frame.X(_frame.LeftM))} {Px(_frame.Y(y * UnitM))}H{Px(_frame.X(_frame.RightM))}");
            if (IsNamed(y, step)) Axis(Plain(y), _frame.X(_frame.LeftM) - 4, _frame.Y(y * UnitM), "end");
        }

        Axis(_view.Units == UnitSystem.US ? "ft" : "m", 4, 10, "start");
        Add($"<path class=\"grid\" d=\"{lines}\"/>");
    }

    private static bool IsNamed(double at, double step) => (long)Math.Round(at / step, MidpointRounding.AwayFromZero) % 5 == 0;

    private static string Plain(double at) => (Math.Abs(at) < 1e-6 ? 0 : at).ToString("0.##", CultureInfo.InvariantCulture);

    private void Axis(string words, double x, double y, string anchor) => Words(words, new(x, y, anchor), "soft-text axis");

    private void Floor(DrawnArea drawn)
    {
        var kind = drawn.Area.HasSlab ? "floor" : "floor no-slab";
        var field = drawn.Field.Length > 0 ? $" data-field=\"{drawn.Field}\"" : "";
        Add($"<path class=\"{kind}\"{field} d=\"{_frame.Path(drawn.Area.Corners, true)}\"/>");
    }

    private void Bands(CoverageMap map)
    {
        var slabs = string.Concat(_view.Areas.Where(a => a.Area.HasSlab).Select(a => _frame.Path(a.Area.Corners, true)));
        var id = _view.Id;
        Add($"<defs><clipPath id=\"{id}-slabs\"><path d=\"{slabs}\"/></clipPath><pattern id=\"{id}-under\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\"><path class=\"under-line\" d=\"M0 7L7 0\"/></pattern></defs>");
        Add($"<path fill=\"url(#{id}-under)\" d=\"{slabs}\"/><g clip-path=\"url(#{id}-slabs)\">");
        var bands = new ContourBands(map);
        foreach (var (level, number) in ContourBands.Levels(map.TargetPa, map.Cells.Max(c => c.VacuumPa)).Select((l, i) => (l, i)))
            Add($"<path class=\"band band-{number}\" d=\"{string.Concat(bands.Around(level).Select(Loop))}\"/>");
        Add($"</g>");
    }

    private string Loop(ContourLoop loop)
    {
        var kept = new List<(double X, double Y)>();
        foreach (var (at, _) in loop.Points)
        {
            var point = (X: Math.Round(_frame.X(at.XM), 1, MidpointRounding.AwayFromZero), Y: Math.Round(_frame.Y(at.YM), 1, MidpointRounding.AwayFromZero));
            if (kept.Count > 1 && Straight(kept[^2], kept[^1], point)) kept.RemoveAt(kept.Count - 1);
            kept.Add(point);
        }

        return "M" + string.Join('L', kept.Select(p => $"{Px(p.X)} {Px(p.Y)}")) + "Z";
    }

    private static bool Straight((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) =>
        Math.Abs((b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X)) < 0.25;

    private void ContourWords(CoverageMap map)
    {
        var bands = new ContourBands(map);
        foreach (var level in ContourBands.Levels(map.TargetPa, map.Cells.Max(c => c.VacuumPa)))
        {
            var longest = bands.Around(level).SelectMany(l => l.Points).Where(p => !p.OnWall).Select(p => p.At).ToList();
            if (longest.Count < 4) continue;
            var step = Math.Max(1, longest.Count / 24);
            Label("contour", $"{level.ToString("0.##", CultureInfo.InvariantCulture)} Pa", [.. longest.Where((_, i) => i % step == 0).Select(p => new LabelPlace(_frame.X(p.XM), _frame.Y(p.YM)))]);
        }
    }

    private void Mark(PlanMark mark)
    {
        var (x, y) = (_frame.X(mark.At.XM), _frame.Y(mark.At.YM));
        Add($"<g class=\"mark {mark.Kind.ToString().ToLowerInvariant()}\"{(mark.Field.Length > 0 ? $" data-field=\"{mark.Field}\"" : "")} transform=\"translate({Px(x)} {Px(y)})\">{Sign(mark.Kind)}</g>");
        LabelPlace[] places = [new(x + 9, y, "start"), new(x - 9, y, "end"), new(x, y - 17), new(x, y + 17), new(x + 9, y - 12, "start"), new(x + 9, y + 12, "start"), new(x - 9, y - 12, "end"), new(x - 9, y + 12, "end")];
        Label("mark-words", mark.Words, places, (width, i) => Inside(places[i], width), mark.Brief);
    }

    private static bool Inside(LabelPlace at, double width) => at.Anchor switch
    {
        "start" => at.X + width < Width,
        "end" => at.X - width > 0,
        _ => at.X - width / 2 > 0 && at.X + width / 2 < Width,
    };

    private static string Sign(MarkKind kind) => kind switch
    {
        MarkKind.Suction => "<circle r=\"6\"/><circle class=\"dot\" r=\"2.2\"/>",
        MarkKind.Sump => "<path d=\"M-5-5H5V5H-5Z\"/>",
        MarkKind.Proposed => "<path d=\"M0-7L7 0L0 7L-7 0Z\"/>",
        MarkKind.Weakest => "<path d=\"M-5-5L5 5M-5 5L5-5\"/>",
        _ => "<circle r=\"3.6\"/>",
    };

    private void AreaWords(PlanArea area)
    {
        if (area.Corners.Count < 3) return;
        var shape = new PlanShape(area.Corners);
        if (shape.Fault is not null) return;
        var (x, y) = (_frame.X(shape.Inside.XM), _frame.Y(shape.Inside.YM));
        var words = $"{area.Name}, {Measures.Area.Show(shape.AreaM2, _view.Units)}";
        var wide = (area.Corners.Max(c => c.XM) - area.Corners.Min(c => c.XM)) * _frame.Scale;
        LabelPlace[] places = [.. from down in new[] { 0.0, 24, -24, 48, -48, 80, -80 } from aside in new[] { 0.0, -70, 70 } where shape.Holds(Metres(x + aside, y + down)) select new LabelPlace(x + aside, y + down)];
        Label("soft-text side", words, places, (width, _) => width < wide, area.Name);
    }

    private PlanPoint Metres(double x, double y) => new((x - _frame.OriginX) / _frame.Scale, (_frame.OriginY - y) / _frame.Scale);

    private void Lengths()
    {
        var said = new HashSet<string>(StringComparer.Ordinal);
        foreach (var area in _view.Areas.Select(a => a.Area).Where(a => a.Corners.Count > 2))
        {
            var shape = new PlanShape(area.Corners);
            for (var i = 0; i < area.Corners.Count; i++) WallLength(shape, area.Corners[i], area.Corners[(i + 1) % area.Corners.Count], said);
        }
    }

    private void WallLength(PlanShape shape, PlanPoint from, PlanPoint to, HashSet<string> said)
    {
        if (!said.Add(PlanText.Store(new[] { from, to }.OrderBy(p => p.XM).ThenBy(p => p.YM)))) return;
        var (dx, dy) = (_frame.X(to.XM) - _frame.X(from.XM), _frame.Y(to.YM) - _frame.Y(from.YM));
        var pixels = Math.Sqrt(dx * dx + dy * dy);
        if (pixels < 1) return;
        var (x, y) = ((_frame.X(to.XM) + _frame.X(from.XM)) / 2, (_frame.Y(to.YM) + _frame.Y(from.YM)) / 2);
        var (nx, ny) = (dy / pixels, -dx / pixels);
        if (shape.Holds(Metres(x + nx * 3, y + ny * 3))) (nx, ny) = (-nx, -ny);
        var degrees = Math.Atan2(dy, dx) * 180 / Math.PI;
        if (degrees > 90.01) degrees -= 180;
        if (degrees < -89.99) degrees += 180;
        if (Math.Abs(degrees - 90) < 0.5) degrees = -90;
        Label("side", Measures.Length.Show(from.DistanceM(to), _view.Units), [new(x + nx * 12, y + ny * 12, "middle", degrees), new(x - nx * 12, y - ny * 12, "middle", degrees)], (width, _) => width < pixels);
    }

    private void Words(string words, LabelPlace at, string kind)
    {
        var turned = Math.Abs(at.Degrees) > 0.05 ? $" transform=\"rotate({Px(at.Degrees)} {Px(at.X)} {Px(at.Y)})\"" : "";
        _words.Add($"<text class=\"{kind}\" x=\"{Px(at.X)}\" y=\"{Px(at.Y)}\" dy=\".35em\" text-anchor=\"{at.Anchor}\"{turned}>{Encode(words)}</text>");
    }

    private void Add(FormattableString text) => _svg.Append(text.ToString(CultureInfo.InvariantCulture));

    private static string Exact(double value) => value.ToString("0.#####", CultureInfo.InvariantCulture);

    private static string Encode(string text) => HtmlEncoder.Default.Encode(text);
}
