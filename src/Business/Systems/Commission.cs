using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Systems;

/// <summary>Puts a finished system on record in one act, and corrects that record.</summary>
public static class Commission
{
    /// <summary>Where the duty to check and not to leave running stands.</summary>
    public const string BackdraftSource = "EPA 402-R-93-078, 17 (from memory); the risk: ANSI/AARST SGM-SF 2017, 11.1.1";

    public const string BackdraftDoThis =
        "Switch the system off at its breaker and air the room. Do not leave it running. Give the appliance air or relieve the room, or have a licensed "
        + "heating contractor mend the cause; then repeat the check and record it here. Until then the system is recorded as switched off.";

    /// <summary>The new system, saved with all its parts and readings; or the refusals, and nothing saved.</summary>
    public static Task<(InstalledSystem? System, IReadOnlyList<Refusal> Refusals)> RunAsync(OfficeDb db, AsBuilt built, DateTime nowUtc) =>
        db.WriteAsync<(InstalledSystem?, IReadOnlyList<Refusal>)>(async () =>
        {
            var refusals = await CheckAsync(db, built, 0, nowUtc);
            if (refusals.Count > 0) return (null, refusals);
            var system = new InstalledSystem { TagNumber = built.TagNumber, HouseId = built.HouseId, JobId = built.JobId, SuctionDesignId = built.SuctionDesignId };
            await WriteAsync(db, system, built);
            db.Systems.Add(system);
            await db.SaveChangesAsync();
            return (system, []);
        });

    /// <summary>Writes a correction onto a system loaded with its parts, readings and draft checks, to be saved by the caller.</summary>
    public static async Task<IReadOnlyList<Refusal>> CorrectAsync(OfficeDb db, InstalledSystem system, AsBuilt built, DateTime nowUtc)
    {
        var refusals = await CheckAsync(db, built, system.Id, nowUtc);
        if (refusals.Count == 0) await WriteAsync(db, system, built);
        return refusals;
    }

    private static async Task<List<Refusal>> CheckAsync(OfficeDb db, AsBuilt built, int systemId, DateTime nowUtc)
    {
        var refusals = new List<Refusal>();
        if (await TagTakenAsync(db, built.TagNumber, systemId) is { } where)
            refusals.Add(new(nameof(AsBuilt.TagNumber), $"Tag {built.TagNumber} already hangs at {where}. Read the tag again, or take the next one."));
        if (built.JobId is { } job && await db.Systems.AnyAsync(s => s.JobId == job && s.Id != systemId))
            refusals.Add(new("", "This job's system is already on record. Open it to correct it."));
        if (built.ActivatedAtUtc > nowUtc.AddMinutes(5))
            refusals.Add(new("FanOn.Day", "The fan cannot have been switched on in the time to come. Write the day and the time it was switched on to stay."));
        var natural = await db.Houses.Where(h => h.Id == built.HouseId).SelectMany(h => h.Appliances).Where(a => a.Draft == Draft.Natural).Select(a => a.Name).ToListAsync();
        refusals.AddRange(JudgeDraft.Check(built, natural));
        if (built.WiringSignedOn is not null && built.Electrician.Length == 0) refusals.Add(new(nameof(AsBuilt.Electrician), "Write the electrician who signed the wiring off."));
        if (built.Parts.All(p => p.Kind != ComponentKind.Fan)) refusals.Add(new("FanId", "Choose the fan that was fitted, or write its model."));
        return refusals;
    }

