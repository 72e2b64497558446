using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Web.Setup.Drawings;

public enum MarkKind
{
    Suction,
    TestHole,
    Sump,
    Proposed,
    Weakest,
}

/// <summary>A point on the plan with its words. <paramref name="Field"/>: id of the form field that holds its place, for the page's script.</summary>
public sealed record PlanMark(MarkKind Kind, string Words, PlanPoint At, string Field = "")
{
    /// <summary>What stands there where a small drawing has no room for all the words.</summary>
    public string Brief { get; init; } = Words;
}

/// <summary>A floor on the plan. <paramref name="Field"/>: id of the form field that holds its corners.</summary>
public sealed record DrawnArea(PlanArea Area, string Field = "");

/// <summary>What a drawing of the floor plan shows.</summary>
public sealed record PlanView
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required UnitSystem Units { get; init; }
    public IReadOnlyList<DrawnArea> Areas { get; init; } = [];
    public IReadOnlyList<IReadOnlyList<PlanPoint>> Footings { get; init; } = [];
    public IReadOnlyList<PlanMark> Marks { get; init; } = [];

    /// <summary>Vacuum under the slab; without it the drawing shows lengths of walls.</summary>
    public CoverageMap? Map { get; init; }

    /// <summary>A photo or plan that lies under the drawing.</summary>
    public PlanPicture? Picture { get; init; }

    /// <summary>Empty ground around, to draw further on, metres.</summary>
    public double SpareM { get; init; } = 0.4;

    /// <summary>The drawing in words.</summary>
    public string Description => string.Join("; ", Areas.Select(a => $"{a.Area.Name}, {Words(a)}")
        .Concat(Footings.Select(f => $"footing from {PlanText.Say(f[0], Units)} to {PlanText.Say(f[^1], Units)}"))
        .Concat(Marks.Select(m => $"{m.Words} at {PlanText.Say(m.At, Units)}"))) is { Length: > 0 } said ? said + "." : "Nothing is drawn yet.";

    private string Words(DrawnArea a) => a.Area.Corners.Count < 3 ? "not closed" : Measures.Area.Show(new PlanShape(a.Area.Corners).AreaM2, Units);
}
