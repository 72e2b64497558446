using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>An opening where it comes to lie on the drawing. <paramref name="IsFar"/>: farther off than the paper goes.</summary>
public sealed record PlacedOpening(NearbyOpening Opening, Frame Box, Spot Nearest, bool IsFar);

/// <summary>A building or a wall where it comes to lie on the drawing.</summary>
public sealed record PlacedThing(int Number, string Name, decimal DistanceFt, Frame Box, double LevelY, bool IsFar);

/// <summary>Where the mouth, the house and what is near come to lie: one scale across and up. Openings lie in the wall behind the pipe,
/// one to the right and the next to the left; buildings to the left, walls that rise to the right.</summary>
public sealed class MouthLayout
{
    private const double UsualHeightFt = 15;
    private readonly SitingReport _report;
    private readonly DischargeSite _site;
    private readonly double _farthestFt;

    public MouthLayout(SitingReport report, bool narrow)
    {
        (_report, _site) = (report, report.Site);
        Width = narrow ? 340 : 620;
        _farthestFt = narrow ? 12 : 18;
        MouthFt = Math.Clamp((double)(_site.HeightAboveGradeFt ?? (decimal)UsualHeightFt), 2, 60);
        RoofFt = MouthFt - Math.Clamp((double)(_site.AboveRoofIn ?? _site.AboveRoofEdgeIn ?? 12) / 12, -0.8 * MouthFt, 0.8 * MouthFt);
        var rightFt = Reach(1, (_site.Walls ?? []).Select(w => (double)w.DistanceFt + 2));
        var leftFt = Reach(-1, (_site.AdjacentBuildings ?? []).Select(b => (double)b.DistanceFt + 5));
        var topFt = Math.Max(MouthFt + 3.5, Math.Max(RoofFt + 4, (_site.Walls ?? []).Select(w => MouthFt + Math.Min(8, (double)w.TopAboveExhaustFt) + 1).DefaultIfEmpty(0).Max()));
        PerFt = Math.Min((Width - 16) / (leftFt + rightFt), (narrow ? 300 : 400) / topFt);
        Ground = topFt * PerFt + 6;
        Height = Ground + 22;
        Mouth = new(8 + leftFt * PerFt + Math.Max(0, Width - 16 - (leftFt + rightFt) * PerFt) / 2, Y(MouthFt));
        Openings = [.. (_site.Openings ?? []).Select(Place)];
        Buildings = [.. (_site.AdjacentBuildings ?? []).Select(Place)];
        Walls = [.. (_site.Walls ?? []).Select(Place)];
        HouseLeft = Math.Max(6, Math.Min(Mouth.X - (IsThroughRoof ? 6 : 2.5) * PerFt, Openings.Select(o => o.Box.X - 0.8 * PerFt).DefaultIfEmpty(double.MaxValue).Min()));
    }

    public double Width { get; }
    public double Height { get; }
    public double PerFt { get; }
    public double Ground { get; }
    public double MouthFt { get; }
    public double RoofFt { get; }
    public Spot Mouth { get; }
    public double HouseLeft { get; }
    public IReadOnlyList<PlacedOpening> Openings { get; }
    public IReadOnlyList<PlacedThing> Buildings { get; }
    public IReadOnlyList<PlacedThing> Walls { get; }

    public bool IsThroughRoof => _site.Mounting is DischargeMounting.ThroughPitchedRoof or DischargeMounting.ThroughFlatRoof;
    public bool IsFlat => _site.Mounting == DischargeMounting.ThroughFlatRoof;

    /// <summary>How far beside the pipe its heights are written.</summary>
    public double Aside => Math.Max(14, 0.9 * PerFt);
    public double RoofSurface => Y(RoofFt);

