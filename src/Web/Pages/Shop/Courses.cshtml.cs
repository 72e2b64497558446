using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>The continuing education of one licence: courses taken, hours still missing.</summary>
[Authorize(SignInSetup.OfficeWork)]
public sealed class CoursesModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public sealed class Form
    {
        public string? Day { get; set; }
        public string? Title { get; set; }
        public string? Hours { get; set; }
    }

    [FromRoute]
    public int Id { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public Licence Licence { get; private set; } = null!;
    public decimal Done => Licence.Courses.Where(c => !c.Used).Sum(c => c.Hours);
    public decimal? Missing => Licence.EducationMinutesNeeded is { } needed ? Math.Max(0, needed / 60m - Done) : null;

    public async Task<IActionResult> OnGetAsync() => await LoadAsync() ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var read = new FormReading(ModelState, nameof(Input), UnitSystem.US);
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        var course = new EducationCourse
        {
            LicenceId = Id, Day = read.Day(Input.Day, nameof(Form.Day), "day of the course", needed: true) ?? default, Title = read.Text(Input.Title, nameof(Form.Title), "name of the course", needed: true, most: 200),
            Minutes = (int)Math.Round((read.Number(Input.Hours, nameof(Form.Hours), "number of hours", 0.25m, 200m, needed: true) ?? 0) * 60m, 0, MidpointRounding.AwayFromZero),
        };
        if (course.Day > today) read.Refuse(nameof(Form.Day), "This course is still to come. Write it down when it was taken.");
        if (!ModelState.IsValid) return Page();
        db.Add(course);
        await db.SaveChangesAsync();
        return RedirectToPage(new { Id });
    }

    /// <summary>Counts a course for the term that ended, or again for the one that runs.</summary>
    public async Task<IActionResult> OnPostTurnAsync(int course)
    {
        if (await db.Set<EducationCourse>().SingleOrDefaultAsync(c => c.Id == course && c.LicenceId == Id) is not { } row) return NotFound();
        row.Used = !row.Used;
        await db.SaveChangesAsync();
        return RedirectToPage(new { Id });
    }

    private async Task<bool> LoadAsync()
    {
        var found = await db.Licences.AsNoTracking().Include(l => l.Courses).FirstOrDefaultAsync(l => l.Id == Id);
        if (found is not null) Licence = found;
        return found is not null;
    }
}
