using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Pages.FollowUp;

public sealed class RulesModel(OfficeDb db) : PageModel
{
    public IReadOnlyList<ReminderRule> Rules { get; private set; } = [];
    public IReadOnlyDictionary<string, int> Ahead { get; private set; } = new Dictionary<string, int>();
    public int RetestMonths { get; private set; }
    public int AlarmBatteryMonths { get; private set; }

    public async Task OnGetAsync()
    {
        Rules = await db.ReminderRules.AsNoTracking().OrderBy(r => r.Id).ToListAsync();
        Ahead = await db.Reminders.Where(r => r.State == ReminderState.Planned).GroupBy(r => r.RuleCode).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Count);
        var company = await db.Company.AsNoTracking().Select(c => new { c.RetestMonths, c.AlarmBatteryMonths }).SingleAsync();
        (RetestMonths, AlarmBatteryMonths) = (company.RetestMonths, company.AlarmBatteryMonths);
    }
}
