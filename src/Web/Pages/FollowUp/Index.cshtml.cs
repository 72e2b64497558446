using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.FollowUp;

public sealed class IndexModel(OfficeDb db, MailSettings mail, ClockWatch watch, IEnumerable<IOfficeDays> days, TimeProvider clock) : PageModel
{
    public sealed record Month(DateOnly First, IReadOnlyDictionary<string, int> Counts)
    {
        public int All => Counts.Values.Sum();
    }

    public IReadOnlyList<DueReminder> Due { get; private set; } = [];
    public int DueInAll { get; private set; }
    public IReadOnlyList<Month> Ahead { get; private set; } = [];
    public IReadOnlyList<(string Code, string Name)> Rules { get; private set; } = [];
    public IReadOnlyList<MessageRow> Trouble { get; private set; } = [];
    public IReadOnlyList<MessageRow> Sent { get; private set; } = [];
    public IReadOnlyList<OwnerWordRow> Heard { get; private set; } = [];
    public int NotPosted { get; private set; }
    public OutboxGate Gate { get; private set; } = new();
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool AsFiles => !mail.HasServer;
    public bool Paused => Gate.PausedUntilUtc > clock.GetUtcNow().UtcDateTime;

    [TempData]
    public string? Told { get; set; }

    private string Me => User.FindFirstValue(ClaimTypes.GivenName) ?? User.Identity?.Name ?? "?";
    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task OnGetAsync()
    {
        var here = await db.OutboxGates.AsNoTracking().SelectMany(g => db.Company, (g, c) => new { Gate = g, Company = c, NotPosted = db.Reminders.Count(r => r.State == ReminderState.Printed) }).SingleAsync();
        var company = here.Company;
        (Gate, NotPosted) = (here.Gate, here.NotPosted);
        var rules = await db.ReminderRules.AsNoTracking().OrderBy(r => r.Id).ToListAsync();
        Rules = [.. rules.Select(r => (r.Code, r.Name))];
        Zone = HouseTime.Zone(company.TimeZone);
        var today = HouseTime.DayOf(Now, Zone);
        (Due, DueInAll) = await DueReminder.ReadOldestAsync(db, company, rules.ToDictionary(r => r.Code, StringComparer.Ordinal), today);
        await ReadAheadAsync(today);
        Heard = await OwnerWordRow.ReadAsync(db, null);
        Trouble = await db.Outbox.AsNoTracking().Where(m => m.State == DeliveryState.Uncertain || m.State == DeliveryState.Refused)
            .OrderByDescending(m => m.Id).Take(50).Select(MessageRow.Of).ToListAsync();
        Sent = await db.Outbox.AsNoTracking().Where(m => m.State == DeliveryState.Sent).OrderByDescending(m => m.SentAtUtc).Take(15).Select(MessageRow.Of).ToListAsync();
    }

    private async Task ReadAheadAsync(DateOnly today)
    {
        var (first, end) = (today.AddDays(1 - today.Day), today.AddDays(1 - today.Day).AddMonths(24));
        var counts = (await db.Reminders.Where(r => r.State == ReminderState.Planned && r.DueOn >= first && r.DueOn < end)
            .GroupBy(r => new { r.DueOn.Year, r.DueOn.Month, r.RuleCode }).Select(g => new { g.Key, Count = g.Count() }).ToListAsync())
            .ToLookup(c => new DateOnly(c.Key.Year, c.Key.Month, 1));
        Ahead = [.. Enumerable.Range(0, 24).Select(i => new Month(first.AddMonths(i), counts[first.AddMonths(i)].ToDictionary(c => c.Key.RuleCode, c => c.Count, StringComparer.Ordinal)))];
    }

    public async Task<IActionResult> OnPostPlanAsync()
    {
        var round = await PlanReminders.RunAsync(db, Now, days);
        Told = $"Planned {round.Planned}, taken back {round.Replaced}, moved {round.Moved}.";
        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostBelieveAsync()
    {
        await watch.BelieveAsync(db);
        Told = "Noted: the clock is right. Mail goes out again.";
        return RedirectToPage();
    }

    /// <param name="back">The phone list, when it was noted there.</param>
    public async Task<IActionResult> OnPostHandAsync(int id, string? note, string? back)
    {
        Told = await SettleReminders.DoneByHandAsync(db, id, Me, Note(note, "told by hand")) ? "Noted as told." : "This one was settled already.";
        return back == "/follow-up/phone-list" ? LocalRedirect(back) : RedirectToPage();
    }

    /// <summary>What a house owner told: taken over into the records, or only seen.</summary>
    public async Task<IActionResult> OnPostHeardAsync(int id, bool take)
    {
        var house = await db.OwnerWords.Where(w => w.Id == id).Select(w => (int?)w.HouseId).SingleOrDefaultAsync();
        Told = await HearOwner.SettleAsync(db, id, take, Me, Now) ?? (take ? "Taken over." : "Noted as seen.");
        if (take && house is not null) await PlanReminders.RunAsync(db, Now, house, HttpContext.RequestAborted);
        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostDropAsync(int id, string? note)
    {
        Told = await SettleReminders.DropAsync(db, id, Me, Note(note, "dropped")) ? "Dropped." : "This one was settled already.";
        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostMailAsync(int id, string act)
    {
        var done = act switch
        {
            "arrived" => await ResolveMail.ArrivedAsync(db, id, Me, Now),
            "again" => await ResolveMail.SendAgainAsync(db, id, Me, Now),
            "back" => await ResolveMail.CameBackAsync(db, id, Me, Now),
            _ => false,
        };
        Told = done ? "Done." : "This message was settled already.";
        return RedirectToPage();
    }

    private static string Note(string? typed, string fallback)
    {
        var note = (typed ?? "").Trim();
        return note.Length == 0 ? fallback : note[..Math.Min(note.Length, 300)];
    }
}
