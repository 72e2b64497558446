using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages.Returned;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Mail that came back: what was read from the mailbox, and the place to put a returned message in by hand.</summary>
public sealed class ReturnedModel(OfficeDb db, MailboxSettings mailbox, PollReturns poll, TimeProvider clock) : PageModel
{
    public IReadOnlyList<ReturnedMail> Rows { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool HasMailbox => mailbox.IsSet;

    [BindProperty]
    public string? Pasted { get; set; }

    [TempData]
    public string? Told { get; set; }

    public async Task OnGetAsync() => await ReadAsync();

    public async Task<IActionResult> OnPostAsync(IFormFile? file)
    {
        var (raw, reports) = await TypedAsync(file);
        if (ModelState.IsValid && reports.Count == 0)
            ModelState.AddModelError(nameof(Pasted), "This does not look like returned mail: there is no report in it, no code like 5.1.1 and none of our Message-IDs. Paste the whole message with everything below it.");
        if (!ModelState.IsValid)
        {
            await ReadAsync();
            return Page();
        }

        var taken = await TakeReturn.RunAsync(db, raw, reports, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", clock.GetUtcNow().UtcDateTime);
        await SettleReminders.NoteSentAsync(db);
        Told = taken.Count == 0 ? "This report is known already; nothing was changed." : string.Join(' ', taken.Select(ReturnWords.Of));
        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostPollAsync()
    {
        var round = await poll.RunAsync(HttpContext.RequestAborted);
        await SettleReminders.NoteSentAsync(db);
        Told = round.Problem.Length > 0 ? round.Problem : $"Looked at {round.Looked} unread messages; {round.Taken} were reports of returned mail.";
        return RedirectToPage();
    }

    private async Task<(byte[] Raw, IReadOnlyList<ReturnReport> Reports)> TypedAsync(IFormFile? file)
    {
        try
        {
            if (file is { Length: > ReadReturn.LongestBytes }) throw new FormatException("This file is longer than a report of returned mail ever is (2 MB).");
            if (file is { Length: > 0 })
            {
                using var bytes = new MemoryStream();
                await file.CopyToAsync(bytes);
                return (bytes.ToArray(), ReadReturn.Of(bytes.ToArray()));
            }

            if (!string.IsNullOrWhiteSpace(Pasted)) return (System.Text.Encoding.UTF8.GetBytes(Pasted.Trim()), ReadReturn.OfPasted(Pasted));
            ModelState.AddModelError(nameof(Pasted), "Paste the returned message, or choose its file.");
        }
        catch (FormatException e)
        {
            ModelState.AddModelError(nameof(Pasted), e.Message);
        }

        return ([], []);
    }

    private async Task ReadAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Rows = await db.ReturnedMail.AsNoTracking().OrderByDescending(r => r.Id).Take(100).ToListAsync();
    }
}
