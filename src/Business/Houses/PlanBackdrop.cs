using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Houses;

/// <summary>The picture that lies under a house's floor plan, and how it lies there: two of its points, the length between them,
/// and the place of the first on the plan.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId), IsUnique = true)]
public sealed class PlanBackdrop : Record
{
    public int HouseId { get; set; }
    public int DocumentId { get; set; }
    public int WidthPx { get; set; }
    public int HeightPx { get; set; }

    /// <summary>Two points of the picture, in its pixels from the upper left corner, across and down.</summary>
    public double FromXPx { get; set; }
    public double FromYPx { get; set; }
    public double ToXPx { get; set; }
    public double ToYPx { get; set; }

    /// <summary>How far the two points are apart in the house; null: not scaled yet, and not shown.</summary>
    public double? LengthM { get; set; }

    /// <summary>Where the first point lies on the plan, metres across and up.</summary>
    public double AtXM { get; set; }
    public double AtYM { get; set; }
    public bool Printed { get; set; }

    public double? MetresPerPx => LengthM / Math.Sqrt((ToXPx - FromXPx) * (ToXPx - FromXPx) + (ToYPx - FromYPx) * (ToYPx - FromYPx));

    /// <summary>Lower left and upper right corner on the plan; null before it is scaled.</summary>
    public (PlanPoint Low, PlanPoint High)? Lies => MetresPerPx is { } m && double.IsFinite(m)
        ? (new(AtXM - FromXPx * m, AtYM - (HeightPx - FromYPx) * m), new(AtXM + (WidthPx - FromXPx) * m, AtYM + FromYPx * m))
        : null;
}
