using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Houses;

public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    private static readonly string[] Columns = ["Address", "City", "County", "State", "ZIP", "Owner", "Phone", "Asked on", "Radon before (pCi/L)", "Tag", "Stage"];

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Stage { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Sort { get; set; }

    [BindProperty(SupportsGet = true, Name = "part")]
    public string? AskedPart { get; set; }

    public int Count { get; private set; }
    public int PageNumber { get; private set; } = 1;
    public int Pages => Math.Max(1, (Count + HouseList.PageSize - 1) / HouseList.PageSize);
    public IReadOnlyList<StagedHouse> Rows { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    /// <summary>A list of everybody's phone is no part of the crew's work; the sheet of a house has its own.</summary>
    public bool SeesPhones => MayAdd;
    public bool MayAdd => User.IsInRole("Owner") || User.IsInRole("Office");
    public bool IsFiltered => !string.IsNullOrWhiteSpace(Find) || Wanted is not null;
    private HouseStage? Wanted => Enum.TryParse<HouseStage>(Stage, out var stage) && Enum.IsDefined(stage) ? stage : null;

    public async Task<IActionResult> OnGetAsync()
    {
        if (Wanted is null && await HouseList.TaggedAsync(db, Find) is { } houseId) return RedirectToPage("/Houses/Go", new { houseId });
        var houses = await AskedAsync();
        Count = await houses.CountAsync();
        PageNumber = int.TryParse(AskedPart, NumberStyles.None, CultureInfo.InvariantCulture, out var page) ? Math.Clamp(page, 1, Pages) : 1;
        Rows = await houses.Skip((PageNumber - 1) * HouseList.PageSize).Take(HouseList.PageSize).ToListAsync();
        return Page();
    }

    public async Task<IActionResult> OnGetFileAsync()
    {
        var rows = await (await AskedAsync()).ToListAsync();
        return File(Csv.WriteForPeople(Columns, rows.Select(Cells)), "text/csv; charset=utf-8", "houses.csv");
    }

    /// <summary>The same list on another page, or in another form.</summary>
    public string Link(int page, string? handler = null) => Url.Page(
        "/Houses/Index", handler, new { find = Find, stage = Stage, sort = Sort, part = page > 1 ? page : (int?)null }) ?? "/houses";

    private async Task<IQueryable<StagedHouse>> AskedAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        return HouseList.Asked(db, HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Zone), Find, Wanted, Sort);
    }

    private IReadOnlyList<string> Cells(StagedHouse h) =>
    [
        h.Street + (h.Street2.Length == 0 ? "" : ", " + h.Street2), h.City, h.County, h.State, h.Zip, h.Owner ?? "", SeesPhones ? h.Phone ?? "" : "",
        TypedNumbers.Plain(HouseTime.DayOf(h.AskedAtUtc, Zone)), TypedNumbers.Plain(h.FirstPCiL), h.Tag ?? "", h.Stage.Words(),
    ];
}
