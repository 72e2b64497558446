using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Pages.StateReports;

public sealed class ProfilesModel(OfficeDb db) : PageModel
{
    public IReadOnlyList<ProfileInBook> Profiles { get; private set; } = [];
    public IReadOnlyDictionary<string, ReportDuty> Duties { get; private set; } = new Dictionary<string, ReportDuty>(StringComparer.Ordinal);
    public bool IsOwner => User.IsInRole("Owner");

    public async Task OnGetAsync()
    {
        Profiles = await ProfileBook.ReadAsync(db);
        Duties = await db.ReportDuties.AsNoTracking().ToDictionaryAsync(d => d.ProfileCode, StringComparer.Ordinal);
    }
}
