using CsCheck;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Slab;

/// <summary>Invented floor plans that the tests share.</summary>
internal static class Plans
{
    public static SlabArea Box(double left, double low, double width, double height, string name = "slab") => new()
    {
        Name = name,
        Corners = [new(left, low), new(left + width, low), new(left + width, low + height), new(left, low + height)],
    };

    public static SlabArea Ell(double width, double height, double notchWidth, double notchHeight) => new()
    {
        Name = "ell",
        Corners = [new(0, 0), new(width, 0), new(width, height - notchHeight), new(width - notchWidth, height - notchHeight), new(width - notchWidth, height), new(0, height)],
    };

    public static SlabPlan Plan(SlabArea area, double gridM = 0.25, params FootingLine[] footings) =>
        new() { Areas = [area], GridM = gridM, Footings = footings };

    public static FootingLine Footing(double x1, double y1, double x2, double y2) => new() { From = new(x1, y1), To = new(x2, y2) };

    public static SuctionPlace Pit(double x, double y, double vacuumPa = 250) => new() { At = new(x, y), PitVacuumPa = vacuumPa };

    public static CoverageInput Unfitted(SlabPlan plan, double reachM, params SuctionPlace[] pits) =>
        new() { Plan = plan, SuctionPoints = pits, Readings = [], AssumedReachM = reachM };

    public static MapCell Nearest(CoverageMap map, double x, double y) => map.Cells.MinBy(cell => cell.Centre.DistanceM(new(x, y)));

    public static readonly Gen<SlabPlan> AnyEll =
        from width in Gen.Double[4, 9]
        from height in Gen.Double[4, 9]
        from notchWidth in Gen.Double[0.3, 2]
        from notchHeight in Gen.Double[0.3, 2]
        select Plan(Ell(width, height, notchWidth, notchHeight));

    public static readonly Gen<SlabPlan> AnyEllWithFooting =
        from plan in AnyEll
        from x in Gen.Double[1.2, 1.9]
        from slant in Gen.Double[-1, 1]
        select plan with { Footings = [Footing(x, -1, x + slant, 12)] };

    public static readonly Gen<SuctionPlace> AnyPit =
        from x in Gen.Double[0.2, 1.9]
        from y in Gen.Double[0.2, 1.9]
        from vacuum in Gen.Double[20, 800]
        from radius in Gen.Double[0.05, 0.15]
        select new SuctionPlace { At = new(x, y), PitVacuumPa = vacuum, PitRadiusM = radius };
}
