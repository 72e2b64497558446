using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>What the as-built form is filled in against: the job, its design, the catalogue, what burns in the house.</summary>
public sealed record AsBuiltSetting(int HouseId, int JobId, string JobNumber, SystemKind Kind, int? DesignId, Money AcceptedTotal, TimeZoneInfo Zone)
{
    public sealed record FanChoice(int Id, string Model, int WarrantyYears, bool Retired);

    public bool IsNew { get; init; } = true;
    public bool SeesPrices { get; init; }
    public IReadOnlyList<FanChoice> Fans { get; init; } = [];
    public IReadOnlyList<string> NaturalDraft { get; init; } = [];
    public IReadOnlyList<Instrument> Instruments { get; init; } = [];
    public IReadOnlyList<string> Holes { get; init; } = [];
    public IReadOnlyList<string> Sold { get; init; } = [];

    /// <summary>What the chosen offer and the additions to it hold, as far as it is kept on record as a part.</summary>
    public IReadOnlyList<ComponentKind> SoldParts { get; init; } = [];
    public int? DesignFanId { get; init; }
    public int SuctionPoints { get; init; } = 1;
    public string PipeSize { get; init; } = "4in";
    public string FanPlace { get; init; } = "";

    /// <summary>What the design foresaw; nothing where no computed design stands behind the job.</summary>
    public ForeseenSuction Foreseen { get; init; } = ForeseenSuction.Nothing;

    public static async Task<AsBuiltSetting?> LoadAsync(OfficeDb db, int houseId, int jobId, bool seesPrices)
    {
        var j = await (from job in db.Jobs.AsNoTracking()
                       where job.Id == jobId && job.HouseId == houseId && job.State != JobState.CalledOff
                       join a in db.Acceptances on job.AcceptanceId equals a.Id
                       join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                       select new
                       {
                           job.Number, job.Kind, HasSystem = db.Systems.Any(s => s.JobId == job.Id), a.SuctionDesignId, a.Total, a.AddOnIds, AddOns = r.AddOns.OrderBy(x => x.Position).Select(x => new { x.Id, x.Words, x.OfferedFor }).ToList(),
                           Held = r.Tiers.Where(t => t.Id == a.QuoteTierId).SelectMany(t => t.Lines).OrderBy(l => l.Position).Select(l => l.OfferedFor).ToList(),
                       }).AsSingleQuery().FirstOrDefaultAsync();
        if (j is null) return null;
        var chosen = OpenJob.Ids(j.AddOnIds);
        var sold = j.AddOns.Where(x => chosen.Contains(x.Id)).ToList();
        var setting = new AsBuiltSetting(houseId, jobId, j.Number, j.Kind, j.SuctionDesignId, j.Total, await HouseZone.OfAsync(db, houseId))
        {
            IsNew = !j.HasSystem,
            SeesPrices = seesPrices,
            NaturalDraft = await db.Houses.Where(h => h.Id == houseId).SelectMany(h => h.Appliances).Where(x => x.Draft == Draft.Natural).Select(x => x.Name).ToListAsync(),
            Instruments = await ReadWith.InstrumentsAsync(db),
            Sold = [.. sold.Select(x => x.Words)],
            SoldParts = [.. j.Held.Select(KindOf).Where(k => k != ComponentKind.Other), .. sold.Select(x => KindOf(x.OfferedFor))],
            Fans = await db.Fans.OrderBy(f => f.Model).Select(f => new FanChoice(f.Id, f.Model, f.WarrantyYears, f.Retired)).ToListAsync(),
        };
        return await setting.WithDesignAsync(db);
    }

    private async Task<AsBuiltSetting> WithDesignAsync(OfficeDb db)
    {
        var design = await db.Designs.AsNoTracking().Where(d => d.Id == DesignId).Select(d => new
        {
            d.FanId, d.PressureFieldTestId, d.ReportJson, Branches = d.Branches.Count,
            Pipe = d.Pieces.Where(p => p.Kind == PieceKind.Pipe && p.Branch == 0).OrderBy(p => p.Position).Select(p => p.Size).FirstOrDefault(),
            FanPlace = d.Pieces.Where(p => p.Kind == PieceKind.Fan).Select(p => (PiecePlace?)p.Place).FirstOrDefault(),
        }).FirstOrDefaultAsync();
        var testId = design?.PressureFieldTestId ?? await db.PressureFieldTests.Where(t => t.HouseId == HouseId).OrderByDescending(t => t.Day).ThenByDescending(t => t.Id).Select(t => (int?)t.Id).FirstOrDefaultAsync();
        var holes = await db.PressureFieldTests.Where(t => t.Id == testId || db.Designs.Any(d => d.Id == DesignId && d.Branches.Any(b => b.PressureFieldTestId == t.Id)))
            .SelectMany(t => t.TestHoles).OrderBy(h => h.PressureFieldTestId != testId).ThenBy(h => h.PressureFieldTestId).ThenBy(h => h.Position).Select(h => h.Label).ToListAsync();
        return this with { Holes = [.. holes.Distinct(StringComparer.OrdinalIgnoreCase)], SuctionPoints = 1 + (design?.Branches ?? 0), DesignFanId = design?.FanId, PipeSize = design?.Pipe ?? "4in", FanPlace = design?.FanPlace?.ToString() ?? "", Foreseen = ForeseenSuction.Of(design?.ReportJson) };
    }

    /// <summary>A form for a system not yet on record, filled with what the design and the offer say.</summary>
    public AsBuiltForm NewForm() => new()
    {
        SystemType = SystemKinds.WordsOf(Kind),
        SuctionPoints = TypedNumbers.Plain((decimal)SuctionPoints),
        PipeSize = PipeSize,
        FanPlace = FanPlace,
        FanId = $"{DesignFanId}",
        Gauge = "U-tube manometer",
        NothingDraws = NaturalDraft.Count == 0,
        Drafts = [.. NaturalDraft.Select(a => new AsBuiltForm.DraftRow { Appliance = a })],
        Price = TypedNumbers.Plain(AcceptedTotal),
        Readings = [.. Holes.Select(h => new AsBuiltForm.ReadingRow { Hole = h })],
        Parts = [.. SoldParts.Select(k => new AsBuiltForm.PartRow { Kind = $"{k}", Model = "" })],
    };

    private static ComponentKind KindOf(OfferReason reason) => reason switch
    {
        OfferReason.FreezeGuard => ComponentKind.HeatCable,
        OfferReason.CondensateBypass => ComponentKind.CondensateBypass,
        OfferReason.SumpLid => ComponentKind.SumpLid,
        _ => ComponentKind.Other,
    };
}
