using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Changes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>Sheet 4 of a house. A quote may have hundreds of lines, ten thousand at the most: more fields than a form commonly has.</summary>
[RequestFormLimits(ValueCountLimit = 100_000)]
public sealed partial class SheetModel(OfficeDb db, TimeProvider clock, UnitChoice units, MailSettings mail, Actor actor) : PageModel
{
    public sealed record History(int Id, string Number, int QuoteId, string Letter, RevisionState State, DateTime CreatedAtUtc, DateTime? SentAtUtc, DateOnly? ValidUntil, string DeclineReason, LostBecause Because, int LiveLinks, int Nudges, bool NoNudges, SignedBy? By);

    public sealed record SignedBy(string Name, DateTime AtUtc, Money Total, Money Deposit, int TierId, string AddOnIds, string DeclinedAddOnIds, DateOnly CancelBy, int DocumentId, int AcceptanceId);

    /// <summary>What became of a second phase.</summary>
    public sealed record PhaseStand(int Id, PhaseState State, DateOnly? ValidUntil, int? TestId, decimal? DecidingPCiL, DateOnly? Since, int? NextRevisionId);

    [BindProperty]
    public QuoteForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty]
    public VisitForm Visit { get; set; } = new();

    [BindProperty]
    public LostForm Lost { get; set; } = new();

    public IReadOnlyList<History> Revisions { get; private set; } = [];
    public IReadOnlyList<PriceItem> Book { get; private set; } = [];
    private IReadOnlyList<PriceItem> WholeBook { get; set; } = [];
    public QuoteInFull? Full { get; private set; }
    public History Shown => Revisions.Single(r => r.Id == Full!.Revision.Id);
    public bool Editable => Full?.Revision.State == RevisionState.Draft;
    public string? MaterialsOf { get; private set; }

    /// <summary>Letters of the house's designs, by their ids.</summary>
    public IReadOnlyDictionary<int, string> Designs { get; private set; } = new Dictionary<int, string>();

    /// <summary>Which hundred of the lines is shown: the first is 1.</summary>
    [FromQuery(Name = "lines")]
    public int LinesShown { get; set; } = 1;
    public bool TooLong => Full is not null && SideBySide.Of([.. Full.Revision.Tiers]).Count > SideBySide.MostRows;
    public int LinePages => Math.Max(1, (MostLines + QuoteForm.LinesAtOnce - 1) / QuoteForm.LinesAtOnce);
    private int MostLines => Full is null ? 0 : Math.Max(SideBySide.Of([.. Full.Revision.Tiers]).Count, Full.Revision.Tiers.Select(t => t.Lines.Count).DefaultIfEmpty().Max());
    public PhaseStand? Phase { get; private set; }
    public GuaranteeStand? Guarantee { get; private set; }
    public QuoteChanges Changes { get; private set; } = QuoteChanges.None;
    public IReadOnlyList<QuoteGap> TaxGaps { get; private set; } = [];

    /// <summary>The owner's rules that a choice breaks; for the owner's eyes.</summary>
    public IReadOnlyList<string> BrokenRules => TierMoney.Broken(Full!.Revision, Full.Company);
    public IReadOnlyList<QuoteGap> Advice => [.. Changes.Doubts, .. CheckQuote.Advice(Full!.Revision)];
    public IReadOnlyList<QuoteGap> Gaps => [.. Full!.Gaps(clock.GetUtcNow().UtcDateTime), .. TaxGaps];

    /// <summary>The form is shown for a draft, and where somebody typed into one that was sent meanwhile.</summary>
    public bool ShowsForm { get; private set; }
    public bool SeesCosts => User.IsInRole("Owner");

    public async Task<IActionResult> OnGetAsync(int houseId, int? revision)
    {
        if (!await LoadAsync(houseId, revision)) return NotFound();
        if (Full is not null) (Input, Version) = (QuoteForm.Of(Full.Revision, LinesShown), Full.Revision.Version);
        return Page();
    }

    public async Task<IActionResult> OnGetPaperAsync(int houseId, int revision)
    {
        var stored = await (from r in db.QuoteRevisions
                            where r.Id == revision && r.Quote!.HouseId == houseId
                            join d in db.Documents.AsNoTracking() on r.PdfDocumentId equals d.Id
                            select d).SingleOrDefaultAsync();
        if (stored is not null) return File(stored.Bytes, stored.ContentType, stored.FileName);
        if (await GatherPaper.OfAsync(db, revision) is not { } full || full.House.Id != houseId) return NotFound();
        if (SideBySide.Of([.. full.Revision.Tiers]).Count > SideBySide.MostRows) return RedirectToPage(new { houseId, revision });
        var paper = full.OnPaper(clock.GetUtcNow().UtcDateTime) with { Sections = await GatherPaper.SectionsAsync(db, full) };
        return File(QuotePaper.Make(paper), "application/pdf", "preview-" + paper.FileName);
    }

    public async Task<IActionResult> OnGetSignedAsync(int houseId, int revision)
    {
        var stored = await (from a in db.Acceptances
                            where a.QuoteRevisionId == revision
                            join d in db.Documents.AsNoTracking() on a.SignedDocumentId equals d.Id
                            where d.HouseId == houseId
                            select d).SingleOrDefaultAsync();
        return stored is null ? NotFound() : File(stored.Bytes, stored.ContentType, stored.FileName);
    }

    public async Task<IActionResult> OnPostAsync(int houseId, int revision, bool proposePhase)
    {
        if (!await LoadAsync(houseId, revision) || Full is null) return NotFound();
        if (!Editable) return KeepTyping();
        new ReadQuoteForm(Input, new FormReading(ModelState, nameof(Input), units.System), Full.Company, Book, SeesCosts).Into(Full.Revision);
        if (!ModelState.IsValid) return Page();
        if (proposePhase && !await ProposedAsync(houseId)) return Page();
        db.Expect(Full.Revision, Version);
        db.Entry(Full.Revision).Property(r => r.Version).IsModified = true;
        var saved = await db.TrySaveAsync(ModelState, nameof(Input), Input, () => AfreshAsync(revision), v => Version = v);
        if (saved) return proposePhase ? RedirectToPage(null, null, Here(houseId, revision), "second-phase") : RedirectToPage(Here(houseId, revision));
        await LoadAsync(houseId, revision);
        return Page();
    }

    /// <summary>The same hundred of the lines again.</summary>
    private object Here(int houseId, int revision) => LinesShown > 1 ? new { houseId, revision, lines = LinesShown } : new { houseId, revision };

    private async Task<bool> ProposedAsync(int houseId)
    {
        var r = Full!.Revision;
        if (r.Phase is not null) return true;
        var basis = QuoteBasis.Of(Full.Company, await QuoteBasis.HouseAsync(db, houseId), await ComputedDesign.OfAsync(db, r.SuctionDesignId, clock));
        r.Phase = ProposePhase.Of(basis, WholeBook, HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Full.Zone));
        if (r.Phase is null) ModelState.AddModelError("", "Your price book holds no further suction point to propose: an item wanted when “the suction does not reach”. Nothing was saved; your typing is kept below.");
        return r.Phase is not null;
    }

    private PageResult KeepTyping()
    {
        ShowsForm = true;
        ModelState.AddModelError("", "This revision was sent while you were typing and cannot be changed any more. Your typing is kept below: revise the quote in another window and carry it over.");
        return Page();
    }

    private async Task<(QuoteForm, int)> AfreshAsync(int revision)
    {
        var theirs = await db.QuoteRevisions.AsNoTracking().WithPrices().SingleAsync(r => r.Id == revision);
        return (QuoteForm.Of(theirs, LinesShown), theirs.Version);
    }

    private async Task<bool> LoadAsync(int houseId, int? revision)
    {
        if (await HouseHead.LoadAsync(db, houseId, shown: 4) is not { } head) return false;
        Revisions = await HistoryAsync(houseId);
        var id = revision ?? Revisions.Select(r => (int?)r.Id).FirstOrDefault();
        if (revision is not null && Revisions.All(r => r.Id != revision)) return false;
        Full = id is null ? null : await GatherPaper.OfAsync(db, id.Value);
        ShowsForm = Editable;
        WholeBook = await db.PriceItems.AsNoTracking().ToListAsync();
        Book = [.. WholeBook.Where(i => !i.Retired).OrderBy(i => i.Name, StringComparer.OrdinalIgnoreCase)];
        if (!Editable && Full is { Revision: var sent } && sent.Tiers.Select(t => t.SuctionDesignId).Append(sent.SuctionDesignId).Any(d => d is not null))
            Designs = await db.Designs.Where(d => d.HouseId == houseId).Select(d => new { d.Id, d.Revision }).ToDictionaryAsync(d => d.Id, d => d.Revision);
        await StandsAsync();
        ViewData["House"] = Full is null ? head : head with { Revision = $"{Full.Quote.Number} {Full.Revision.Letter}", Date = Day(Full.Revision.SentAtUtc ?? Full.Revision.CreatedAtUtc) };
        return true;
    }

    /// <summary>A draft is held against the revision before it, the book and the tax rates; a signed quote against the tests.</summary>
    private async Task StandsAsync()
    {
        if (Full is null) return;
        if (Editable)
        {
            Changes = await ReadChanges.OfAsync(db, Full.Revision, Full.Quote, Full.Company, WholeBook);
            Designs = Changes.Designs;
            TaxGaps = await CheckQuoteTax.GapsAsync(db, Full.Revision, WholeBook, HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Full.Zone));
        }

        MaterialsOf = Full.Revision.SuctionDesignId is { } quoted ? Designs.GetValueOrDefault(quoted) : null;
        if (Shown.By is not { } by) return;
        var now = clock.GetUtcNow().UtcDateTime;
        Guarantee = await ReadGuarantee.OfAsync(db, by.AcceptanceId, Full.Zone, now);
        if (Full.Revision.Phase is null) return;
        var today = HouseTime.DayOf(now, Full.Zone);
        Phase = await db.SecondPhases.AsNoTracking().Where(p => p.AcceptanceId == by.AcceptanceId).Select(p => new PhaseStand(
            p.Id, (p.State == PhaseState.Waiting || p.State == PhaseState.Due) && p.ValidUntil < today ? PhaseState.Lapsed : p.State, p.ValidUntil, p.RadonTestId, p.DecidingPCiL, p.Since,
            db.QuoteRevisions.Where(r => r.QuoteId == p.NextQuoteId).OrderByDescending(r => r.Id).Select(r => (int?)r.Id).FirstOrDefault())).SingleOrDefaultAsync();
    }

    private Task<List<History>> HistoryAsync(int houseId) => db.QuoteRevisions.AsNoTracking().Where(r => r.Quote!.HouseId == houseId).OrderByDescending(r => r.Id)
        .Select(r => new History(r.Id, r.Quote!.Number, r.QuoteId, r.Letter, r.State, r.CreatedAtUtc, r.SentAtUtc, r.ValidUntil, r.DeclineReason, r.LostBecause,
            db.QuoteLinks.Count(l => l.QuoteRevisionId == r.Id && l.RevokedAtUtc == null), db.QuoteNudges.Count(n => n.QuoteRevisionId == r.Id), r.Quote.NoNudges,
            db.Acceptances.Where(a => a.QuoteRevisionId == r.Id).Select(a => new SignedBy(a.TypedName, a.AtUtc, new Money(a.Total.Cents), new Money(a.Deposit.Cents), a.QuoteTierId, a.AddOnIds, a.DeclinedAddOnIds, a.CancelBy, a.SignedDocumentId, a.Id)).FirstOrDefault()))
        .ToListAsync();

    public string Day(DateTime? utc) => utc is { } at ? HouseTime.DayOf(at, Full!.Zone).ToString("MMM d, yyyy", CultureInfo.InvariantCulture) : "–";
}
