using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using MitigationOffice.Web.Pages.Houses;
using MitigationOffice.Web.Setup.Drawings;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>Reads the typed plan: into a drawing, and, where nothing speaks against it, into the records.</summary>
public sealed class ReadPlan
{
    private sealed record Floor(int Row, PlanArea Area, FoundationArea Kept);

    private sealed record Hole(string Row, string Name, bool Suction, PlanPoint? At, Action<PlanPoint?> Write);

    private readonly List<Floor> _floors = [];
    private readonly List<(FoundationArea Kept, FoundationKind Kind, string Name)> _undrawn = [];
    private readonly List<(int Line, IReadOnlyList<PlanPoint> Places)> _footings = [];
    private readonly List<Hole> _holes = [];
    private readonly PlanForm _form;
    private readonly FormReading _read;
    private readonly House _house;
    private readonly UnitSystem _units;
    private PlanPoint? _sump;

    public ReadPlan(PlanForm form, FormReading read, House house, PressureFieldTest? test, UnitSystem units)
    {
        (_form, _read, _house, _units) = (form, read, house, units);
        for (var i = 0; i < form.Areas.Count; i++) ReadArea(form.Areas[i], i);
        ReadFootings();
        _sump = Place(form.Sump, FloorPlan.Of(house).Sump, nameof(form.Sump), "the sump");
        for (var i = 0; i < form.Holes.Count; i++) ReadHole(form.Holes[i], i, test);
        if (test is null) return;
        var labels = new NewHoleLabels(test);
        for (var i = 0; i < form.New.Count; i++) ReadNew(form.New[i], string.Create(CultureInfo.InvariantCulture, $"New[{i}]"), test, labels);
        if (labels.TooMany is { } words) read.Refuse($"{nameof(form.New)}[0].At", words);
    }

    /// <summary>Names of the test's holes, one for each row; empty where the row belongs to no hole of this test.</summary>
    public IReadOnlyList<string> HoleNames { get; private set; } = [];

    public double FloorM2 => _floors.Where(f => f.Area.Corners.Count > 2).Sum(f => new PlanShape(f.Area.Corners).AreaM2);

    /// <summary>Refuses what geometry forbids, each beside its field.</summary>
    public void Check()
    {
        var plan = new FloorPlan([.. _floors.Select(f => f.Area)], [.. _footings.Select(f => f.Places)], _sump);
        var placed = _holes.Where(h => h.At is not null).ToList();
        foreach (var fault in CheckPlan.Of(plan, [.. placed.Select(h => new PlacedHole(h.Name, h.At!.Value))], _units))
            _read.Refuse(fault.Part switch
            {
                PlanPart.Area => $"Areas[{_floors[fault.Number].Row}].Corners",
                PlanPart.Footing => nameof(_form.Footings),
                PlanPart.Sump => nameof(_form.Sump),
                _ => $"{placed[fault.Number].Row}.At",
            }, fault.Words);
    }

    public void Write()
    {
        foreach (var (kept, kind, name) in _undrawn) (kept.Kind, kept.Name, kept.CornersM) = (kind, name, "");
        foreach (var floor in _floors)
        {
            (floor.Kept.Name, floor.Kept.Kind, floor.Kept.CornersM) = (floor.Area.Name, floor.Area.Kind, PlanText.Store(floor.Area.Corners));
            floor.Kept.FloorM2 = Math.Round(new PlanShape(floor.Area.Corners).AreaM2, 2, MidpointRounding.AwayFromZero);
        }

        foreach (var kept in _undrawn.Select(u => u.Kept).Concat(_floors.Select(f => f.Kept)).Where(k => k.Id == 0)) _house.Areas.Add(kept);
        _house.FootingsM = string.Join('\n', _footings.Select(f => PlanText.Store(f.Places)));
        (_house.SumpXM, _house.SumpYM) = (_sump?.XM, _sump?.YM);
        foreach (var hole in _holes) hole.Write(hole.At);
    }

    public PlanView View(string title) => new()
    {
        Id = "plan", Title = title, Units = _units, SpareM = 1.5,
        Areas = [.. _floors.Select(f => new DrawnArea(f.Area, string.Create(CultureInfo.InvariantCulture, $"Input_Areas_{f.Row}__Corners")))],
        Footings = [.. _footings.Select(f => f.Places)],
        Marks =
        [
            .. _sump is { } sump ? [new PlanMark(MarkKind.Sump, "sump", sump, "Input_Sump")] : Array.Empty<PlanMark>(),
            .. _holes.Where(h => h.At is not null).Select(h => new PlanMark(h.Suction ? MarkKind.Suction : MarkKind.TestHole, h.Name[(h.Name.LastIndexOf("hole ", StringComparison.Ordinal) + 5)..], h.At!.Value, $"Input_{h.Row.Replace("[", "_", StringComparison.Ordinal).Replace("]", "_", StringComparison.Ordinal)}_At")),
        ],
    };

