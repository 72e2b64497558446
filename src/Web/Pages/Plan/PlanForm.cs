using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>The floor plan as it is typed, or filled in by drawing. Rows left empty are ignored.</summary>
public sealed class PlanForm
{
    public const int MostAreas = 12;
    private const int MostNew = 36;

    public List<FloorRow> Areas { get; set; } = [];
    public string? Footings { get; set; }
    public string? Sump { get; set; }
    public List<PlaceRow> Holes { get; set; } = [];
    public List<NewRow> New { get; set; } = [];

    // Read when two people changed the same plan, to say what the other one saved.
    public string AreasInWords => string.Join("; ", Areas.Where(a => !a.IsEmpty).Select(a => $"{a.Name}: {a.Corners}"));
    public string HolesInWords => string.Join("; ", Holes.Where(h => !string.IsNullOrWhiteSpace(h.At)).Select(h => h.At));

    /// <summary>One foundation area and its corners.</summary>
    public sealed class FloorRow
    {
        public int Id { get; set; }
        public string? Name { get; set; }
        public string? Kind { get; set; }
        public string? Corners { get; set; }

        public bool IsEmpty => Id == 0 && string.IsNullOrWhiteSpace(Name + Corners);
    }

    /// <summary>A hole of the PFE test: "S" or "T" with its number, and where it is.</summary>
    public sealed class PlaceRow
    {
        public string? Hole { get; set; }
        public string? At { get; set; }
    }

    /// <summary>A hole that the PFE test does not have yet.</summary>
    public sealed class NewRow
    {
        public bool Suction { get; set; }
        public string? Label { get; set; }
        public string? At { get; set; }

        public bool IsEmpty => string.IsNullOrWhiteSpace(Label + At);
    }

    public static PlanForm Of(House house, PressureFieldTest? test, UnitSystem units)
    {
        var plan = FloorPlan.Of(house);
        return new PlanForm
        {
            Areas = [.. house.Areas.OrderBy(a => a.Id).Select(a => new FloorRow { Id = a.Id, Name = a.Name, Kind = a.Kind.ToString(), Corners = PlanText.Show(PlanText.Load(a.CornersM), units) })],
            Footings = string.Join('\n', plan.Footings.Select(f => PlanText.Show(f, units))),
            Sump = PlanText.Show(plan.Sump, units),
            Holes = test is null ? [] :
            [
                .. test.SuctionHoles.OrderBy(s => s.Id).Select(s => new PlaceRow { Hole = Key("S", s.Id), At = PlanText.Show(s.At, units) }),
                .. test.TestHoles.OrderBy(h => h.Position).Select(h => new PlaceRow { Hole = Key("T", h.Id), At = PlanText.Show(h.At, units) }),
            ],
        };
    }

    /// <summary>Empty rows to write further areas in.</summary>
    public void OfferAreas(int empty)
    {
        while (Areas.Count < MostAreas && Areas.Count(a => a.IsEmpty) < empty) Areas.Add(new());
    }

    /// <summary>Empty rows to write further holes in: three test holes and a suction hole.</summary>
    public void OfferHoles(bool more)
    {
        while (New.Count < MostNew && New.Count(n => n is { IsEmpty: true, Suction: false }) < (more ? 6 : 3)) New.Add(new());
        if (New.Count < MostNew && !New.Exists(n => n is { IsEmpty: true, Suction: true })) New.Add(new() { Suction = true });
    }

    public static string Key(string kind, int id) => kind + id.ToString(CultureInfo.InvariantCulture);
}
