using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>When and in which words somebody is reminded of a quote they have not answered.</summary>
public sealed class NudgesModel(OfficeDb db) : PageModel
{
    private const int MostRules = 12;

    public sealed class Row
    {
        public int Id { get; set; }
        public int Version { get; set; }
        public string? AfterDays { get; set; }
        public string? Subject { get; set; }
        public string? Body { get; set; }
        public bool Off { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(AfterDays + Subject + Body);

        public static Row Of(NudgeRule r) => new() { Id = r.Id, Version = r.Version, AfterDays = Plain((decimal)r.AfterDays), Subject = r.Subject, Body = r.Body, Off = r.Off };
    }

    [BindProperty]
    public List<Row> Rows { get; set; } = [];

    public async Task OnGetAsync() => Rows = [.. (await db.NudgeRules.AsNoTracking().OrderBy(r => r.AfterDays).ThenBy(r => r.Id).ToListAsync()).Select(Row.Of), new Row()];

    public async Task<IActionResult> OnPostAsync()
    {
        var known = await db.NudgeRules.ToDictionaryAsync(r => r.Id);
        if (Rows.Count(r => !r.IsEmpty) > MostRules) ModelState.AddModelError("", $"At most {MostRules} nudges; nobody reads more.");
        for (var i = 0; i < Rows.Count; i++) Write(Rows[i], new FormReading(ModelState, $"Rows[{i}]", UnitSystem.US), known);
        foreach (var twice in Rows.Where(r => !r.IsEmpty).GroupBy(r => r.AfterDays?.Trim()).Where(g => g.Count() > 1))
            ModelState.AddModelError($"Rows[{Rows.IndexOf(twice.Last())}].AfterDays", $"Two nudges go out {twice.Key} days after; give one of them another day.");
        if (!ModelState.IsValid) return Page();
        try
        {
            await db.SaveChangesAsync();
            return RedirectToPage();
        }
        catch (DbUpdateConcurrencyException)
        {
            ModelState.AddModelError("", "Someone else changed these nudges since you opened them. Your words are kept here; open the page in a second tab to see theirs, then save again.");
            return Page();
        }
    }

    private void Write(Row row, FormReading read, Dictionary<int, NudgeRule> known)
    {
        var rule = known.GetValueOrDefault(row.Id);
        if (rule is not null) db.Expect(rule, row.Version);
        if (row.IsEmpty)
        {
            if (rule is not null) db.Remove(rule);
            return;
        }

        var days = read.Whole(row.AfterDays, nameof(Row.AfterDays), "number of days", 1, 365, needed: true) ?? 1;
        var subject = read.Text(row.Subject, nameof(Row.Subject), "subject", needed: true, most: 200);
        var body = read.Text(row.Body, nameof(Row.Body), "message", needed: true, most: 4000);
        foreach (var (field, text) in new[] { (nameof(Row.Subject), subject), (nameof(Row.Body), body) })
            foreach (var problem in NudgeText.Problems(text)) read.Refuse(field, problem);
        if (subject.Contains("{link}", StringComparison.Ordinal)) read.Refuse(nameof(Row.Subject), "The link belongs into the message: a subject stands in lists that others read.");
        if (body.Length > 0 && !body.Contains("{link}", StringComparison.Ordinal)) read.Refuse(nameof(Row.Body), "Put {link} into the message, so that the quote can be answered from it.");
        if (rule is null) db.Add(rule = new NudgeRule { Subject = subject, Body = body });
        (rule.AfterDays, rule.Subject, rule.Body, rule.Off) = (days, subject, body, row.Off);
    }
}
