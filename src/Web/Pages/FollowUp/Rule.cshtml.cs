using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.FollowUp;

public sealed class RuleModel(OfficeDb db, UnitChoice units, MailSettings mail, IEnumerable<IOfficeDays> days, TimeProvider clock) : PageModel
{
    [BindProperty]
    public RuleForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    /// <summary>The house that the words are shown for.</summary>
    [BindProperty(SupportsGet = true)]
    public int? HouseId { get; set; }

    [TempData]
    public string? Told { get; set; }

    private string Code => RouteData.Values["code"] as string ?? "";

    public ReminderAnchor Anchor { get; private set; }
    public bool ToOffice { get; private set; }
    /// <summary>Nothing of this rule is or was planned here: the fact and the day shown are only an example.</summary>
    public bool Invented { get; private set; }
    public IReadOnlyList<(string Value, string Words)> Houses { get; private set; } = [];
    public (string Subject, string Text, IReadOnlyList<string> Missing)? Shown { get; private set; }

    public async Task<IActionResult> OnGetAsync(string code)
    {
        if (!await db.ReminderRules.AnyAsync(r => r.Code == code)) return NotFound();
        (Input, Version) = await ReadAsync(code);
        await ShowAsync();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string code)
    {
        if (await TypedAsync(code) is not { } rule) return NotFound();
        if (ModelState.IsValid)
        {
            db.Expect(rule, Version);
            if (await db.TrySaveAsync(ModelState, nameof(Input), Input, () => ReadAsync(code), v => Version = v))
            {
                var round = await PlanReminders.RunAsync(db, clock.GetUtcNow().UtcDateTime, days);
                Told = $"Saved. Planned {round.Planned}, taken back {round.Replaced}, moved {round.Moved}.";
                return RedirectToPage(new { code });
            }
        }

        await ShowAsync();
        return Page();
    }

    /// <summary>Shows the typed words without saving them.</summary>
    public async Task<IActionResult> OnPostShowAsync(string code)
    {
        if (await TypedAsync(code) is null) return NotFound();
        db.ChangeTracker.Clear();
        await ShowAsync();
        return Page();
    }

    /// <summary>Sends the typed words, for the chosen house, to the person who asks.</summary>
    public async Task<IActionResult> OnPostTestAsync(string code)
    {
        if (await TypedAsync(code) is null) return NotFound();
        db.ChangeTracker.Clear();
        await ShowAsync();
        if (!ModelState.IsValid || Shown is not { } shown) return Page();
        var (now, to) = (clock.GetUtcNow().UtcDateTime, User.FindFirstValue(ClaimTypes.Email) ?? User.Identity!.Name!);
        var key = $"test:{code}:{now.ToString("yyyyMMddHHmmssffffff", CultureInfo.InvariantCulture)}";
        var company = await db.Company.AsNoTracking().SingleAsync();
        await QueueMail.AddAsync(db, Letterhead.Of(company, mail), now, new Letter(key, MailClass.Work, to, User.FindFirstValue(ClaimTypes.GivenName) ?? "", $"Test: {shown.Subject}", shown.Text));
        await db.SaveChangesAsync();
        ViewData["Told"] = $"A test is on its way to {to}.";
        return Page();
    }

    private async Task<ReminderRule?> TypedAsync(string code)
    {
        var rule = await db.ReminderRules.SingleOrDefaultAsync(r => r.Code == code);
        if (rule is not null) (Anchor, ToOffice) = (rule.Anchor, rule.Channel == ReminderChannel.Office);
        if (rule is not null) Input.Write(rule, new FormReading(ModelState, nameof(Input), units.System));
        return rule;
    }

    private async Task<(RuleForm, int)> ReadAsync(string code)
    {
        var rule = await db.ReminderRules.AsNoTracking().SingleAsync(r => r.Code == code);
        (Anchor, ToOffice) = (rule.Anchor, rule.Channel == ReminderChannel.Office);
        return (RuleForm.Of(rule), rule.Version);
    }

    private async Task ShowAsync()
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var reader = ToOffice ? ReminderLetter.Reader.Office(company) : await ChosenAsync();
        if (reader is null) return;
        var planned = await db.Reminders.AsNoTracking().Where(r => r.RuleCode == Code && (ToOffice || r.HouseId == HouseId)).OrderBy(r => r.State == ReminderState.Planned ? 0 : 1).ThenBy(r => r.DueOn).ThenBy(r => r.Id)
            .Select(r => new { r.DueOn, r.Because }).FirstOrDefaultAsync();
        Invented = planned is null;
        var due = planned?.DueOn ?? HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(company.TimeZone)).AddDays(21);
        var values = ReminderLetter.Values(due, planned?.Because ?? RuleWords.Example(Anchor, due), reader, company);
        var (subject, body) = (Input.Subject ?? "", Input.Body ?? "");
        Shown = (ReminderText.Fill(subject, values), ReminderText.Fill(body, values), ReminderText.Missing(subject + body, values));
    }

    /// <summary>The house that was chosen, or the newest.</summary>
    private async Task<ReminderLetter.Reader?> ChosenAsync()
    {
        var newest = await ReminderLetter.ReadersAsync(db, db.Houses.Where(h => db.Systems.Any(s => s.HouseId == h.Id)).OrderByDescending(h => h.Id == HouseId).ThenByDescending(h => h.Id).Take(100));
        Houses = [.. newest.Values.OrderBy(r => r.House, StringComparer.Ordinal).Select(r => (r.HouseId.ToString(CultureInfo.InvariantCulture), $"{r.House} – {r.Name}"))];
        if (!newest.TryGetValue(HouseId ?? newest.Keys.FirstOrDefault(), out var reader)) return null;
        HouseId = reader.HouseId;
        return reader;
    }
}
