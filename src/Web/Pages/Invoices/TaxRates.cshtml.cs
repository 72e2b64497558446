using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>The taxes that invoices written by hand are charged with.</summary>
public sealed class TaxRatesModel(OfficeDb db) : PageModel
{
    public sealed class Row
    {
        public int Id { get; set; }
        public int Version { get; set; }
        public string? Name { get; set; }
        public string? Percent { get; set; }
        public bool Material { get; set; }
        public bool Labour { get; set; }
        public bool Subcontract { get; set; }
        public bool Permit { get; set; }
        public bool Other { get; set; }
        public string? ValidFrom { get; set; }
        public string? ValidTo { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(Name + Percent + ValidFrom + ValidTo);

        public IEnumerable<LineKind> Kinds => new[]
        {
            (Material, LineKind.Material), (Labour, LineKind.Labour), (Subcontract, LineKind.Subcontract), (Permit, LineKind.Permit), (Other, LineKind.Other),
        }.Where(k => k.Item1).Select(k => k.Item2);

        public static Row Of(TaxRate r) => new()
        {
            Id = r.Id, Version = r.Version, Name = r.Name, Percent = Plain(r.Percent), Material = r.Taxes(LineKind.Material), Labour = r.Taxes(LineKind.Labour), Subcontract = r.Taxes(LineKind.Subcontract),
            Permit = r.Taxes(LineKind.Permit), Other = r.Taxes(LineKind.Other), ValidFrom = Plain(r.ValidFrom), ValidTo = Plain(r.ValidTo),
        };
    }

    [BindProperty]
    public List<Row> Rows { get; set; } = [];

    public async Task OnGetAsync()
    {
        Rows = [.. (await db.TaxRates.AsNoTracking().OrderBy(r => r.ValidFrom).ThenBy(r => r.Id).ToListAsync()).Select(Row.Of), new Row(), new Row()];
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var known = await db.TaxRates.ToDictionaryAsync(r => r.Id);
        for (var i = 0; i < Rows.Count; i++) Write(Rows[i], new FormReading(ModelState, $"Rows[{i}]", UnitSystem.US), known);
        if (!ModelState.IsValid) return Page();
        try
        {
            await db.SaveChangesAsync();
            return RedirectToPage();
        }
        catch (DbUpdateConcurrencyException)
        {
            ModelState.AddModelError("", "Someone else changed these rates since you opened them. Your rows are kept here; open the page in a second tab to see theirs, then save again.");
            return Page();
        }
    }

    private void Write(Row row, FormReading read, Dictionary<int, TaxRate> known)
    {
        var rate = known.GetValueOrDefault(row.Id);
        if (rate is not null) db.Expect(rate, row.Version);
        if (row.IsEmpty)
        {
            if (rate is not null) db.Remove(rate);
            return;
        }

        var name = read.Text(row.Name, nameof(Row.Name), "name of the tax", needed: true, most: 120);
        var percent = read.Number(row.Percent, nameof(Row.Percent), "percentage", 0, 100, needed: true) ?? 0;
        var from = read.Day(row.ValidFrom, nameof(Row.ValidFrom), "first day on which it is charged", needed: true) ?? default;
        var to = read.Day(row.ValidTo, nameof(Row.ValidTo), "last day on which it is charged");
        if (to < from) read.Refuse(nameof(Row.ValidTo), "It cannot end before it begins.");
        if (!row.Kinds.Any()) read.Refuse(nameof(Row.Material), "Tick what it is charged on.");
        if (rate is null) db.Add(rate = new TaxRate { Name = name });
        (rate.Name, rate.Percent, rate.Kinds, rate.ValidFrom, rate.ValidTo) = (name, percent, TaxRate.Join(row.Kinds), from, to);
    }
}
