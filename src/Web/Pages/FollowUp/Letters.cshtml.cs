using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Those to be told by letter or phone: to print, to call, and as a file.</summary>
public sealed class LettersModel(OfficeDb db, MailSettings mail, TimeProvider clock) : PageModel
{
    public IReadOnlyList<DueReminder> Due { get; private set; } = [];
    public int DueInAll { get; private set; }

    /// <summary>As many letters as one run may hold; what is only for the phone comes after them.</summary>
    public IEnumerable<DueReminder> Shown => Due.Where(d => d.MayPost).Take(MakeLetters.Most).Concat(Due.Where(d => !d.MayPost));
    public IReadOnlyList<LetterRun> Runs { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    /// <summary>The reminders to print.</summary>
    [BindProperty]
    public List<int> Print { get; set; } = [];

    [BindProperty]
    public string? Labels { get; set; }

    [BindProperty]
    public string? FirstLabel { get; set; }

    public bool Posted { get; private set; }

    public IEnumerable<(string Value, string Words)> Sheets => LabelSheet.All.Select(s => (s.Key, s.Words)).Prepend(("", "No labels: the address shows in the envelope's window"));

    public async Task OnGetAsync() => await ReadAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        Posted = true;
        var (first, problem) = TypedNumbers.ReadWhole(FirstLabel, "first free label", 1, 100);
        if (problem is not null) ModelState.AddModelError(nameof(FirstLabel), problem);
        var sheet = LabelSheet.Of(Labels);
        if (sheet is not null && first > sheet.Count) ModelState.AddModelError(nameof(FirstLabel), $"The sheet has {sheet.Count} labels.");
        if (ModelState.IsValid)
        {
            var order = new LetterOrder(Print, sheet, first ?? 1, User.FindFirstValue(ClaimTypes.GivenName) ?? "?");
            var (run, refusal) = await MakeLetters.RunAsync(db, order, mail, clock.GetUtcNow().UtcDateTime);
            if (run is not null) return LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/follow-up/letters/{run.Id}"));
            ModelState.AddModelError("", refusal);
        }

        await ReadAsync();
        return Page();
    }

    public async Task<IActionResult> OnGetCsvAsync()
    {
        await ReadAsync(all: true);
        return Sheet.Csv("letters.csv", ["Due", "Name", "Phone", "Post", "House", "What", "Because", "Not by e-mail"], Due.Select(d => (string[])
        [
            d.DueOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), d.Name, d.Phone, d.PostalAddress, d.House, d.Rule, d.Because, d.ByHandBecause,
        ]));
    }

    private async Task ReadAsync(bool all = false)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        Zone = HouseTime.Zone(company.TimeZone);
        var rules = await db.ReminderRules.AsNoTracking().ToDictionaryAsync(r => r.Code, StringComparer.Ordinal);
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Zone);
        if (all) Due = (await DueReminder.ReadAsync(db, company, rules, today)).FindAll(d => d.ByHand);
        else (Due, DueInAll) = await DueReminder.ReadByHandAsync(db, company, rules, today);
        Runs = await db.LetterRuns.AsNoTracking().OrderByDescending(r => r.Id).Take(20).ToListAsync();
    }
}
