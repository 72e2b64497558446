using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Shop;

public sealed class LicencesModel(OfficeDb db) : PageModel
{
    public sealed class Row
    {
        public int Id { get; set; }
        public int Version { get; set; }
        public string? Holder { get; set; }
        public string? Number { get; set; }
        public string? IssuedBy { get; set; }
        public string? ExpiresOn { get; set; }
        public string? HoursNeeded { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(Holder + Number + IssuedBy + ExpiresOn + HoursNeeded);
    }

    [BindProperty]
    public List<Row> Rows { get; set; } = [];

    public async Task OnGetAsync()
    {
        Rows = await db.Licences.AsNoTracking().OrderBy(l => l.Holder).ThenBy(l => l.Number)
            .Select(l => new Row { Id = l.Id, Version = l.Version, Holder = l.Holder, Number = l.Number, IssuedBy = l.IssuedBy, ExpiresOn = l.ExpiresOn == null ? "" : Plain(l.ExpiresOn), HoursNeeded = Plain(l.EducationMinutesNeeded / 60m) })
            .ToListAsync();
        Rows.AddRange([new Row(), new Row()]);
        await CountAsync();
    }

    private Dictionary<int, decimal> _done = [];

    /// <summary>Hours of courses that count for the term that runs.</summary>
    public string Done(int licenceId) => Plain(_done.GetValueOrDefault(licenceId));

    private async Task CountAsync() => _done = (await db.Licences.AsNoTracking().SelectMany(l => l.Courses).Where(c => !c.Used).Select(c => new { c.LicenceId, c.Minutes }).ToListAsync())
        .GroupBy(c => c.LicenceId).ToDictionary(g => g.Key, g => g.Sum(c => c.Minutes) / 60m);

    public async Task<IActionResult> OnPostAsync()
    {
        var known = await db.Licences.ToDictionaryAsync(l => l.Id);
        for (var i = 0; i < Rows.Count; i++) Write(Rows[i], new FormReading(ModelState, $"Rows[{i}]", UnitSystem.US), known);
        await CountAsync();
        if (!ModelState.IsValid) return Page();
        try
        {
            await db.SaveChangesAsync();
            return RedirectToPage();
        }
        catch (DbUpdateConcurrencyException)
        {
            ModelState.AddModelError("", "Someone else changed these licences since you opened them. Your rows are kept here; open the page in a second tab to see theirs, then save again.");
            foreach (var row in Rows.Where(r => r.Id != 0))
                row.Version = await db.Licences.AsNoTracking().Where(l => l.Id == row.Id).Select(l => l.Version).FirstOrDefaultAsync();
            return Page();
        }
    }

    private void Write(Row row, FormReading read, Dictionary<int, Licence> known)
    {
        var licence = known.GetValueOrDefault(row.Id);
        if (row.IsEmpty)
        {
            if (licence is not null) db.Remove(licence);
            return;
        }

        var holder = read.Text(row.Holder, nameof(Row.Holder), "holder", needed: true, most: 120);
        var number = read.Text(row.Number, nameof(Row.Number), "number", needed: true, most: 60);
        var issuer = read.Text(row.IssuedBy, nameof(Row.IssuedBy), "issuer", needed: true, most: 120);
        var expires = read.Day(row.ExpiresOn, nameof(Row.ExpiresOn), "day it runs out");
        var hours = read.Number(row.HoursNeeded, nameof(Row.HoursNeeded), "hours of education", 0m, 500m);
        if (licence is null) db.Add(licence = new Licence { Holder = holder, Number = number, IssuedBy = issuer });
        else db.Expect(licence, row.Version);
        (licence.Holder, licence.Number, licence.IssuedBy, licence.ExpiresOn) = (holder, number, issuer, expires);
        licence.EducationMinutesNeeded = hours is { } h ? (int)Math.Round(h * 60m, 0, MidpointRounding.AwayFromZero) : null;
    }
}