    /// <summary>A tag as it is kept: capitals, single spaces, so that one tag cannot be entered twice in two ways.</summary>
    public static string TagAsKept(string typed) =>
        string.Join(' ', typed.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)).ToUpperInvariant();

    private static Task<string?> TagTakenAsync(OfficeDb db, string tag, int systemId) =>
        db.Systems.Where(s => s.Id != systemId && s.TagNumber == tag)
            .Join(db.Houses, s => s.HouseId, h => h.Id, (s, h) => h.Street + ", " + h.City).FirstOrDefaultAsync();

    private static async Task WriteAsync(OfficeDb db, InstalledSystem s, AsBuilt built)
    {
        (s.Instrument, s.InstrumentId) = (built.Instrument, ReadWith.Named(await ReadWith.InstrumentsAsync(db), built.Instrument)?.Id);
        (s.TagNumber, s.ActivatedAtUtc, s.CompletedOn, s.SystemType) = (built.TagNumber, built.ActivatedAtUtc, built.CompletedOn, built.SystemType);
        (s.SuctionPoints, s.PipeSize, s.FanPlace, s.OutdoorC) = (built.SuctionPoints, built.PipeSize, built.FanPlace, built.OutdoorC);
        (s.StartUpGaugePa, s.StartUpGaugeAsEntered, s.StartUpWatts) = (built.StartUpGaugePa, built.StartUpGaugeAsEntered, built.StartUpWatts);
        (s.Backdraft, s.BackdraftNotes, s.LeftRunning) = (built.Backdraft, built.BackdraftNotes, built.LeftRunning);
        (s.Price, s.DifferencesFromDesign) = (built.Price ?? s.Price, built.DifferencesFromDesign);
        (s.SecondBranch, s.TakenOverParts, s.TakenOverCredit) = (built.SecondBranch, built.TakenOverParts, built.TakenOverCredit ?? s.TakenOverCredit);
        (s.Electrician, s.ElectricianLicence, s.WiringSignedOn) = (built.Electrician, built.ElectricianLicence, built.WiringSignedOn);
        WriteParts(db, s, built.Parts, built.CompletedOn);
        WriteReadings(db, s, built.Readings);
        WriteDrafts(db, s, built.Drafts);
    }

    private static void WriteDrafts(OfficeDb db, InstalledSystem s, IReadOnlyList<CheckedDraft> drafts)
    {
        foreach (var gone in s.DraftChecks.Where(c => drafts.All(d => d.Appliance != c.Appliance)).ToList()) db.Remove(gone);
        foreach (var draft in drafts)
        {
            var row = s.DraftChecks.Find(c => c.Appliance == draft.Appliance);
            if (row is null) s.DraftChecks.Add(row = new DraftCheck { Appliance = draft.Appliance });
            (row.Result, row.SpilledMinutes, row.Notes) = (draft.Result, draft.SpilledMinutes, draft.Notes);
        }
    }

    /// <summary>Parts of a kind are matched in order; a part that is no longer named was a mistake and goes. Parts taken out in service stay.</summary>
    private static void WriteParts(OfficeDb db, InstalledSystem s, IReadOnlyList<FittedPart> parts, DateOnly fittedOn)
    {
        var first = s.Components.Where(c => c.RemovedOn is null).OrderBy(c => c.Id).ToList();
        foreach (var part in parts)
        {
            var row = first.Find(c => c.Kind == part.Kind);
            if (row is null) s.Components.Add(row = new SystemComponent { Kind = part.Kind, Model = part.Model, FittedOn = fittedOn });
            else first.Remove(row);
            (row.Model, row.Serial, row.FanId) = (part.Model, part.Serial, part.FanId);
            (row.BatteryFittedOn, row.WarrantyUntil) = (part.BatteryFittedOn, part.WarrantyUntil);
        }

        foreach (var mistaken in first) db.Remove(mistaken);
    }

    private static void WriteReadings(OfficeDb db, InstalledSystem s, IReadOnlyList<FinalReading> readings)
    {
        foreach (var gone in s.FinalSuctions.Where(f => readings.All(r => r.HoleLabel != f.HoleLabel)).ToList()) db.Remove(gone);
        foreach (var reading in readings)
        {
            var row = s.FinalSuctions.FirstOrDefault(f => f.HoleLabel == reading.HoleLabel);
            if (row is null) s.FinalSuctions.Add(row = new FinalSuction { HoleLabel = reading.HoleLabel });
            (row.SuctionPa, row.FanOffPa, row.PredictedPa) = (reading.SuctionPa, reading.FanOffPa, reading.PredictedPa ?? row.PredictedPa);
        }
    }
}
