namespace MitigationOffice.Engineering.Piping;

/// <summary>Loss of a piece of pipe over flow, with all that does not depend on the flow worked out beforehand. Odd in the flow; allocates nothing.</summary>
internal readonly struct PieceLoss
{
    private readonly double _reynoldsPerFlow, _relativeRoughness, _diameters, _k, _headPerFlow2;

    internal PieceLoss(PipeSize size, double lengthM, double k, double densityKgPerM3, double viscosityPaS)
    {
        _reynoldsPerFlow = densityKgPerM3 * size.HydraulicDiameterM / (size.AreaM2 * viscosityPaS);
        _relativeRoughness = Friction.PlasticM / size.HydraulicDiameterM;
        _diameters = lengthM / size.HydraulicDiameterM;
        _k = k;
        _headPerFlow2 = densityKgPerM3 / (2 * size.AreaM2 * size.AreaM2);
    }

    internal PieceLoss(RoutePiece piece, double densityKgPerM3, double viscosityPaS)
        : this(piece.Size, PipeM(piece), piece.Count * piece.K, densityKgPerM3, viscosityPaS)
    {
    }

    /// <summary>Pieces in a row as few losses: those of one size carry the same air and add up to one.</summary>
    internal static PieceLoss[] Merge(IEnumerable<RoutePiece> pieces, double densityKgPerM3, double viscosityPaS, double fittingFactor) =>
    [
        .. pieces.GroupBy(piece => piece.Size).Select(group => new PieceLoss(
            group.Key, group.Sum(PipeM), fittingFactor * group.Sum(piece => piece.Count * piece.K), densityKgPerM3, viscosityPaS)),
    ];

    private static double PipeM(RoutePiece piece) => piece.Kind == PieceKind.Pipe ? piece.Count * piece.LengthM : 0;

    /// <summary>Loss, Pa, and its slope over the flow, Pa·s/m³.</summary>
    internal (double Pa, double Slope) At(double flowM3PerS)
    {
        var flow = Math.Abs(flowM3PerS);
        var head = _headPerFlow2 * flow;
        var (pa, slope) = (_k * head * flow, 2 * _k * head);
        if (_diameters > 0) (pa, slope) = WithFriction(flow, head, pa, slope);
        return (Math.CopySign(pa, flowM3PerS), slope);
    }

    private (double Pa, double Slope) WithFriction(double flow, double head, double pa, double slope)
    {
        var reynolds = _reynoldsPerFlow * flow;
        // Written without the division by zero that 64/Re would be in still air.
        if (reynolds <= Friction.LaminarUpTo)
        {
            var laminar = 64 / _reynoldsPerFlow * _diameters * _headPerFlow2;
            return (pa + laminar * flow, slope + laminar);
        }

        var (factor, factorSlope) = Friction.Evaluate(reynolds, _relativeRoughness);
        return (pa + factor * _diameters * head * flow, slope + _diameters * head * (2 * factor + factorSlope * reynolds));
    }
}