    private void ReadArea(PlanForm.FloorRow row, int i)
    {
        if (row.IsEmpty) return;
        var at = string.Create(CultureInfo.InvariantCulture, $"Areas[{i}]");
        var kept = _house.Areas.Find(a => a.Id != 0 && a.Id == row.Id) ?? new FoundationArea { Name = "" };
        var kind = _read.Choice(row.Kind, $"{at}.Kind", "kind of foundation", kept.Id == 0 ? FoundationKind.Basement : kept.Kind);
        var name = _read.Text(row.Name, $"{at}.Name", "area's name", most: 80) is { Length: > 0 } typed ? typed : Words.Of(kind);
        if (string.IsNullOrWhiteSpace(row.Corners))
        {
            _undrawn.Add((kept, kind, name));
            return;
        }

        var stored = PlanText.Load(kept.CornersM);
        if (stored.Count > 0 && row.Corners.Trim() == PlanText.Show(stored, _units)) _floors.Add(new(i, new(name, kind, stored), kept));
        else if (ReadPlaces.Around(row.Corners, name, _units) is { Problem: { } problem }) _read.Refuse($"{at}.Corners", problem);
        else _floors.Add(new(i, new(name, kind, ReadPlaces.Around(row.Corners, name, _units).Places), kept));
    }

    private void ReadFootings()
    {
        var stored = PlanText.LoadLines(_house.FootingsM).ToDictionary(f => PlanText.Show(f, _units), f => f);
        var lines = (_form.Footings ?? "").Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (lines.Length > 30) _read.Refuse(nameof(_form.Footings), $"There are {lines.Length} footings; 30 are the most.");
        foreach (var (line, number) in lines.Take(30).Select((l, n) => (l, n)))
        {
            if (stored.TryGetValue(line, out var same)) _footings.Add((number, same));
            else if (ReadPlaces.Line(line, $"footing {number + 1}", _units) is { Problem: { } problem }) _read.Refuse(nameof(_form.Footings), problem);
            else _footings.Add((number, ReadPlaces.Line(line, $"footing {number + 1}", _units).Places));
        }
    }

    private void ReadHole(PlanForm.PlaceRow row, int i, PressureFieldTest? test)
    {
        var place = string.Create(CultureInfo.InvariantCulture, $"Holes[{i}]");
        var field = place + ".At";
        HoleNames = [.. HoleNames, ""];
        if (test?.SuctionHoles.Find(s => PlanForm.Key("S", s.Id) == row.Hole) is { } suction)
            Add($"Suction hole {suction.Label}", true, Place(row.At, suction.At, field, $"suction hole {suction.Label}"), at => (suction.XM, suction.YM) = (at?.XM, at?.YM));
        else if (test?.TestHoles.Find(h => PlanForm.Key("T", h.Id) == row.Hole) is { } hole)
            Add($"Test hole {hole.Label}", false, Place(row.At, hole.At, field, $"test hole {hole.Label}"), at => (hole.XM, hole.YM) = (at?.XM, at?.YM));

        void Add(string name, bool isSuction, PlanPoint? at, Action<PlanPoint?> write)
        {
            HoleNames = [.. HoleNames.SkipLast(1), name];
            _holes.Add(new(place, name, isSuction, at, write));
        }
    }

    /// <summary>A hole the test does not have yet; without a name it takes the next of its kind.</summary>
    private void ReadNew(PlanForm.NewRow row, string place, PressureFieldTest test, NewHoleLabels labels)
    {
        if (row.IsEmpty) return;
        var (label, problem) = labels.Take(_read.Text(row.Label, $"{place}.Label", "name of the hole", most: 40), row.Suction);
        if (problem is not null) _read.Refuse($"{place}.Label", problem);
        var name = $"{(row.Suction ? "Suction" : "Test")} hole {label}";
        _holes.Add(new(place, name, row.Suction, Place(row.At, null, $"{place}.At", name), at =>
        {
            if (row.Suction) test.SuctionHoles.Add(new SuctionHole { Label = label, XM = at?.XM, YM = at?.YM });
            else test.TestHoles.Add(new TestHole { Label = label, XM = at?.XM, YM = at?.YM, Position = test.TestHoles.Count == 0 ? 0 : test.TestHoles.Max(h => h.Position) + 1 });
        }));
    }

    private PlanPoint? Place(string? typed, PlanPoint? stored, string field, string name)
    {
        if (stored is not null && (typed ?? "").Trim() == PlanText.Show(stored, _units)) return stored;
        var (place, problem) = ReadPlaces.One(typed, name, _units);
        if (problem is not null) _read.Refuse(field, problem);
        return place;
    }
}
