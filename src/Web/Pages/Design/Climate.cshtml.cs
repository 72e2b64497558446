using System.Text;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Freezing.Weather;
using MitigationOffice.Web.Pages.Shared;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>Reads the daily record of a weather station for a house. A refused file changes nothing and stays in the form.</summary>
[RequestSizeLimit(20_000_000)]
[RequestFormLimits(MultipartBodyLengthLimit = 20_000_000, ValueLengthLimit = 20_000_000)]
public sealed class ClimateModel(OfficeDb db, Actor actor, TimeProvider clock) : PageModel
{
    /// <summary>Longer texts are not sent back into the form: the file is still where it came from.</summary>
    public const int MostKept = 2_000_000;

    public static readonly IReadOnlyList<(string Value, string Words)> Known = [.. Enum.GetValues<RecordUnit>().Select(u => (u.ToString(), TakeClimate.WordsOf(u)))];

    [BindProperty(SupportsGet = true)]
    public int HouseId { get; set; }

    [BindProperty]
    public string? Station { get; set; }

    [BindProperty]
    public RecordUnit Unit { get; set; }

    [BindProperty]
    public string? Text { get; set; }
    public string? Refusal { get; private set; }
    public HouseClimate? Stored { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await ShowAsync()) return NotFound();
        Station = Stored?.Station;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(IFormFile? upload)
    {
        if (!await ShowAsync()) return NotFound();
        var name = "pasted lines";
        if (upload is { Length: > 0 }) (Text, name) = (await ReadAsync(upload), Path.GetFileName(upload.FileName));
        ModelState.Remove(nameof(Text));
        var (record, refusal) = TakeClimate.Read(Text, Unit);
        Refusal = Station is { Length: > 200 } ? "Shorten the station’s name to 200 letters." : refusal;
        if (Refusal is not null || record is null) return Page();
        await TakeClimate.StoreAsync(db, HouseId, record, Station?.Trim() ?? "", name.Length > 200 ? name[..200] : name, Unit, clock.GetUtcNow().UtcDateTime, actor.Name);
        await RecomputeAsync();
        return LocalRedirect($"/houses/{HouseId}/design/climate");
    }

    /// <summary>Sets the record aside for the made-up winter, or takes it up again.</summary>
    public async Task<IActionResult> OnPostAsideAsync(bool aside)
    {
        if (await db.Climates.AsTracking().FirstOrDefaultAsync(c => c.HouseId == HouseId) is not { } row) return NotFound();
        row.SetAside = aside;
        await db.SaveChangesAsync();
        await RecomputeAsync();
        return LocalRedirect($"/houses/{HouseId}/design/climate");
    }

    /// <summary>The latest design takes the new weather at once, unless it went out with a quote.</summary>
    private async Task RecomputeAsync()
    {
        var latest = await db.Designs.AsTracking().WithRoute().Where(d => d.HouseId == HouseId).OrderByDescending(d => d.Revision.Length).ThenByDescending(d => d.Revision).FirstOrDefaultAsync();
        if (latest is not null) await ComputeDesign.StoreAsync(db, latest, clock);
    }

    private async Task<bool> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 3) is not { } head) return false;
        ViewData["House"] = head;
        Stored = await db.Climates.AsNoTracking().FirstOrDefaultAsync(c => c.HouseId == HouseId);
        return true;
    }

    private static async Task<string> ReadAsync(IFormFile upload)
    {
        using var reader = new StreamReader(upload.OpenReadStream(), Encoding.UTF8, detectEncodingFromByteOrderMarks: true);
        return await reader.ReadToEndAsync();
    }
}
