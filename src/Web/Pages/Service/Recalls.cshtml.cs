using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Service;

/// <summary>Fan recalls, and a new one.</summary>
public sealed class RecallsModel(OfficeDb db, UnitChoice units, TimeProvider clock, Actor actor) : PageModel
{
    public sealed class Form
    {
        public string? Model { get; set; }
        public string? SerialFrom { get; set; }
        public string? SerialTo { get; set; }
        public string? Reason { get; set; }
        public string? Advice { get; set; } = "Leave the fan running and keep away from it, unless it smells of burning or makes an unusual noise; then switch it off at its breaker and call us.";
    }

    public sealed record Row(int Id, string Model, DateTime OpenedAtUtc, bool Closed, int Written);

    [BindProperty]
    public Form Input { get; set; } = new();

    public IReadOnlyList<Row> Recalls { get; private set; } = [];
    public IReadOnlyList<string> Models { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    public Task OnGetAsync() => LoadAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        await LoadAsync();
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var recall = new FanRecall
        {
            Model = read.Text(Input.Model, nameof(Input.Model), "fan's model", needed: true, most: 100), Reason = read.Text(Input.Reason, nameof(Input.Reason), "reason", needed: true, most: 2000),
            Advice = read.Text(Input.Advice, nameof(Input.Advice), "advice", needed: true, most: 2000), SerialFrom = read.Text(Input.SerialFrom, nameof(Input.SerialFrom), "first serial number", most: 60),
            SerialTo = read.Text(Input.SerialTo, nameof(Input.SerialTo), "last serial number", most: 60), OpenedAtUtc = clock.GetUtcNow().UtcDateTime, OpenedBy = actor.Name,
        };
        if (recall.Model.Length > 0 && !Models.Contains(recall.Model)) read.Refuse(nameof(Input.Model), $"No fan {recall.Model} was ever fitted. Choose one of those that were.");
        if (recall is { SerialFrom.Length: > 0, SerialTo.Length: > 0 } && RecallList.Compare(recall.SerialFrom, recall.SerialTo) > 0) read.Refuse(nameof(Input.SerialTo), "The last serial number comes before the first.");
        if (!ModelState.IsValid) return Page();
        db.FanRecalls.Add(recall);
        await db.SaveChangesAsync();
        return RedirectToPage("/Service/Recall", new { recallId = recall.Id });
    }

    private async Task LoadAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Recalls = await db.FanRecalls.AsNoTracking().OrderByDescending(r => r.Id).Select(r => new Row(r.Id, r.Model, r.OpenedAtUtc, r.ClosedAtUtc != null, db.RecallNotices.Count(n => n.FanRecallId == r.Id))).ToListAsync();
        Models = await db.Systems.SelectMany(s => s.Components).Where(c => c.Kind == ComponentKind.Fan).Select(c => c.Model).Distinct().OrderBy(m => m).ToListAsync();
    }
}
