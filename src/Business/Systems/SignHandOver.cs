using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Systems;

/// <summary>Writes down that a system was shown and handed over, with the signed paper. The evidence is never changed; signing again makes another.</summary>
public static class SignHandOver
{
    public const int MostStrokes = 60_000;

    /// <param name="Shown">Codes of the lines that were shown.</param>
    public sealed record Signature(string TypedName, IReadOnlyCollection<string> Shown, InspectionAnswer? Inspection, string Notes, string Strokes);

    public static Task<IReadOnlyList<Refusal>> RunAsync(OfficeDb db, int systemId, Signature signature, TimeZoneInfo zone, DateTime nowUtc, string by) => db.WriteAsync<IReadOnlyList<Refusal>>(async () =>
    {
        var system = await db.Systems.AsNoTracking().Include(s => s.Components).SingleAsync(s => s.Id == systemId);
        var strokes = signature.Strokes.Length > MostStrokes ? null : HandOverPaper.ReadStrokes(signature.Strokes);
        var refusals = Check(system, signature, strokes is null).ToList();
        if (refusals.Count > 0) return refusals;
        var lines = WalkThrough.Of(system).Select(l => (Shown: signature.Shown.Contains(l.Code), l.Words)).ToList();
        var house = await db.Houses.AsNoTracking().SingleAsync(h => h.Id == system.HouseId);
        var owner = await db.HouseOwners.Where(o => o.HouseId == house.Id && o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!.Name).FirstOrDefaultAsync();
        var company = await db.Company.AsNoTracking().SingleAsync();
        var facts = new HandOverPaper.Facts(house.AddressLine, owner ?? "", company.Name, system.TagNumber, nowUtc, zone, by, signature.TypedName, signature.Inspection!.Value, company.StateProgram.Length > 0 ? company.StateProgram : "the state's own", signature.Notes)
        {
            Lines = lines, Strokes = strokes!,
        };
        var paper = StoredDocument.Of(HandOverPaper.Make(facts), PaperKind.HandOver, $"Handed over, tag {system.TagNumber}", $"handed-over-{system.Id}.pdf", "application/pdf", house.Id, nowUtc, by);
        db.Documents.Add(paper);
        await db.SaveChangesAsync();
        db.HandOvers.Add(new HandOver
        {
            InstalledSystemId = systemId, AtUtc = nowUtc, By = by, TypedName = signature.TypedName, Inspection = signature.Inspection.Value, Notes = signature.Notes, Strokes = signature.Strokes,
            Lines = string.Join('\n', lines.Select(l => $"{(l.Shown ? '+' : '-')} {l.Words}")), DocumentId = paper.Id, DocumentSha256 = paper.Sha256,
        });
        await db.SaveChangesAsync();
        return [];
    });

    private static IEnumerable<Refusal> Check(InstalledSystem system, Signature signature, bool spoilt)
    {
        if (signature.TypedName.Length == 0) yield return new(nameof(Signature.TypedName), "The house owner types the full name here.");
        if (signature.Inspection is null) yield return new(nameof(Signature.Inspection), "Ask whether the state's program may inspect the system, and choose the answer.");
        if (spoilt) yield return new(nameof(Signature.Strokes), "The drawn signature could not be read. Clear it and draw again, or leave it out: the typed name is enough.");
        if (signature.Shown.Count == 0) yield return new(nameof(Signature.Shown), "Tick what was shown.");
        if (system is { LeftRunning: false, Backdraft: BackdraftCheck.Failed } && signature.Notes.Length == 0)
            yield return new(nameof(Signature.Notes), "The system is off because of the backdraft check. Write what was agreed with the owner until it is mended.");
    }
}