    /// <summary>A pitched roof rises from the eave to the pipe and beyond; elsewhere the eave is where the roof's edge was measured.</summary>
    public double Eave => IsThroughRoof && !IsFlat ? Math.Min(Ground - 10, RoofSurface + RoofSlope * (Mouth.X - HouseLeft + 8)) : RoofSurface;
    public double RoofRun => (Eave + 3 - Ridge) / RoofSlope - 8;
    public double Ridge => Math.Max(4, IsThroughRoof ? RoofSurface - 1.6 * PerFt : RoofSurface - 3 * PerFt);
    public double PipeFoot => IsThroughRoof ? RoofSurface : Y(Math.Min(1, MouthFt / 2));

    /// <summary>What the rules of a kind say of a site that is this one but for what is tried.</summary>
    public bool Fails(DischargeSite site, SitingRuleKind kind)
    {
        var ids = _report.RuleSet.Rules.Where(r => r.Kind == kind).Select(r => r.Id).ToList();
        return ids.Count > 0 && DischargeSiting.Judge(site, _report.RuleSet).Findings.Any(f => ids.Contains(f.RuleId) && f.Outcome == SitingOutcome.Failed);
    }

    private static double RoofSlope => 0.5;

    private double Y(double feet) => Ground - feet * PerFt;

    private double Reach(int side, IEnumerable<double> others) => Math.Clamp(
        (_site.Openings ?? []).Where((_, i) => Side(i) == side).Select(o => AcrossFt(o) + 5).Concat(others).DefaultIfEmpty(0).Max(), side > 0 ? 9 : 8, _farthestFt);

    private static int Side(int number) => number % 2 == 0 ? 1 : -1;

    /// <summary>An opening whose top lies below the mouth is nearest at its top edge.</summary>
    private static double AcrossFt(NearbyOpening o)
    {
        var (away, below) = ((double)o.DistanceFt, (double)(o.TopBelowExhaustFt ?? 0));
        return below <= 0 ? away : Math.Sqrt(Math.Max(0, away * away - below * below));
    }

    private PlacedOpening Place(NearbyOpening o, int number)
    {
        var (wide, high) = o.Kind switch { OpeningKind.Door => (3.0, 6.7), OpeningKind.AirIntake => (0.8, 0.8), OpeningKind.Chimney => (1.6, 3.5), _ => (2.4, 3.6) };
        var side = Side(number);
        var across = AcrossFt(o);
        var most = Math.Abs((side > 0 ? Width - 10 : 10) - Mouth.X) / PerFt - wide;
        var far = across > most;
        var near = Mouth.X + side * Math.Max(0.35, Math.Min(across, most)) * PerFt;
        var topFt = Math.Clamp(MouthFt - (double)(o.TopBelowExhaustFt ?? 1), 1.2, MouthFt + 6);
        var box = new Frame(side > 0 ? near : near - wide * PerFt, Y(topFt), wide * PerFt, Math.Min(high, topFt - 0.2) * PerFt);
        return new(o, box, new(near, Math.Clamp(Mouth.Y, box.Y, box.Bottom)), far);
    }

    private PlacedThing Place(AdjacentBuilding b, int number)
    {
        var most = (Mouth.X - 10) / PerFt - 2;
        var right = Mouth.X - Math.Min((double)b.DistanceFt, most) * PerFt;
        var roof = Y(Math.Min(9, MouthFt * 0.75));
        return new(number, b.Name, b.DistanceFt, new(4, roof, Math.Max(8, right - 4), Ground - roof), Y(Math.Min(9, MouthFt * 0.75) * (0.75 - 0.2 * (number % 3))), (double)b.DistanceFt > most);
    }

    private PlacedThing Place(NearbyWall w, int number)
    {
        var most = (Width - 10 - Mouth.X) / PerFt - 0.5;
        var left = Mouth.X + Math.Min((double)w.DistanceFt, most) * PerFt;
        var top = Y(MouthFt + Math.Clamp((double)w.TopAboveExhaustFt, 1 - MouthFt, 8));
        return new(number, w.Name, w.DistanceFt, new(left, top, 0.5 * PerFt, Ground - top), Mouth.Y - (0.6 + 0.8 * (number % 3)) * PerFt, (double)w.DistanceFt > most);
    }
}
