using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Whom to call, one block a house, to work through at the phone or on paper.</summary>
public sealed class PhoneListModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public IReadOnlyList<IGrouping<string, DueReminder>> Calls { get; private set; } = [];
    public DateOnly Today { get; private set; }
    public int DueInAll { get; private set; }

    public async Task OnGetAsync()
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(company.TimeZone));
        var rules = await db.ReminderRules.AsNoTracking().ToDictionaryAsync(r => r.Code, StringComparer.Ordinal);
        (var due, DueInAll) = await DueReminder.ReadByHandAsync(db, company, rules, Today);
        Calls = [.. due.GroupBy(d => $"{d.Name}\n{d.Phone}", StringComparer.Ordinal).OrderBy(g => g.First().Phone.Length == 0 ? 1 : 0).ThenBy(g => g.Min(d => d.DueOn))];
    }
}
