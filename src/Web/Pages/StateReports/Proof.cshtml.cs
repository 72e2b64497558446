using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>The account of a profile's reports: anyone can follow where each system stands.</summary>
public sealed class ProofModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public const int MostPlaces = 100;

    public ReportProof Proof { get; private set; } = null!;

    /// <summary>The systems shown, of one period or of all.</summary>
    public IReadOnlyList<SystemPlace> Places { get; private set; } = [];

    [BindProperty(SupportsGet = true)]
    public string? Show { get; set; }

    [BindProperty(SupportsGet = true)]
    public int From { get; set; } = 1;

    [BindProperty]
    public int SystemId { get; set; }

    [BindProperty]
    public string? Reason { get; set; }

    public async Task<IActionResult> OnGetAsync(string profile) => await ReadAsync(profile) ? Page() : NotFound();

    public async Task<IActionResult> OnGetCsvAsync(string profile)
    {
        if (!await ReadAsync(profile)) return NotFound();
        return File(Csv.WriteForPeople(["Tag", "What", "Day", "Where it stands"], Places.Select(p => (IReadOnlyList<string>)
            [p.System.Tag, p.Occurrence?.Key ?? "", TypedNumbers.Plain(p.Occurrence?.Day), Proof.Words(p)])), "text/csv; charset=utf-8", $"proof-{profile}.csv");
    }

    public async Task<IActionResult> OnPostLeaveOutAsync(string profile)
    {
        var reason = (Reason ?? "").Trim().Replace("\0", "", StringComparison.Ordinal);
        if (reason.Length > 300) ModelState.AddModelError("", "Write the reason in 300 characters or fewer.");
        else if (await LeaveOut.RunAsync(db, profile, SystemId, reason, By, clock.GetUtcNow().UtcDateTime) is { } why) ModelState.AddModelError("", why);
        if (ModelState.IsValid) return RedirectToPage(new { profile, Show, From });
        db.ChangeTracker.Clear();
        return await ReadAsync(profile) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostTakeBackAsync(string profile)
    {
        await LeaveOut.TakeBackAsync(db, profile, SystemId, By, clock.GetUtcNow().UtcDateTime);
        return RedirectToPage(new { profile, Show, From });
    }

    private string By => User.FindFirstValue(ClaimTypes.GivenName) ?? "?";

    private async Task<bool> ReadAsync(string profile)
    {
        if (await ReportHead.ReadAsync(db, profile) is not { } head || !head.Profile.Reports) return false;
        Proof = await ProveReports.RunAsync(db, head, clock.GetUtcNow().UtcDateTime);
        Places = Show switch
        {
            null or "" => Proof.Plan.Places,
            "open" => [.. Proof.Plan.Places.Where(p => p.Kind == PlaceKind.Open)],
            "left-out" => [.. Proof.Plan.Places.Where(p => p.Kind is PlaceKind.LeftOut or PlaceKind.Withdrawn)],
            "amended" => [.. Proof.Plan.Places.Where(p => p is { Kind: PlaceKind.Reported, Told.Count: > 1 })],
            var name => [.. Proof.Plan.Places.Where(p => (ProveReports.PeriodOf(head, Proof.Plan.Period, Proof.StartsOn, p)?.Name ?? "before") == name)],
        };
        From = Math.Max(1, From);
        return true;
    }
}
