using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>All that a proposal rests on.</summary>
public sealed record QuoteBasis(CompanyProfile Company, House House, TakeOff TakeOff)
{
    /// <summary>Null where nothing was computed.</summary>
    public DesignReport? Report { get; init; }

    /// <summary>The fan of the catalogue, where one is chosen or recommended.</summary>
    public Fan? Fan { get; init; }

    public FreezeResult? Freeze => Report?.Freeze;
    public FanResult? Running => Report?.Shown is { OnCurve: true } shown ? shown : null;
}
