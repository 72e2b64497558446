using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
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

    public static QuoteBasis Of(CompanyProfile company, House house, ComputedDesign computed) => new(company, house, computed.TakeOff) { Report = computed.Report, Fan = computed.Fan };

    /// <summary>The house with all that an addition may be offered for.</summary>
    public static Task<House> HouseAsync(OfficeDb db, int houseId) =>
        db.Houses.Include(h => h.EarlierTests).Include(h => h.Owners).Include(h => h.Areas).Include(h => h.Appliances).AsSplitQuery().SingleAsync(h => h.Id == houseId);
}

/// <summary>What a design takes, what was computed of it, and its fan.</summary>
public sealed record ComputedDesign(TakeOff TakeOff, DesignReport? Report, Fan? Fan)
{
    /// <summary>Computes where nothing that still holds is stored: call it outside a transaction, which holds up all other writers.</summary>
    public static async Task<ComputedDesign> OfAsync(OfficeDb db, int? designId, TimeProvider clock)
    {
        if (designId is null) return new(TakeOff.ByHand, null, null);
        var design = await db.Designs.WithRoute().SingleAsync(d => d.Id == designId);
        var report = (await ComputeDesign.StoreAsync(db, design, clock)).Report;
        var shown = report?.ShownFan;
        var fan = await db.Fans.AsNoTracking().FirstOrDefaultAsync(f => f.Id == design.FanId || (design.FanId == null && f.Model == shown));
        return new(TakeOff.Of(design), report, fan);
    }
}
