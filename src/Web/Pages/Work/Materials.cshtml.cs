using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>The pick list of a job, and what was really used of it. It names no prices.</summary>
public sealed class MaterialsModel(OfficeDb db, UnitChoice units) : PageModel
{
    private const int SpareRows = 3, MostRows = 300;

    public sealed class Row
    {
        public int? Id { get; set; }
        public string? What { get; set; }
        public string? Unit { get; set; }
        public string? Planned { get; set; }
        public string? Used { get; set; }
        public string? TakenOver { get; set; }
        public string? Note { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(What + Unit + Planned + Used + TakenOver + Note);
    }

    [FromRoute]
    public int HouseId { get; set; }

    [FromQuery(Name = "job")]
    public int JobId { get; set; }

    [BindProperty]
    public List<Row> Rows { get; set; } = [];

    /// <summary>How the rows stood when the list was opened.</summary>
    [BindProperty]
    public string? Stamp { get; set; }

    public string JobNumber { get; private set; } = "";
    public IReadOnlyList<MaterialUse> Kept { get; private set; } = [];
    public IEnumerable<(MaterialUse Row, decimal Difference)> Differences => Kept.Where(k => k.Used is not null && k.Used != (k.Planned ?? 0)).Select(k => (k, k.Used!.Value - (k.Planned ?? 0)));

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        Rows = Kept.Count > 0 ? [.. Kept.Select(FormOf)] : [.. await FromDesignAsync()];
        Stamp = StampOf(Kept);
        AddSpareRows();
        return Page();
    }

    public async Task<IActionResult> OnGetCsvAsync() => !await LoadAsync() ? NotFound() : CsvAnswer.Of($"materials-{JobNumber}.csv", ["What", "Unit", "Planned", "Used", "Difference", "Taken over", "Note"],
        Kept.Select(k => (IReadOnlyList<string>)[k.What, k.Unit, TypedNumbers.Plain(k.Planned), TypedNumbers.Plain(k.Used), k.Used is { } used ? TypedNumbers.Plain(used - (k.Planned ?? 0)) : "", TypedNumbers.Plain(k.TakenOver), k.Note]));

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await LoadAsync()) return NotFound();
        if (Rows.Count > MostRows) ModelState.AddModelError("", $"A list has {MostRows} rows at most.");
        var stored = await db.MaterialUses.Where(m => m.JobId == JobId).OrderBy(m => m.Position).ToListAsync();
        if ((Stamp ?? "") != StampOf(stored))
        {
            ModelState.AddModelError("", "Someone else saved this list since you opened it. Your typing is kept below; saving again puts it over theirs.");
            Stamp = StampOf(stored);
            ModelState.Remove(nameof(Stamp));
        }

        for (var i = 0; i < Rows.Count; i++) Write(i, stored);
        AddSpareRows();
        if (!ModelState.IsValid)
        {
            db.ChangeTracker.Clear();
            return Page();
        }

        await db.SaveChangesAsync();
        return RedirectToPage("/Work/Materials", new { HouseId, job = JobId });
    }

    private void Write(int i, List<MaterialUse> stored)
    {
        var (row, read) = (Rows[i], new FormReading(ModelState, $"Rows[{i}]", units.System));
        var use = stored.Find(m => m.Id == row.Id);
        if (row.IsEmpty)
        {
            if (use is not null) db.Remove(use);
            return;
        }

        var what = read.Text(row.What, nameof(Row.What), "material", needed: true, most: 200);
        var (planned, used) = (read.Number(row.Planned, nameof(Row.Planned), "quantity", 0, 100_000), read.Number(row.Used, nameof(Row.Used), "quantity", 0, 100_000));
        var over = read.Number(row.TakenOver, nameof(Row.TakenOver), "quantity", 0, 100_000);
        if (over > (used ?? 0)) read.Refuse(nameof(Row.TakenOver), $"More of {what} was taken over than used; write what was used, the parts taken over among it.");
        if (use is null) db.Add(use = new MaterialUse { JobId = JobId, What = what });
        (use.Position, use.What, use.Unit, use.Planned) = (i + 1, what, read.Text(row.Unit, nameof(Row.Unit), "unit", most: 60), planned);
        (use.Used, use.TakenOver, use.Note) = (used, over, read.Text(row.Note, nameof(Row.Note), "note", most: 300));
    }

    private async Task<IEnumerable<Row>> FromDesignAsync()
    {
        var design = await (from j in db.Jobs
                            where j.Id == JobId
                            join a in db.Acceptances on j.AcceptanceId equals a.Id
                            join d in db.Designs.Include(d => d.Pieces) on a.SuctionDesignId equals d.Id
                            select d).AsNoTracking().AsSingleQuery().FirstOrDefaultAsync();
        if (design is null) return [];
        var fan = await db.Fans.AsNoTracking().FirstOrDefaultAsync(f => f.Id == design.FanId);
        return MaterialList.Of(TakeOff.Of(design.Pieces), fan, Business.Systems.ForeseenSuction.WinterOf(design.ReportJson)).Select(m => new Row { What = m.What, Unit = m.Unit, Planned = TypedNumbers.Plain(m.Quantity) });
    }

    private static Row FormOf(MaterialUse m) => new()
    {
        Id = m.Id, What = m.What, Unit = m.Unit, Planned = TypedNumbers.Plain(m.Planned), Used = TypedNumbers.Plain(m.Used), TakenOver = TypedNumbers.Plain(m.TakenOver), Note = m.Note,
    };

    private static string StampOf(IEnumerable<MaterialUse> rows) => string.Join(' ', rows.OrderBy(r => r.Id).Select(r => $"{r.Id}.{r.Version}"));

    private void AddSpareRows()
    {
        for (var i = Rows.Count(r => r.IsEmpty); i < SpareRows; i++) Rows.Add(new());
    }

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 5) is not { } head) return false;
        if (await db.Jobs.Where(j => j.Id == JobId && j.HouseId == HouseId).Select(j => j.Number).FirstOrDefaultAsync() is not { } number) return false;
        Kept = await db.MaterialUses.AsNoTracking().Where(m => m.JobId == JobId).OrderBy(m => m.Position).ThenBy(m => m.Id).ToListAsync();
        JobNumber = number;
        ViewData["House"] = head with { Revision = number };
        return true;
    }
}
