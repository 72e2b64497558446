using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Offer;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>One change order: drawn up, sent or handed over on the tablet, and what became of it. Installers draw it up without
/// seeing a price.</summary>
public sealed class ChangeModel(OfficeDb db, UnitChoice units, TimeProvider clock, MailSettings mail, Actor actor, IAuthorizationService may) : PageModel
{
    [FromRoute]
    public int HouseId { get; set; }

    [FromRoute]
    public int ChangeId { get; set; }

    [BindProperty]
    public ChangeForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    public ChangeOrder Order { get; private set; } = null!;
    public Scope Scope { get; private set; } = null!;
    public ChangeSignature? Signature { get; private set; }
    public ChangeLink? Link { get; private set; }
    public string? Closed { get; private set; }
    public bool SeesPrices { get; private set; }
    public IReadOnlyList<PriceItem> Book { get; private set; } = [];
    public (Money Net, Money Tax, Money Total)? After { get; private set; }
    public IReadOnlyList<Refusal> Gaps { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool Editable => Order.State == ChangeState.Draft && Closed is null;
    public bool LinkIsLive => Order.State == ChangeState.Sent && Link is { RevokedAtUtc: null } link && link.ExpiresAtUtc > Now;
    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        (Input, Version) = (ChangeForm.Of(Order, Scope), Order.Version);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync() => await SaveAsync() ?? Back();

    /// <summary>Saves what is typed, then gives it out by mail.</summary>
    public async Task<IActionResult> OnPostSendAsync() => await SaveAsync() ?? await GiveOutAsync(onTablet: false);

    /// <summary>Saves what is typed, then opens it for signing on this tablet.</summary>
    public async Task<IActionResult> OnPostTabletAsync() => await SaveAsync() ?? await GiveOutAsync(onTablet: true);

    public async Task<IActionResult> OnPostWithdrawAsync()
    {
        if (!await LoadAsync()) return NotFound();
        return await CloseChange.WithdrawAsync(db, ChangeId) ? Back() : await RefuseAsync([new("", "It was signed or ended in the meantime; it stands below.")]);
    }

    public async Task<IActionResult> OnPostReviseAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var made = await DraftChange.ReviseAsync(db, ChangeId, Now, actor.Name);
        return made.Refusals.Count > 0 ? await RefuseAsync(made.Refusals) : RedirectToPage(new { houseId = HouseId, changeId = made.ChangeOrderId });
    }

    private async Task<IActionResult?> SaveAsync()
    {
        if (!await LoadAsync()) return NotFound();
        if (Order.State != ChangeState.Draft) return null;
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var (reason, time) = (read.Text(Input.Reason, nameof(Input.Reason), "reason", most: 2000), read.Text(Input.TimeEffect, nameof(Input.TimeEffect), "effect on the days", most: 300));
        var labour = await db.Company.AsNoTracking().Select(c => c.LabourPricePerHour.Cents).SingleAsync();
        var lines = Input.Read(read, Order, Scope, Book, new Money(labour), SeesPrices);
        if (!ModelState.IsValid) return Page();
        var saved = await DraftChange.SaveAsync(db, ChangeId, Version, reason, time, lines);
        if (saved.Refusals.Count == 0) return null;
        foreach (var r in saved.Refusals) ModelState.AddModelError("", r.Words);
        return Page();
    }

    private async Task<IActionResult> GiveOutAsync(bool onTablet)
    {
        var version = await db.ChangeOrders.AsNoTracking().Where(c => c.Id == ChangeId).Select(c => c.Version).SingleAsync();
        var from = Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), mail);
        var sent = await SendChange.RunAsync(db, ChangeId, version, onTablet ? actor.Name : null, from, Now, actor.Name);
        if (sent.Refusals.Count > 0) return await RefuseAsync(sent.Refusals);
        return onTablet ? LocalRedirect(ChangeWords.Address(sent.Token!)) : Back();
    }

    private RedirectToPageResult Back() => RedirectToPage(new { houseId = HouseId, changeId = ChangeId });

    private async Task<IActionResult> RefuseAsync(IReadOnlyList<Refusal> refusals)
    {
        db.ChangeTracker.Clear();
        await LoadAsync();
        ModelState.Clear();
        foreach (var r in Told(refusals)) ModelState.AddModelError(r.Field == nameof(ChangeOrder.Reason) ? $"{nameof(Input)}.{r.Field}" : "", r.Words);
        (Input, Version) = (ChangeForm.Of(Order, Scope), Order.Version);
        return Page();
    }

    /// <summary>What names an amount is told without it to those who see no prices.</summary>
    private IReadOnlyList<Refusal> Told(IReadOnlyList<Refusal> all) =>
        SeesPrices ? all : [.. all.Select(r => r.Words.Contains('$', StringComparison.Ordinal) ? r with { Words = "The price does not work out yet. The office looks at it first." } : r)];

    private async Task<bool> LoadAsync()
    {
        if (await db.ChangeOrders.AsNoTracking().Include(c => c.Lines).AsSingleQuery().SingleOrDefaultAsync(c => c.Id == ChangeId && c.HouseId == HouseId) is not { } order) return false;
        (Order, SeesPrices) = (order, (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded);
        Scope = (await ReadScope.OfAsync(db, order.AcceptanceId))!;
        Closed = order.State is ChangeState.Draft or ChangeState.Sent ? await CheckChange.ClosedAsync(db, order.AcceptanceId) : null;
        Zone = await HouseZone.OfAsync(db, HouseId);
        if (order.State == ChangeState.Draft)
        {
            Book = await db.PriceItems.AsNoTracking().Where(p => !p.Retired).OrderBy(p => p.Name).ToListAsync();
            Gaps = Told(CheckChange.Lines(order, Scope));
            if (order.Lines.Count > 0 && Gaps.Count == 0) After = Scope.After(order.Lines);
        }
        else if (order.State == ChangeState.Agreed)
        {
            Signature = await db.ChangeSignatures.AsNoTracking().SingleOrDefaultAsync(s => s.ChangeOrderId == order.Id);
        }
        else
        {
            Link = await db.ChangeLinks.AsNoTracking().Where(l => l.ChangeOrderId == order.Id).OrderByDescending(l => l.Id).FirstOrDefaultAsync();
        }

        ViewData["House"] = (await HouseHead.LoadAsync(db, HouseId, shown: 5))! with { Revision = order.Number, Date = HouseTime.Show(HouseTime.DayOf(order.SentAtUtc ?? order.CreatedAtUtc, Zone)) };
        ViewData["Title"] = $"Change order {order.Number}";
        return true;
    }
}
