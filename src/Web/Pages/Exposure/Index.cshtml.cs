using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quality;
using MitigationOffice.Engineering.Radon;
using MitigationOffice.Web.Setup.Forms;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Exposure;

/// <summary>The radon exposure log of one worker: everybody sees their own, the office everybody's.</summary>
public sealed class IndexModel(OfficeDb db, Actor actor, TimeProvider clock) : PageModel
{
    public sealed class Form
    {
        public string? Day { get; set; }
        public string? Where { get; set; }
        public string? PCiL { get; set; }
        public string? Hours { get; set; }
        public string? Ratio { get; set; }
        public string? HowKnown { get; set; }
    }

    public sealed record Worker(int Id, string Name, bool Left, ExposureYear Year);

    [FromRoute(Name = "id")]
    public int? Wanted { get; set; }

    [BindProperty(SupportsGet = true, Name = "house")]
    public int? HouseId { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public int PersonId { get; private set; }
    public ExposureSheet Sheet { get; private set; } = null!;
    public IReadOnlyList<Worker> Workers { get; private set; } = [];
    public int? RefusedLine { get; private set; }

    /// <summary>Where this log stands: one's own without a number.</summary>
    public string Own => Wanted is { } id ? string.Create(CultureInfo.InvariantCulture, $"/exposure/{id}") : "/exposure";
    public bool IsOffice => User.IsInRole("Owner") || User.IsInRole("Office");
    private int Me => int.TryParse(User.FindFirstValue(ClaimTypes.NameIdentifier), CultureInfo.InvariantCulture, out var id) ? id : 0;

    public async Task<IActionResult> OnGetAsync()
    {
        if (await LoadAsync() is { } answer) return answer;
        Input.Day = TypedNumbers.Plain(Sheet.Today);
        if (HouseId is { } house) await TakeHouseAsync(house);
        return Page();
    }

    public async Task<IActionResult> OnGetPdfAsync() =>
        await LoadAsync() is { } answer ? answer : File(ExposurePaper.Make(Sheet), "application/pdf", $"radon-exposure-{PersonId}.pdf");

    public async Task<IActionResult> OnGetCsvAsync()
    {
        if (await LoadAsync() is { } answer) return answer;
        return CsvAnswer.Of($"radon-exposure-{PersonId}.csv", ["Worker", "Day", "Where", "pCi/L", "Hours", "Equilibrium ratio", "WLM", "How known", "Struck out", "Written by"], Sheet.Days.Select(d => (IReadOnlyList<string>)
            [Sheet.Worker, TypedNumbers.Plain(d.Day), d.Where, TypedNumbers.Plain(d.PCiL), TypedNumbers.Plain(d.Hours), TypedNumbers.Plain(d.EquilibriumRatio ?? WorkerExposure.AssumedEquilibriumRatio), d.StruckOut.Length > 0 ? "" : ExposurePaper.Wlm(ExposureSheet.Entry(d).WorkingLevelMonths), d.HowKnown, d.StruckOut, d.WrittenBy]));
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (await LoadAsync() is { } answer) return answer;
        var read = new FormReading(ModelState, nameof(Input), UnitSystem.US);
        var line = new ExposureDay { StaffMemberId = PersonId, WrittenBy = actor.Name, WrittenAtUtc = clock.GetUtcNow().UtcDateTime };
        line.Day = read.Day(Input.Day, nameof(Form.Day), "day", needed: true) ?? default;
        if (line.Day > Sheet.Today) read.Refuse(nameof(Form.Day), "This day is still to come. Write the hours down when they are worked.");
        line.Where = read.Text(Input.Where, nameof(Form.Where), "place", needed: true, most: 200);
        line.PCiL = read.Number(Input.PCiL, nameof(Form.PCiL), "radon in pCi/L", 0m, 100_000m, needed: true) ?? 0;
        line.Hours = read.Number(Input.Hours, nameof(Form.Hours), "number of hours", 0m, 24m, needed: true) ?? 0;
        line.EquilibriumRatio = read.Number(Input.Ratio, nameof(Form.Ratio), "equilibrium ratio", 0m, 1m);
        line.HowKnown = read.Text(Input.HowKnown, nameof(Form.HowKnown), "source of the level", most: 200);
        if (Sheet.Days.Where(d => d.Day == line.Day && d.StruckOut.Length == 0).Sum(d => d.Hours) + line.Hours > 24m) read.Refuse(nameof(Form.Hours), $"With what is written for {HouseTime.Show(line.Day)} already, this day would have more than 24 hours.");
        line.HouseId = HouseId is { } house && await db.Houses.AnyAsync(h => h.Id == house) ? house : null;
        if (!ModelState.IsValid) return Page();
        db.ExposureDays.Add(line);
        await db.SaveChangesAsync();
        return RedirectToPage(null, null, new { id = Wanted }, "log");
    }

    /// <summary>A wrong line is struck out with its reason and stays readable; the log is kept.</summary>
    public async Task<IActionResult> OnPostStrikeAsync(int line, string? why)
    {
        if (await LoadAsync() is { } answer) return answer;
        if (await db.ExposureDays.SingleOrDefaultAsync(d => d.Id == line && d.StaffMemberId == PersonId) is not { } row) return NotFound();
        var said = (why ?? "").Trim();
        RefusedLine = said.Length is 0 or > 200 ? line : null;
        if (RefusedLine is not null) return Page();
        row.StruckOut = said;
        await db.SaveChangesAsync();
        return RedirectToPage(null, null, new { id = Wanted }, "log");
    }

    private async Task TakeHouseAsync(int house)
    {
        var found = await db.Houses.Where(h => h.Id == house).Select(h => new { h.Street, h.City, Before = h.EarlierTests.OrderByDescending(t => t.EndedOn).Select(t => (decimal?)t.PCiL).FirstOrDefault() }).FirstOrDefaultAsync();
        if (found is null) return;
        (Input.Where, Input.PCiL, Input.HowKnown) = ($"{found.Street}, {found.City}", TypedNumbers.Plain(found.Before), found.Before is null ? "" : "radon test before the work");
    }

    private async Task<IActionResult?> LoadAsync()
    {
        PersonId = Wanted ?? Me;
        if (PersonId != Me && !IsOffice) return Forbid();
        var company = await db.Company.Select(c => new { c.Name, c.TimeZone }).SingleAsync();
        var now = clock.GetUtcNow().UtcDateTime;
        var today = HouseTime.DayOf(now, HouseTime.Zone(company.TimeZone));
        var people = await db.Users.Where(u => IsOffice || u.Id == PersonId).OrderBy(u => u.Left).ThenBy(u => u.FullName).Select(u => new { u.Id, u.FullName, u.Left }).ToListAsync();
        if (people.Find(p => p.Id == PersonId) is not { } person) return NotFound();
        var days = await db.ExposureDays.AsNoTracking().Where(d => IsOffice || d.StaffMemberId == PersonId).OrderByDescending(d => d.Day).ThenByDescending(d => d.Id).ToListAsync();
        var byWorker = days.ToLookup(d => d.StaffMemberId);
        Sheet = new ExposureSheet(person.FullName, company.Name, today, now, [.. byWorker[PersonId]]);
        if (IsOffice) Workers = people.ConvertAll(p => new Worker(p.Id, p.FullName, p.Left, new ExposureSheet(p.FullName, company.Name, today, now, [.. byWorker[p.Id]]).Year));
        return null;
    }
}
