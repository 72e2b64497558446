using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>How many of each item of the price book a design takes. What a more special item counts, by its kind of fitting
/// or its pipe size, is not counted again by a more general one.</summary>
public sealed class CountItems(QuoteBasis basis, IReadOnlyList<PriceItem> book)
{
    private const string UsualSize = "4in";

    private TakeOff TakeOff => basis.TakeOff;

    /// <summary>Zero: none. Items by the hour are counted when the other lines stand.</summary>
    public decimal Of(PriceItem item) => item.OfferedFor == OfferReason.LargerPipe ? Larger(item)
        : TakeOff.IsByHand ? ByHand(item)
        : item.TakenBy switch
        {
            TakenBy.Job => 1,
            TakenBy.SuctionPoint => item.OfferedFor == OfferReason.ExtraSuctionPoint ? 1 : TakeOff.SuctionPoints,
            TakenBy.Fan => FitsFan(item) ? 1 : 0,
            TakenBy.OutdoorFoot when item.OfferedFor == OfferReason.FreezeGuard && basis.Freeze?.CableLengthM is { } metres => Math.Ceiling((decimal)(metres / 0.3048) - 0.001m),
            _ => BySize(item),
        };

    private bool FitsFan(PriceItem item) => basis.Fan is { } fan ? item.FanModel.Length == 0 || item.FanModel == fan.Model : item.FanModel.Length == 0 && TakeOff.SizeAtFan.Length > 0;

    /// <summary>One of each that a common job takes, for the office to change.</summary>
    private static decimal ByHand(PriceItem item)
    {
        var common = item.TakenBy is TakenBy.Job or TakenBy.PipeFoot or TakenBy.OutdoorFoot or TakenBy.Fitting or TakenBy.Elbow or TakenBy.Support or TakenBy.Fan or TakenBy.WallPassage or TakenBy.SuctionPoint;
        return common && item.PipeSize is "" or UsualSize && item.FanModel.Length == 0 ? 1 : 0;
    }

    private decimal Larger(PriceItem item) => TakeOff.IsByHand ? 0 : item.TakenBy is TakenBy.PipeFoot ? TakeOff.PipeFeet : 1;

    private decimal BySize(PriceItem item) =>
        Counts(item.TakenBy).Where(c => (item.PipeSize.Length == 0 || item.PipeSize == c.Size) && !IsCountedCloser(item, c.By, c.Size)).Sum(c => c.Count);

    private IEnumerable<(TakenBy By, string Size, decimal Count)> Counts(TakenBy by) => by switch
    {
        TakenBy.PipeFoot => TakeOff.Pipes.Select(p => (by, p.Size, p.Feet)),
        TakenBy.PipeLength => TakeOff.Pipes.Select(p => (by, p.Size, (decimal)p.Lengths)),
        TakenBy.OutdoorFoot => TakeOff.Pipes.Select(p => (by, p.Size, p.OutdoorFeet)),
        TakenBy.Support => TakeOff.Pipes.Select(p => (by, p.Size, (decimal)p.Supports)),
        TakenBy.Fitting or TakenBy.Elbow or TakenBy.Tee or TakenBy.Coupling or TakenBy.Reducer => Fittings().Where(f => by is TakenBy.Fitting || f.By == by),
        TakenBy.WallPassage => Passages(PassageKind.Wall, by),
        TakenBy.RoofPassage => Passages(PassageKind.Roof, by),
        TakenBy.GaragePassage => Passages(PassageKind.Garage, by),
        _ => [],
    };

    private IEnumerable<(TakenBy By, string Size, decimal Count)> Fittings() =>
        TakeOff.Fittings.Select(f => (KindOf(f.Kind), f.Size, (decimal)f.Count)).Concat(TakeOff.Pipes.Where(p => p.Joints > 0).Select(p => (TakenBy.Coupling, p.Size, (decimal)p.Joints)));

    private IEnumerable<(TakenBy By, string Size, decimal Count)> Passages(PassageKind kind, TakenBy by) =>
        TakeOff.Passages.Where(p => p.Kind == kind).Select(p => (by, p.Size, (decimal)p.Count));

    private static TakenBy KindOf(PieceKind kind) => kind switch
    {
        PieceKind.Tee => TakenBy.Tee,
        PieceKind.Coupling => TakenBy.Coupling,
        PieceKind.Reducer => TakenBy.Reducer,
        _ => TakenBy.Elbow,
    };

    private bool IsCountedCloser(PriceItem item, TakenBy kind, string size) => book.Any(o =>
        !o.Retired && o.Use == item.Use && o.FromTier == item.FromTier && o.OfferedFor == item.OfferedFor
        && (item.TakenBy == TakenBy.Fitting && o.TakenBy == kind && o.PipeSize is var s && (s.Length == 0 || s == size)
            || item.PipeSize.Length == 0 && o.TakenBy == item.TakenBy && o.PipeSize == size));
}
