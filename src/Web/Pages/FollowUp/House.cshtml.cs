using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Pages.Shared;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Sheet 7: what was said and will be said to the owner of this house, and why.</summary>
public sealed class HouseModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public sealed record Row(int Id, string Rule, string Because, DateOnly DueOn, DateOnly SendOn, ReminderState State, string Note, int? MessageId);

    public IReadOnlyList<Row> Ahead { get; private set; } = [];
    public IReadOnlyList<Row> Past { get; private set; } = [];
    public IReadOnlyList<OwnerWordRow> Heard { get; private set; } = [];
    public IReadOnlyList<HouseChange> Changes { get; private set; } = [];
    public IReadOnlyList<MessageRow> Messages { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public DateOnly Today { get; private set; }

    /// <summary>Building work after which the radon is to be measured again.</summary>
    [BindProperty]
    public string? ChangedOn { get; set; }

    [BindProperty]
    public string? Changed { get; set; }

    [TempData]
    public string? Told { get; set; }

    private string Me => User.FindFirstValue(ClaimTypes.GivenName) ?? User.Identity?.Name ?? "?";

    public Task<IActionResult> OnGetAsync(int houseId) => ShowAsync(houseId);

    /// <summary>Building work is a fact the rules count from.</summary>
    public async Task<IActionResult> OnPostChangeAsync(int houseId)
    {
        if (!await db.Houses.AnyAsync(h => h.Id == houseId)) return NotFound();
        var (day, problem) = TypedNumbers.ReadDay(ChangedOn, "day it was done");
        if (day is null) ModelState.AddModelError(nameof(ChangedOn), problem ?? "Write the day it was done.");
        if (string.IsNullOrWhiteSpace(Changed) || Changed.Trim().Length > 300) ModelState.AddModelError(nameof(Changed), "Write in a few words what was done, for example new furnace.");
        if (!ModelState.IsValid) return await ShowAsync(houseId);
        db.HouseChanges.Add(new HouseChange { HouseId = houseId, OnDay = day!.Value, Words = Changed!.Trim() });
        await db.SaveChangesAsync();
        return await OnPostPlanAsync(houseId);
    }

    private async Task<IActionResult> ShowAsync(int houseId)
    {
        if (await HouseHead.LoadAsync(db, houseId, shown: 7) is not { } head) return NotFound();
        var house = await db.Houses.Where(h => h.Id == houseId).Select(h => h.TimeZone).SingleAsync();
        Zone = HouseTime.Zone(house, await db.Company.Select(c => c.TimeZone).SingleAsync());
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Zone);
        var rows = await db.Reminders.AsNoTracking().Where(r => r.HouseId == houseId).OrderBy(r => r.DueOn).ThenBy(r => r.Id).Select(r => new Row(
            r.Id, db.ReminderRules.Where(x => x.Code == r.RuleCode).Select(x => x.Name).FirstOrDefault() ?? r.RuleCode, r.Because, r.DueOn, r.SendOn, r.State, r.Note, r.OutboxMessageId)).ToListAsync();
        Ahead = [.. rows.Where(IsAhead)];
        Past = [.. rows.Where(r => !IsAhead(r)).Reverse()];
        Heard = await OwnerWordRow.ReadAsync(db, houseId);
        Changes = await db.HouseChanges.AsNoTracking().Where(c => c.HouseId == houseId).OrderByDescending(c => c.OnDay).ToListAsync();
        Messages = await db.Outbox.AsNoTracking().Where(m => m.HouseId == houseId).OrderByDescending(m => m.Id).Take(100).Select(MessageRow.Of).ToListAsync();
        ViewData["House"] = head with { Date = HouseTime.Show(Today) };
        return Page();
    }

    private static bool IsAhead(Row r) => r.State is ReminderState.Planned or ReminderState.Queued or ReminderState.Printed;

    public async Task<IActionResult> OnPostPlanAsync(int houseId)
    {
        if (!await db.Houses.AnyAsync(h => h.Id == houseId)) return NotFound();
        var round = await PlanReminders.RunAsync(db, clock.GetUtcNow().UtcDateTime, houseId, HttpContext.RequestAborted);
        Told = $"Planned {round.Planned}, taken back {round.Replaced}, moved {round.Moved}.";
        return RedirectToPage(new { houseId });
    }

    public Task<IActionResult> OnPostHandAsync(int houseId, int id, string? note) => SettleAsync(houseId, id, note, hand: true);

    public Task<IActionResult> OnPostDropAsync(int houseId, int id, string? note) => SettleAsync(houseId, id, note, hand: false);

    private async Task<IActionResult> SettleAsync(int houseId, int id, string? note, bool hand)
    {
        if (!await db.Reminders.AnyAsync(r => r.Id == id && r.HouseId == houseId)) return NotFound();
        var words = (note ?? "").Trim() is { Length: > 0 } typed ? typed[..Math.Min(typed.Length, 300)] : hand ? "told by hand" : "dropped";
        var done = hand ? await SettleReminders.DoneByHandAsync(db, id, Me, words) : await SettleReminders.DropAsync(db, id, Me, words);
        Told = done ? hand ? "Noted as told." : "Dropped." : "This one was settled already.";
        return RedirectToPage(new { houseId });
    }
}
