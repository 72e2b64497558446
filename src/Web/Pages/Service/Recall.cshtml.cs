using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Service;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Service;

/// <summary>One recall: its houses, the letters.</summary>
public sealed class RecallModel(OfficeDb db, TimeProvider clock, MailSettings mail, Actor actor) : PageModel
{
    [FromRoute]
    public int RecallId { get; set; }

    public FanRecall Recall { get; private set; } = null!;
    public IReadOnlyList<RecallList.Row> Rows { get; private set; } = [];
    public string Sample { get; private set; } = "";
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public int ByMail => Rows.Count(r => r.WrittenAtUtc is null && MailAddress.IsUsable(r.Email));
    public int OnPaper => Rows.Count(r => r.WrittenAtUtc is null && !MailAddress.IsUsable(r.Email));

    public async Task<IActionResult> OnGetAsync() => await LoadAsync() ? Page() : NotFound();

    public async Task<IActionResult> OnGetCsvAsync() => !await LoadAsync() ? NotFound() : CsvAnswer.Of($"recall-{RecallId}.csv",
        ["House", "City", "State", "ZIP", "For", "E-mail", "Phone", "Tag", "Serial", "Fitted", "Written to"],
        Rows.Select(r => (IReadOnlyList<string>)[r.House, r.City, r.State, r.Zip, r.For, r.Email, r.Phone, r.Tag, r.Serial, TypedNumbers.Plain(r.FittedOn), r.WrittenAtUtc is { } at ? TypedNumbers.Plain(HouseTime.DayOf(at, Zone)) : ""]));

    public async Task<IActionResult> OnPostWriteAsync()
    {
        if (!await LoadAsync()) return NotFound();
        await WriteToRecalled.RunAsync(db, RecallId, mail, clock.GetUtcNow().UtcDateTime, actor.Name);
        return RedirectToPage("/Service/Recall", new { RecallId });
    }

    public async Task<IActionResult> OnPostCloseAsync()
    {
        if (await db.FanRecalls.FirstOrDefaultAsync(r => r.Id == RecallId) is not { } recall) return NotFound();
        recall.ClosedAtUtc = recall.ClosedAtUtc is null ? clock.GetUtcNow().UtcDateTime : null;
        await db.SaveChangesAsync();
        return RedirectToPage("/Service/Recall", new { RecallId });
    }

    private async Task<bool> LoadAsync()
    {
        if (await db.FanRecalls.AsNoTracking().FirstOrDefaultAsync(r => r.Id == RecallId) is not { } recall) return false;
        var company = await db.Company.AsNoTracking().SingleAsync();
        (Recall, Zone, Rows) = (recall, HouseTime.Zone(company.TimeZone), await RecallList.ReadAsync(db, recall));
        if (Rows.Count > 0) Sample = RecallLetter.Words(recall, Rows[0], company);
        return true;
    }
}
