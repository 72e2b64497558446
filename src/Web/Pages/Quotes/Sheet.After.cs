using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Changes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>What follows an offer: closing it, nudging or not, its second phase, its guarantee, today's prices.</summary>
public sealed partial class SheetModel
{
    public async Task<IActionResult> OnPostLostAsync(int houseId, int revision)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        var read = new FormReading(ModelState, nameof(Lost), units.System);
        var note = read.Text(Lost.Note, nameof(Lost.Note), "note", most: 2000);
        if (LostWords.ForOffice.All(o => o.Value != Lost.Because) || !Enum.TryParse<LostBecause>(Lost.Because, out var because) || because == LostBecause.NotSaid)
        {
            read.Refuse(nameof(Lost.Because), "Choose why this quote is closed.");
            because = LostBecause.NotSaid;
        }

        if (because == LostBecause.Other && note.Length == 0) read.Refuse(nameof(Lost.Note), "Say in a few words which reason.");
        if (!ModelState.IsValid) return ShowAgain();
        return await AfterAsync(houseId, revision, await CloseQuote.LostAsync(db, revision, because, note, clock) ? "" : "This quote is not out any more.");
    }

    public async Task<IActionResult> OnPostNudgesAsync(int houseId, int revision, bool off)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        Full.Quote.NoNudges = off;
        await db.SaveChangesAsync();
        return RedirectToPage(new { houseId, revision });
    }

    public async Task<IActionResult> OnPostPhaseAsync(int houseId, int revision, int phase)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        await SettlePhases.RunAsync(db, clock.GetUtcNow().UtcDateTime, houseId, HttpContext.RequestAborted);
        if (await DraftPhase.RunAsync(db, phase, houseId, clock) is { } draft) return RedirectToPage(new { houseId, revision = draft });
        return await AfterAsync(houseId, revision, "This second phase is not due now. What the tests say stands below.");
    }

    public async Task<IActionResult> OnPostVisitAsync(int houseId, int revision)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        if (Guarantee is not { From: { } from } || Shown.By is not { } signed) return RefuseAct("No guarantee of this quote has begun.");
        var read = new FormReading(ModelState, nameof(Visit), units.System);
        var on = read.Day(Visit.On, nameof(Visit.On), "day of the visit", needed: true);
        var done = read.Text(Visit.Done, nameof(Visit.Done), "work of the visit", needed: true, most: 500);
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Full.Zone);
        if (on > today) read.Refuse(nameof(Visit.On), "That day has not come yet. Write the visit down when it was made.");
        if (on < from) read.Refuse(nameof(Visit.On), $"The system runs since {HouseTime.Show(from)}; a return visit comes after that.");
        if (Guarantee.VisitsLeft == 0) read.Refuse("", $"All {GuaranteeWords.Count(Guarantee.VisitsGiven, "free visit")} of this guarantee are used. A further one is new work: quote it, or call it off the house's invoice by hand.");
        if (!ModelState.IsValid) return ShowAgain();
        db.ReturnVisits.Add(new ReturnVisit { HouseId = houseId, AcceptanceId = signed.AcceptanceId, VisitedOn = on!.Value, Done = done, EnteredBy = actor.Name });
        await db.SaveChangesAsync();
        return RedirectToPage(null, null, new { houseId, revision }, "guarantee");
    }

    /// <summary>Brings the draft's prices up to the book.</summary>
    public async Task<IActionResult> OnPostTodaysAsync(int houseId, int revision)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        if (!Editable) return KeepTyping();
        await ReadChanges.TakeTodaysAsync(db, Full.Revision, Full.Quote, Full.Company, WholeBook);
        db.Expect(Full.Revision, Version);
        db.Entry(Full.Revision).Property(r => r.Version).IsModified = true;
        var saved = await db.TrySaveAsync(ModelState, nameof(Input), Input, () => AfreshAsync(revision), v => Version = v);
        return saved ? RedirectToPage(new { houseId, revision }) : await AfterAsync(houseId, revision, "Someone changed this quote since you opened it. Look at it again.");
    }

    /// <summary>Takes a choice of the draft, or all of them, from a design of the house.</summary>
    public async Task<IActionResult> OnPostDesignAsync(int houseId, int revision, int position, int design)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        if (!Editable) return KeepTyping();
        if (!Designs.ContainsKey(design)) return RefuseAct("Choose one of this house's designs.");
        if (position != 0 && Full.Revision.Tiers.All(t => t.Position != position)) return RefuseAct("Choose which of the choices stands on that design.");
        if (Full.Revision.Version != Version) return RefuseAct("Someone changed this quote since you opened it. Look at it again.");
        var computed = await ComputedDesign.OfAsync(db, design, clock);
        await TakeFromDesign.IntoAsync(db, Full.Revision, houseId, position, design, computed);
        db.Expect(Full.Revision, Version);
        db.Entry(Full.Revision).Property(r => r.Version).IsModified = true;
        var saved = await db.TrySaveAsync(ModelState, nameof(Input), Input, () => AfreshAsync(revision), v => Version = v);
        return saved ? RedirectToPage(new { houseId, revision }) : await AfterAsync(houseId, revision, "Someone changed this quote since you opened it. Look at it again.");
    }

    private PageResult ShowAgain()
    {
        (Input, Version) = (QuoteForm.Of(Full!.Revision, LinesShown), Full.Revision.Version);
        return Page();
    }
}
