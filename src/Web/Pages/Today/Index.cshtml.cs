using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Today;

public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public IReadOnlyList<TodayGroup> Groups { get; private set; } = [];
    public OfficeFacts Facts { get; private set; } = null!;
    public DateOnly Today { get; private set; }
    public bool IsOwner => User.IsInRole("Owner");
    public bool IsOffice => IsOwner || User.IsInRole("Office");

    public async Task OnGetAsync()
    {
        var now = clock.GetUtcNow().UtcDateTime;
        Facts = await OfficeFacts.ReadAsync(db);
        var at = new TodayClock(now, HouseTime.Zone(Facts.TimeZone));
        Today = at.Today;
        var read = new ReadToday(db, at);
        Groups = IsOffice ? await read.ForOfficeAsync(Facts) : await read.ForInstallersAsync();
    }
}
