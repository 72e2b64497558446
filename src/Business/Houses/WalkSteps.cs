using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Houses;

/// <summary>A walk along walls: lengths with turns between, or lengths with directions of the sheet. It starts to the right.</summary>
internal sealed class WalkSteps(PlanPoint start)
{
    private double _headingDeg;
    private bool _turned;
    private bool _faced;
    private bool _wayFirst;
    private double? _waitingM;
    private char? _waitingWay;

    public List<PlanPoint> Places { get; } = [start];

    public string? Go(double metres)
    {
        if (metres <= 0) return "a wall has no length. Leave it out.";
        if (!_faced && !_turned && Places.Count == 1 && _waitingM is null)
        {
            // Whether a turn or a direction follows tells which kind of walk this is.
            _waitingM = metres;
            return null;
        }

        if (_faced) return GoWay(metres);
        if (_waitingM is not null) return "two lengths follow each other without a turn between. Write L or R between them.";
        _waitingM = metres;
        return null;
    }

    public string? Turn(double degrees)
    {
        if (_faced) return "use turns (L, R) or directions (N, E, S, W), not both.";
        _turned = true;
        Walk();
        _headingDeg += degrees;
        return null;
    }

    public string? Face(char way)
    {
        if (_turned) return "use turns (L, R) or directions (N, E, S, W), not both.";
        if (!_faced) (_faced, _wayFirst) = (true, _waitingM is null);
        if (_waitingWay is not null) return "two directions follow each other without a length between.";
        if (_wayFirst)
        {
            _waitingWay = way;
            return null;
        }

        if (_waitingM is null) return "a direction has no length before it.";
        _headingDeg = Degrees(way);
        Walk();
        return null;
    }

    /// <summary>Walks what is left; a sentence where something hangs in the air.</summary>
    public string? Finish()
    {
        if (_waitingWay is not null || (_faced && _waitingM is not null)) return "the last wall lacks its length or its direction.";
        Walk();
        return null;
    }

    private string? GoWay(double metres)
    {
        if (_waitingM is not null || (_wayFirst && _waitingWay is null)) return "two lengths follow each other without a direction between.";
        _waitingM = metres;
        if (!_wayFirst) return null;
        _headingDeg = Degrees(_waitingWay!.Value);
        _waitingWay = null;
        Walk();
        return null;
    }

    private void Walk()
    {
        if (_waitingM is not { } metres) return;
        var (sine, cosine) = Math.SinCos(_headingDeg * Math.PI / 180);
        Places.Add(new PlanPoint(Places[^1].XM + metres * cosine, Places[^1].YM + metres * sine));
        _waitingM = null;
    }

    private static double Degrees(char way) => way switch { 'N' => 90, 'W' => 180, 'S' => 270, _ => 0 };
}
