using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>The vehicles that can be booked.</summary>
public sealed class VehiclesModel(OfficeDb db) : PageModel
{
    public sealed class Row
    {
        public int Id { get; set; }
        public int Version { get; set; }
        public string? Name { get; set; }
        public string? Plate { get; set; }
        public bool Retired { get; set; }
    }

    [BindProperty]
    public List<Row> Rows { get; set; } = [];

    public async Task OnGetAsync()
    {
        Rows = await db.Vehicles.AsNoTracking().OrderBy(v => v.Retired).ThenBy(v => v.Name).Select(v => new Row { Id = v.Id, Version = v.Version, Name = v.Name, Plate = v.Plate, Retired = v.Retired }).ToListAsync();
        Rows.AddRange([new Row(), new Row()]);
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var known = await db.Vehicles.ToDictionaryAsync(v => v.Id);
        for (var i = 0; i < Rows.Count; i++) Write(Rows[i], new FormReading(ModelState, $"Rows[{i}]", UnitSystem.US), known);
        if (!ModelState.IsValid) return Page();
        try
        {
            await db.SaveChangesAsync();
            return RedirectToPage();
        }
        catch (DbUpdateConcurrencyException)
        {
            ModelState.AddModelError("", "Someone else changed these vehicles since you opened them. Open the page in a second tab to see theirs, then save again.");
            foreach (var row in Rows.Where(r => r.Id != 0)) row.Version = await db.Vehicles.AsNoTracking().Where(v => v.Id == row.Id).Select(v => v.Version).FirstOrDefaultAsync();
            return Page();
        }
    }

    private void Write(Row row, FormReading read, Dictionary<int, Vehicle> known)
    {
        var vehicle = known.GetValueOrDefault(row.Id);
        if (vehicle is null && string.IsNullOrWhiteSpace(row.Name + row.Plate)) return;
        var (name, plate) = (read.Text(row.Name, nameof(Row.Name), "name", needed: true, most: 60), read.Text(row.Plate, nameof(Row.Plate), "plate", most: 20));
        if (vehicle is null) db.Add(vehicle = new Vehicle { Name = name });
        else db.Expect(vehicle, row.Version);
        (vehicle.Name, vehicle.Plate, vehicle.Retired) = (name, plate, row.Retired);
    }
}
