using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Pictures;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Pages.Papers;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>The picture under the floor plan: choosing it, giving it a scale and a place, taking it away.</summary>
[RequestSizeLimit(LargestRequest)]
[RequestFormLimits(MultipartBodyLengthLimit = LargestRequest)]
public sealed class BackdropModel(OfficeDb db, UnitChoice units, TimeProvider clock, Actor actor) : PageModel
{
    /// <summary>More than a picture may have, so that one somewhat too large is refused in words.</summary>
    private const int LargestRequest = 2 * CleanPicture.MostBytes;

    /// <summary>Enough to read a dimension on a scanned plan, little enough for a tablet on a slow line.</summary>
    private const int LongestSidePx = 1600;

    [BindProperty(SupportsGet = true)]
    public int HouseId { get; set; }

    [BindProperty]
    public BackdropForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty]
    public IFormFile? Upload { get; set; }

    public PlanBackdrop? Backdrop { get; private set; }

    /// <summary>Pictures among the house's papers that could lie under the plan.</summary>
    public IReadOnlyList<(int Id, string Title)> Photos { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync()
    {
        await FindAsync();
        if (Backdrop is not null) (Input, Version) = (BackdropForm.Of(Backdrop, units.System), Backdrop.Version);
        return await ShowAsync();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        await FindAsync();
        if (Backdrop is null) return NotFound();
        Input.Write(Backdrop, new FormReading(ModelState, nameof(Input), units.System), units.System);
        if (!ModelState.IsValid) return await ShowAsync();
        db.Expect(Backdrop, Version);
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, AfreshAsync, v => Version = v) ? LocalRedirect(Address("plan")) : await ShowAsync();
    }

    public async Task<IActionResult> OnPostTakeAsync(int? photo)
    {
        if (!await db.Houses.AnyAsync(h => h.Id == HouseId)) return NotFound();
        await FindAsync();
        var bytes = Upload is not null ? await BytesAsync(Upload) : photo is { } id ? await db.Documents.Where(d => d.Id == id && d.HouseId == HouseId).For(User).Select(d => d.Bytes).FirstOrDefaultAsync() : null;
        if (bytes is null) return await RefusedAsync(nameof(Upload), "Choose a file, or one of the pictures among the papers.");
        var clean = CleanPicture.Of(bytes, LongestSidePx);
        if (clean.Problem is { } problem) return await RefusedAsync(nameof(Upload), problem);
        var document = StoredDocument.Of(clean.Bytes, PaperKind.PlanPicture, "Picture under the floor plan", ReceivedFile.SafeName(Upload?.FileName ?? "plan", clean.ContentType == "image/png" ? ".png" : ".jpg"),
            clean.ContentType, HouseId, clock.GetUtcNow().UtcDateTime, actor.Name);
        await LayAsync(document, clean);
        return LocalRedirect(Address("plan/picture"));
    }

    public async Task<IActionResult> OnPostAwayAsync()
    {
        await FindAsync();
        if (Backdrop is not null) db.Remove(Backdrop);
        await db.SaveChangesAsync();
        return LocalRedirect(Address("plan"));
    }

    public string Address(string sheet) => string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/{sheet}");

    /// <summary>A picture of the same size in pixels lies as the one before; any other waits for its scale.</summary>
    private Task LayAsync(StoredDocument document, CleanedPicture clean) => db.WriteAsync(async () =>
    {
        db.Documents.Add(document);
        await db.SaveChangesAsync();
        if (Backdrop is null) db.Backdrops.Add(Backdrop = new PlanBackdrop { HouseId = HouseId });
        Backdrop.DocumentId = document.Id;
        if ((Backdrop.WidthPx, Backdrop.HeightPx) != (clean.WidthPx, clean.HeightPx))
        {
            (Backdrop.WidthPx, Backdrop.HeightPx, Backdrop.LengthM, Backdrop.AtXM, Backdrop.AtYM) = (clean.WidthPx, clean.HeightPx, null, 0, 0);
            (Backdrop.FromXPx, Backdrop.FromYPx, Backdrop.ToXPx, Backdrop.ToYPx) = (0, clean.HeightPx, clean.WidthPx, clean.HeightPx);
        }

        await db.SaveChangesAsync();
    });

    private static async Task<byte[]> BytesAsync(IFormFile file)
    {
        if (file.Length > CleanPicture.MostBytes) return new byte[CleanPicture.MostBytes + 1];
        using var copy = new MemoryStream((int)file.Length);
        await file.CopyToAsync(copy);
        return copy.ToArray();
    }

    private async Task<IActionResult> RefusedAsync(string field, string words)
    {
        ModelState.Clear();
        ModelState.AddModelError(field, words);
        if (Backdrop is not null) (Input, Version) = (BackdropForm.Of(Backdrop, units.System), Backdrop.Version);
        return await ShowAsync();
    }

    private async Task FindAsync() => Backdrop = await db.Backdrops.AsTracking().FirstOrDefaultAsync(b => b.HouseId == HouseId);

    private async Task<(BackdropForm, int)> AfreshAsync()
    {
        await FindAsync();
        return Backdrop is null ? (new(), 0) : (BackdropForm.Of(Backdrop, units.System), Backdrop.Version);
    }

    private async Task<IActionResult> ShowAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 2) is not { } head) return NotFound();
        (ViewData["House"], ViewData["Title"]) = (head, $"Picture under the plan, {head.Address}");
        Photos = [.. (await db.Documents.AsNoTracking().Where(d => d.HouseId == HouseId && (d.Kind == PaperKind.Photo || d.Kind == PaperKind.PlanPicture)).For(User).OrderByDescending(d => d.Id)
            .Select(d => new { d.Id, d.Title, d.FileName }).Take(50).ToListAsync()).Where(d => d.Id != Backdrop?.DocumentId).Select(d => (d.Id, $"{d.Title} ({d.FileName})"))];
        return Page();
    }
}
