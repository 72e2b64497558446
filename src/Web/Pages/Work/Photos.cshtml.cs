using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>The photos of a job: taken in, captioned, chosen for the packet, taken off.</summary>
[RequestSizeLimit(LargestRequest)]
[RequestFormLimits(MultipartBodyLengthLimit = LargestRequest)]
public sealed class PhotosModel(OfficeDb db, UnitChoice units, TimeProvider clock, Actor actor) : PageModel
{
    /// <summary>More than one sending may have, so that a photo too large is refused in words.</summary>
    private const int LargestRequest = (TakePhotos.MostAtOnce + 4) * TakePhotos.MostBytes;

    /// <summary>A photo's line as it came back.</summary>
    public sealed class Row
    {
        public int Id { get; set; }
        public string? CaptionWas { get; set; }
        public string? Caption { get; set; }
        public bool InPacketWas { get; set; }
        public bool InPacket { get; set; }
        public bool TakeOff { get; set; }
    }

    public sealed class Form
    {
        /// <summary>Under each photo of this sending.</summary>
        public string? Caption { get; set; }
    }

    [FromRoute]
    public int HouseId { get; set; }

    [FromQuery(Name = "job")]
    public int JobId { get; set; }

    [BindProperty]
    public List<Row> Rows { get; set; } = [];

    [BindProperty]
    public List<IFormFile> Upload { get; set; } = [];

    [BindProperty]
    public Form Input { get; set; } = new();

    private readonly List<string> _saved = [];

    /// <summary>What of a sending that was refused in part is on record now.</summary>
    public IReadOnlyList<string> Saved => _saved;

    public Job Job { get; private set; } = null!;
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public IReadOnlyList<PhotoRow> Photos { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync() => await ShowAsync() ?? Page();

    /// <summary>A small picture for the sheet; it never changes under its address.</summary>
    public async Task<IActionResult> OnGetSmallAsync(int photo)
    {
        if (await db.JobPhotos.Where(p => p.Id == photo && p.HouseId == HouseId).Select(p => p.Small).FirstOrDefaultAsync() is not { } small) return NotFound();
        Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        return File(small, Business.Documents.ReceivedFile.Picture(small) ?? "application/octet-stream");
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (await ShowAsync() is { } missing) return missing;
        var changes = Rows.Select((r, i) => new CaptionPhotos.Change(
            r.Id, r.CaptionWas ?? "", Words(r.Caption, $"Rows[{i}]"), r.InPacketWas, r.InPacket, r.TakeOff)).ToList();
        var caption = Words(Input.Caption, nameof(Input));
        if (!ModelState.IsValid) return Page();
        var refused = await CaptionPhotos.RunAsync(db, JobId, changes);
        foreach (var (photo, words) in refused)
        {
            var at = Rows.FindIndex(r => r.Id == photo);
            ModelState.AddModelError(at < 0 ? "" : $"Rows[{at}].Caption", words);
            if (at >= 0) Overtaken(at);
        }

        var taken = await TakePhotos.RunAsync(db, Job, [.. Upload.Select(f => new TakePhotos.Sent(f.FileName, f.Length, () => BytesAsync(f)))], caption, clock.GetUtcNow().UtcDateTime, actor.Name);
        foreach (var words in taken.Refused) ModelState.AddModelError(nameof(Upload), words);
        if (taken.Saved.Count > 0) _saved.Add($"Saved: {string.Join(", ", taken.Saved)}{(caption.Length > 0 ? $", as “{caption}”" : "")}.");
        if (refused.Count == 0 && changes.Any(IsChange)) _saved.Add("Saved: what you wrote and ticked at the photos below.");
        if (ModelState.IsValid) return RedirectToPage("/Work/Photos", null, new { HouseId, job = JobId }, "photos");
        return await ShowAsync() ?? Page();
    }

    private static bool IsChange(CaptionPhotos.Change c) => c.TakenOff || c.Caption != c.CaptionWas || c.InPacket != c.InPacketWas;

    private string Words(string? typed, string prefix) => new FormReading(ModelState, prefix, units.System).Text(typed, nameof(Row.Caption), "caption", most: TakePhotos.CaptionLength);

    /// <summary>What was typed stands; the line now knows what the other wrote.</summary>
    private void Overtaken(int at)
    {
        Rows[at].CaptionWas = Photos.First(p => p.Id == Rows[at].Id).Caption;
        ModelState.Remove($"Rows[{at}].CaptionWas");
    }

    /// <summary>What to show of a photo: as it was typed where the form came back, else as it is on record.</summary>
    public Row Typed(PhotoRow photo) => Rows.Find(r => r.Id == photo.Id) ?? new Row { Id = photo.Id, CaptionWas = photo.Caption, Caption = photo.Caption, InPacketWas = photo.InPacket, InPacket = photo.InPacket };

    private static async Task<byte[]> BytesAsync(IFormFile file)
    {
        using var copy = new MemoryStream((int)file.Length);
        await file.CopyToAsync(copy);
        return copy.ToArray();
    }

    private async Task<IActionResult?> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 5) is not { } head) return NotFound();
        if (await db.Jobs.AsNoTracking().FirstOrDefaultAsync(j => j.Id == JobId && j.HouseId == HouseId) is not { } job) return NotFound();
        (Job, Photos, Zone) = (job, await PhotoRow.OfJobAsync(db, JobId), await HouseZone.OfAsync(db, HouseId));
        (ViewData["House"], ViewData["Title"]) = (head with { Revision = job.Number }, $"Photos of {job.Number}, {head.Address}");
        return null;
    }
}
