using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.FollowUp;

public sealed class RulesModel(OfficeDb db) : PageModel
{
    public sealed record Row(string Code, string Name, int LeadDays, bool Commercial, bool Off, string Subject, int Ahead);

    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public int RetestMonths { get; private set; }
    public int AlarmBatteryMonths { get; private set; }

    public async Task OnGetAsync()
    {
        Rows = await db.ReminderRules.AsNoTracking().OrderBy(r => r.Id).Select(r => new Row(
            r.Code, r.Name, r.LeadDays, r.Commercial, r.Off, r.Subject, db.Reminders.Count(x => x.RuleCode == r.Code && x.State == Business.FollowUp.ReminderState.Planned))).ToListAsync();
        var company = await db.Company.AsNoTracking().Select(c => new { c.RetestMonths, c.AlarmBatteryMonths }).SingleAsync();
        (RetestMonths, AlarmBatteryMonths) = (company.RetestMonths, company.AlarmBatteryMonths);
    }
}
