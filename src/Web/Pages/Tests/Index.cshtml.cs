using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Tests;

public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Show { get; set; } = "all";

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true)]
    public string Sort { get; set; } = "-started";

    public IReadOnlyList<TestList.Row> Rows { get; private set; } = [];
    public IReadOnlyList<TestList.Untested> Untested { get; private set; } = [];
    public DateTime Now => clock.GetUtcNow().UtcDateTime;
    private string _companyZone = "";
    private TestSearch Asked => new(Show, Find, Sort);

    public async Task OnGetAsync()
    {
        _companyZone = await db.Company.Select(c => c.TimeZone).SingleAsync();
        Rows = await TestList.RowsAsync(db, Asked, TestList.Most + 1);
        Untested = await TestList.UntestedAsync(db);
    }

    public async Task<IActionResult> OnGetCsvAsync()
    {
        _companyZone = await db.Company.Select(c => c.TimeZone).SingleAsync();
        var rows = await TestList.RowsAsync(db, Asked, int.MaxValue);
        return CsvAnswer.Of("tests.csv",
            ["House", "City", "For", "Why", "Started", "Ended", "Made by", "Devices", "State", "pCi/L", "Letter out"],
            rows.Select(r => (IReadOnlyList<string>)[r.Street, r.City, r.For ?? "", TestWords.Of(r.Reason), Local(r.StartedAtUtc, r.Zone), r.EndedAtUtc is { } end ? Local(end, r.Zone) : "", r.MadeBy,
                $"{r.Devices}", r.State, r.PCiL is { } p ? $"{Math.Round(p, 1, MidpointRounding.AwayFromZero):0.0}" : "", r.LetterSentAtUtc is { } sent ? Local(sent, r.Zone) : ""]));
    }

    public TimeZoneInfo ZoneOf(string house) => HouseTime.Zone(house, _companyZone.Length == 0 ? "America/Chicago" : _companyZone);

    private string Local(DateTime utc, string zone) => TimeZoneInfo.ConvertTimeFromUtc(utc, ZoneOf(zone)).ToString("yyyy-MM-dd HH:mm", System.Globalization.CultureInfo.InvariantCulture);
}
