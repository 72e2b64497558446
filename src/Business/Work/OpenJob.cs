using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Business.Work;

/// <summary>Makes the job that an acceptance asks for, once.</summary>
public static class OpenJob
{
    /// <summary>The job's id; the same one when it is already open. Null where there is no such acceptance.</summary>
    public static async Task<int?> RunAsync(OfficeDb db, int acceptanceId, TimeProvider clock, SystemKind? kind = null)
    {
        try
        {
            return await db.WriteAsync(() => OpenAsync(db, acceptanceId, clock, kind));
        }
        catch (DbUpdateException)
        {
            // Another person opened it in the same moment: theirs stands.
            db.ChangeTracker.Clear();
            if (await ExistingAsync(db, acceptanceId) is { } theirs) return theirs;
            throw;
        }
    }

    /// <summary>The kind of system a house asks for by what it stands on, as a first proposal.</summary>
    public static SystemKind Propose(IReadOnlyCollection<FoundationKind> areas, SumpKind sump) =>
        areas.Count > 0 && areas.All(a => a == FoundationKind.CrawlSpace) ? SystemKind.SubMembraneSuction
        : sump == SumpKind.Open ? SystemKind.SumpOrDrainTileSuction
        : SystemKind.SubSlabSuction;

    private static async Task<int?> OpenAsync(OfficeDb db, int acceptanceId, TimeProvider clock, SystemKind? kind)
    {
        if (await ExistingAsync(db, acceptanceId) is { } open) return open;
        var accepted = await db.Acceptances.AsNoTracking().Where(a => a.Id == acceptanceId)
            .Join(db.QuoteRevisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => new { a.AddOnIds, r.Quote!.HouseId, a.SuctionDesignId, RevisionId = r.Id })
            .FirstOrDefaultAsync();
        if (accepted is null) return null;
        var facts = await FactsAsync(db, accepted.HouseId, accepted.SuctionDesignId, await SoldAsync(db, accepted.RevisionId, accepted.AddOnIds), kind);
        var texts = await db.StepTexts.AsNoTracking().Where(t => t.Kind == facts.Kind).ToListAsync();
        var now = clock.GetUtcNow().UtcDateTime;
        var job = db.Jobs.Add(new Job
        {
            Number = await TakeNumber.NextAsync(db, "J", now.Year),
            HouseId = accepted.HouseId,
            AcceptanceId = acceptanceId,
            Kind = facts.Kind,
            CreatedAtUtc = now,
            Steps = [.. WorkSteps.For(facts, texts).Select((s, i) => new ChecklistStep { Position = i + 1, Words = s.Words, Caution = s.Caution, CautionSource = s.Source })],
        }).Entity;
        await db.SaveChangesAsync();
        return job.Id;
    }

    private static Task<int?> ExistingAsync(OfficeDb db, int acceptanceId) =>
        db.Jobs.Where(j => j.AcceptanceId == acceptanceId).Select(j => (int?)j.Id).FirstOrDefaultAsync();

    private static async Task<List<string>> SoldAsync(OfficeDb db, int revisionId, string addOnIds)
    {
        var ids = Ids(addOnIds);
        return await db.QuoteRevisions.Where(r => r.Id == revisionId).SelectMany(r => r.AddOns).Where(a => ids.Contains(a.Id))
            .OrderBy(a => a.Position).Select(a => a.Words).ToListAsync();
    }

    public static List<int> Ids(string commaBetween) =>
        [.. commaBetween.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(i => int.Parse(i, CultureInfo.InvariantCulture))];

    private static async Task<WorkFacts> FactsAsync(OfficeDb db, int houseId, int? designId, List<string> sold, SystemKind? kind)
    {
        var h = await db.Houses.AsNoTracking().Where(x => x.Id == houseId).Select(x => new
        {
            x.YearBuilt, x.VermiculiteSuspected, x.Sump,
            Areas = x.Areas.Select(a => a.Kind).ToList(),
            Natural = x.Appliances.Any(a => a.Draft == Draft.Natural),
        }).SingleAsync();
        var places = await db.Designs.Where(d => d.Id == designId).SelectMany(d => d.Pieces).Select(p => p.Place).Distinct().ToListAsync();
        var further = await db.Designs.Where(d => d.Id == designId).SelectMany(d => d.Branches).OrderBy(b => b.Number).Select(b => b.Name).ToListAsync();
        return new WorkFacts(
            kind ?? Propose(h.Areas, h.Sump), h.YearBuilt, h.VermiculiteSuspected, h.Sump != SumpKind.None,
            h.Areas.Contains(FoundationKind.CrawlSpace), h.Areas.Count == 0 || h.Areas.Any(a => a != FoundationKind.CrawlSpace), h.Natural,
            places.Count == 0 || places.Any(p => p is PiecePlace.Outdoors or PiecePlace.Attic), sold)
        { FurtherPits = further };
    }
}
