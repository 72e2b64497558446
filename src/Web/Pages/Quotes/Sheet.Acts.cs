using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>What can be done with a quote besides editing it.</summary>
public sealed partial class SheetModel
{
    public async Task<IActionResult> OnPostDraftAsync(int houseId, bool byHand)
    {
        if (!await db.Houses.AnyAsync(h => h.Id == houseId)) return NotFound();
        var design = byHand ? null : await db.Designs.Where(d => d.HouseId == houseId).OrderByDescending(d => d.Id).Select(d => (int?)d.Id).FirstOrDefaultAsync();
        if (await DraftQuote.ForHouseAsync(db, houseId, design, clock) is { } draft) return RedirectToPage(new { houseId, revision = draft.Id });
        await LoadAsync(houseId, null);
        return RefuseAct("Nobody is named as the owner of this house. Name the customer on sheet 1, then draft the quote.");
    }

    public async Task<IActionResult> OnPostSendAsync(int houseId, int revision)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        if (!SeesCosts && BrokenRules.Count > 0) return RefuseAct("This quote is under the owner's price floor or margin rule. Ask the owner to look at it and send it.");
        var sent = await SendQuote.NowAsync(db, revision, Version, Letterhead.Of(Full.Company, mail), clock, actor.Name, TaxGaps);
        return await AfterAsync(houseId, revision, sent.Gaps.Count > 0 ? "The quote was not sent: something is missing. The list says what." : sent.Problem);
    }

    public async Task<IActionResult> OnPostAgainAsync(int houseId, int revision)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        return await AfterAsync(houseId, revision, (await SendQuote.AgainAsync(db, revision, Letterhead.Of(Full.Company, mail), clock)).Problem);
    }

    public async Task<IActionResult> OnPostReviseAsync(int houseId, int revision)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        if (await ReviseQuote.NextAsync(db, Full.Quote.Id, clock) is { } draft) return RedirectToPage(new { houseId, revision = draft.Id });
        return RefuseAct("This quote was accepted. Draft a new quote for anything further.");
    }

    public async Task<IActionResult> OnPostEndLinksAsync(int houseId, int revision)
    {
        if (!await LoadAsync(houseId, revision)) return NotFound();
        await OfferLink.RevokeAsync(db, revision, clock.GetUtcNow().UtcDateTime);
        await db.SaveChangesAsync();
        return RedirectToPage(new { houseId, revision });
    }

    private async Task<IActionResult> AfterAsync(int houseId, int revision, string problem)
    {
        if (problem.Length == 0) return RedirectToPage(new { houseId, revision });
        db.ChangeTracker.Clear();
        await LoadAsync(houseId, revision);
        return RefuseAct(problem);
    }

    private PageResult RefuseAct(string words)
    {
        ModelState.Clear();
        if (Full is not null) (Input, Version) = (QuoteForm.Of(Full.Revision, LinesShown), Full.Revision.Version);
        ModelState.AddModelError("", words);
        return Page();
    }
}
