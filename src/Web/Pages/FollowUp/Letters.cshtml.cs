using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Those to be told by letter or phone, as a file for a spreadsheet or for labels.</summary>
public sealed class LettersModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public async Task<IActionResult> OnGetAsync()
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var rules = await db.ReminderRules.AsNoTracking().ToDictionaryAsync(r => r.Code, StringComparer.Ordinal);
        var due = await DueRow.ReadAsync(db, company, rules, HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(company.TimeZone)));
        return Sheet.Csv("letters.csv", ["Due", "Name", "Phone", "Post", "House", "What", "Because", "Not by e-mail"], due.Where(d => d.ByHand).Select(d => (string[])
        [
            d.DueOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), d.Name, d.Phone, d.PostalAddress, d.House, d.Rule, d.Because, d.ByHandBecause,
        ]));
    }
}
