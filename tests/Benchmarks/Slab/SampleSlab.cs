using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Benchmarks.Slab;

/// <summary>A square slab with one footing, a pit and six readings.</summary>
internal static class SampleSlab
{
    public static SuctionPlace Pit(double xM, double yM) => new() { At = new(xM, yM), PitVacuumPa = 250 };

    public static CoverageInput Input(double sideM) => new()
    {
        Plan = new SlabPlan
        {
            Areas = [new SlabArea { Name = "slab", Corners = [new(0, 0), new(sideM, 0), new(sideM, sideM), new(0, sideM)] }],
            Footings = [new FootingLine { From = new(sideM * 0.6, 0), To = new(sideM * 0.6, sideM) }],
        },
        SuctionPoints = [Pit(2, 2)],
        Readings =
        [
            Hole(3.2, 2.1, 62), Hole(2.4, 4.6, 23), Hole(5.1, 5.2, 8.1), Hole(4.4, 1.2, 31), Hole(7.1, 3.0, 3.2), Hole(8.5, 7.0, 0.7),
        ],
    };

    private static HoleReading Hole(double xM, double yM, double vacuumPa) => new() { Name = "hole", At = new(xM, yM), VacuumPa = vacuumPa };
}
