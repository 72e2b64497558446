namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>Where the parts of the section stand. Heights are drawn to one scale as far as the paper goes; widths are not.</summary>
public sealed class HouseLayout
{
    private const double StoreyM = 2.7;
    private const double BasementM = 2.1;
    private readonly HouseFacts _facts;
    private readonly double _perM;

    public HouseLayout(HouseFacts facts, bool narrow)
    {
        _facts = facts;
        _perM = narrow ? 24 : 34;
        Width = narrow ? 340 : 860;
        Left = narrow ? 108 : 230;
        Right = narrow ? 328 : 800;
        Floors = (int)Math.Clamp(Math.Floor(facts.Storeys), 1, 4);
        RoofHeight = (narrow ? 48 : 78) * (facts.Storeys - Math.Floor(facts.Storeys) > 0.25 ? 1.4 : 1);
        Grade = RoofHeight + Floors * StoreyM * _perM + RimM * _perM + MouthMargin;
        Slab = facts.Basement ? Grade + BasementM * _perM : Grade - 6;
        Bottom = SlabBottom + 46;
    }

    public double Width { get; }
    public double Left { get; }
    public double Right { get; }
    public int Floors { get; }
    public double RoofHeight { get; }
    public double Grade { get; }

    /// <summary>Top of the slab.</summary>
    public double Slab { get; }
    public double SlabBottom => Slab + 14;
    public double Bottom { get; }
    public double Eave => FloorLine(Floors);
    public double Ridge => Eave - RoofHeight;
    public double RidgeX => (Left + Right) / 2;
    public double PitX => Left + (_facts.WayOut, Width < 500) switch
    {
        (WayOut.Roof, true) => 62,
        (WayOut.Roof, false) => 150,
        (_, true) => 30,
        _ => 62,
    };
    public double PipeX => Left - (Width < 500 ? 26 : 30);
    public double GarageLeft => Left - (Width < 500 ? 60 : 110);
    public double GarageTop => Grade - 2.6 * _perM;

    /// <summary>Height at which the pipe crosses the wall: just over the ground, or well over the hole's labels on a slab.</summary>
    public double Crossing => _facts.Basement ? Grade - RimM * _perM / 2 : Slab - 1.9 * _perM;

    public double FloorLine(int floor) => Grade - RimM * _perM - floor * StoreyM * _perM;

    public Spot Mouth => _facts.WayOut switch
    {
        WayOut.Roof => new(PitX, RoofAt(PitX) - 26),
        WayOut.Garage => new(GarageLeft + (Left - GarageLeft) / 2, GarageTop - 34),
        _ => new(PipeX, SideMouth()),
    };

    public double RoofAt(double x) => Ridge + Math.Abs(x - RidgeX) / (RidgeX - Left) * RoofHeight;

    private double RimM => _facts.Basement ? 0.45 : 0;

    private static double MouthMargin => 58;

    private double SideMouth() =>
        Math.Clamp(Grade - (_facts.DischargeAboveGradeM ?? 0) * _perM, Ridge - 20, Crossing - 44) is var y && _facts.DischargeAboveGradeM is not null
            ? y
            : Eave - 30;
}
