using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Pictures;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Papers;

[RequestSizeLimit(LargestRequest)]
[RequestFormLimits(MultipartBodyLengthLimit = LargestRequest)]
public sealed class IndexModel(OfficeDb db, TimeProvider clock, Actor actor, UnitChoice units) : PageModel
{
    /// <summary>More than a file may have, so that one somewhat too large is refused in words.</summary>
    private const int LargestRequest = 4 * ReceivedFile.MostBytes;

    public sealed record Paper(int Id, string Title, string FileName, PaperKind Kind, string ContentType, DateTime AtUtc, string By, int Bytes, string Sha256)
    {
        public bool MayShow => ContentType is "application/pdf" or "image/png" or "image/jpeg";
    }

    public sealed class Form
    {
        public string? Title { get; set; }
    }

    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    [BindProperty]
    public IFormFile? Upload { get; set; }

    [BindProperty(SupportsGet = true, Name = "before")]
    public string? Before { get; set; }

    public IReadOnlyList<Paper> Papers { get; private set; } = [];
    public HouseHistory.Part? History { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    public Task<IActionResult> OnGetAsync() => ShowAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await db.Houses.AnyAsync(h => h.Id == HouseId)) return NotFound();
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var title = read.Text(Input.Title, nameof(Form.Title), "title", most: 200);
        if (Upload is null) ModelState.AddModelError(nameof(Upload), "Choose a file first.");
        else if (await ReadUploadAsync(title) is { } paper && ModelState.IsValid)
        {
            db.Documents.Add(paper);
            await db.SaveChangesAsync();
            return RedirectToPage(null, null, new { houseId = HouseId }, "papers");
        }

        return await ShowAsync();
    }

    private async Task<StoredDocument?> ReadUploadAsync(string title)
    {
        var bytes = Upload!.Length > CleanPicture.MostBytes ? new byte[CleanPicture.MostBytes + 1] : await BytesAsync(Upload);
        var file = ReceivedFile.Of(bytes, Upload.FileName);
        if (file.IsPicture)
        {
            var clean = CleanPicture.Of(bytes);
            (bytes, file) = (clean.Bytes, new ReceivedFile(clean.ContentType, ReceivedFile.SafeName(Upload.FileName, clean.ContentType == "image/png" ? ".png" : ".jpg"), clean.Problem));
        }

        if (file.Problem is { } problem) ModelState.AddModelError(nameof(Upload), problem);
        var kind = file.IsPicture ? PaperKind.Photo : PaperKind.Attachment;
        return file.Problem is not null ? null : StoredDocument.Of(
            bytes, kind, title.Length > 0 ? title : Path.GetFileNameWithoutExtension(file.FileName), file.FileName, file.ContentType, HouseId, clock.GetUtcNow().UtcDateTime, actor.Name);
    }

    private static async Task<byte[]> BytesAsync(IFormFile file)
    {
        using var copy = new MemoryStream();
        await file.CopyToAsync(copy);
        return copy.ToArray();
    }

    private async Task<IActionResult> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 8) is not { } head) return NotFound();
        ViewData["House"] = head;
        var zones = await db.Houses.Where(h => h.Id == HouseId).Select(h => new { House = h.TimeZone, Company = db.Company.OrderBy(c => c.Id).Select(c => c.TimeZone).First() }).SingleAsync();
        Zone = HouseTime.Zone(zones.House, zones.Company);
        Papers = await db.Documents.AsNoTracking().Where(d => d.HouseId == HouseId).For(User).OrderBy(d => d.StoredAtUtc).ThenBy(d => d.Id)
            .Select(d => new Paper(d.Id, d.Title, d.FileName, d.Kind, d.ContentType, d.StoredAtUtc, d.StoredBy, d.SizeBytes, d.Sha256)).ToListAsync();
        var before = long.TryParse(Before, NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : long.MaxValue;
        if (User.SeesPrices()) History = await HouseHistory.ReadAsync(db, HouseId, before, Zone, units.System);
        return Page();
    }
}
