using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>The steps of the day by kind of system, in the program's words or the company's own.</summary>
[RequestFormLimits(ValueCountLimit = 2_000)]
public sealed class ChecklistsModel(OfficeDb db) : PageModel
{
    private const int SpareSteps = 2, MostOwn = 20;

    public sealed class Row
    {
        public string Code { get; set; } = "";
        public int Version { get; set; }
        public string? Words { get; set; }
        public string? Caution { get; set; }
        public string? Source { get; set; }
        public bool LeftOut { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(Words + Caution + Source);
    }

    [FromQuery]
    public string? Kind { get; set; }

    [BindProperty]
    public List<Row> Rows { get; set; } = [];

    public SystemKind Shown => Enum.TryParse<SystemKind>(Kind, ignoreCase: true, out var kind) && Enum.IsDefined(kind) ? kind : SystemKind.SubSlabSuction;

    public static WorkStep? StandardOf(string code) => WorkSteps.All.FirstOrDefault(s => s.Code == code);

    public async Task OnGetAsync()
    {
        var own = await db.StepTexts.AsNoTracking().Where(t => t.Kind == Shown).ToListAsync();
        Rows = [.. WorkSteps.All.Select(s => own.Find(t => t.Code == s.Code) is { } text ? RowOf(text) : new Row { Code = s.Code, Words = s.Words, Caution = s.Caution, Source = s.Source }), .. own.Where(IsOwn).OrderBy(t => t.Code, StringComparer.Ordinal).Select(RowOf)];
        AddSpareSteps();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var stored = await db.StepTexts.Where(t => t.Kind == Shown).ToListAsync();
        for (var i = 0; i < Rows.Count; i++) Write(Rows[i], new FormReading(ModelState, $"Rows[{i}]", UnitSystem.US), stored);
        if (ModelState.IsValid)
        {
            try
            {
                await db.SaveChangesAsync();
                return RedirectToPage(new { kind = Shown });
            }
            catch (DbUpdateException)
            {
                db.ChangeTracker.Clear();
                ModelState.AddModelError("", "Someone else changed this checklist since you opened it. Your texts are kept here; open the page in a second tab to see theirs, then save again.");
                foreach (var row in Rows) row.Version = await db.StepTexts.Where(t => t.Kind == Shown && t.Code == row.Code).Select(t => t.Version).FirstOrDefaultAsync();
                ModelState.Where(m => m.Key.EndsWith(".Version", StringComparison.Ordinal)).ToList().ForEach(m => ModelState.Remove(m.Key));
            }
        }

        AddSpareSteps();
        return Page();
    }

    private void Write(Row row, FormReading read, List<StepText> stored)
    {
        var (standard, text) = (StandardOf(row.Code), stored.Find(t => t.Code == row.Code));
        if (standard is null && !IsOwnCode(row.Code)) return;
        var words = read.Text(row.Words, nameof(Row.Words), "step", most: 500);
        var (caution, source) = (read.Text(row.Caution, nameof(Row.Caution), "caution", most: 2000), read.Text(row.Source, nameof(Row.Source), "source", most: 500));
        if (standard is null ? row.IsEmpty : !row.LeftOut && (words.Length == 0 || (words, caution, source) == (standard.Words, standard.Caution, standard.Source)))
        {
            if (text is not null) db.Remove(text);
            return;
        }

        if (words.Length == 0 && !row.LeftOut) read.Refuse(nameof(Row.Words), "Write the step.");
        if (standard is { Caution.Length: > 0 } && row.LeftOut) read.Refuse(nameof(Row.LeftOut), "This step carries a caution for somebody's safety and stays. On a job where it has no place, the crew writes why.");
        if (standard is { Caution.Length: > 0 } && caution.Length == 0) read.Refuse(nameof(Row.Caution), "Word the caution as you like, but leave one here: this step can hurt someone.");
        if (caution.Length > 0 && source.Length == 0) read.Refuse(nameof(Row.Source), "Write where the caution comes from, or “common practice, no source”.");
        if (text is null) db.Add(text = new StepText { Kind = Shown, Code = row.Code });
        else db.Expect(text, row.Version);
        (text.Words, text.Caution, text.Source, text.LeftOut) = (words.Length > 0 ? words : standard?.Words ?? "", caution, source, row.LeftOut && standard is not null);
    }

    private static Row RowOf(StepText t) => new() { Code = t.Code, Version = t.Version, Words = t.Words, Caution = t.Caution, Source = t.Source, LeftOut = t.LeftOut };

    private static bool IsOwn(StepText t) => IsOwnCode(t.Code);

    private static bool IsOwnCode(string code) => code.StartsWith(WorkSteps.OwnCode, StringComparison.Ordinal) && code.Length == 6 && code[4..].All(char.IsAsciiDigit);

    private void AddSpareSteps()
    {
        var next = Rows.Where(r => IsOwnCode(r.Code)).Select(r => int.Parse(r.Code.AsSpan(4), System.Globalization.CultureInfo.InvariantCulture)).DefaultIfEmpty(0).Max() + 1;
        for (var i = Rows.Count(r => IsOwnCode(r.Code) && r.IsEmpty); i < SpareSteps && next <= MostOwn; i++) Rows.Add(new Row { Code = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{WorkSteps.OwnCode}{next++:00}") });
    }
}
