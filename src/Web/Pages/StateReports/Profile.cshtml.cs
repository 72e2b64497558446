using System.Security.Claims;
using System.Text;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>One profile: what it says, whether the office reports under it, and, for the owner, its text.</summary>
public sealed class ProfileModel(OfficeDb db, UnitChoice units, TimeProvider clock, IAuthorizationService may) : PageModel
{
    public sealed class DutyForm
    {
        public string? StartsOn { get; set; }
        public string? CompanyNumber { get; set; }
        public string? SignedBy { get; set; }
        public bool Ended { get; set; }
    }

    public ProfileInBook InBook { get; private set; } = null!;
    public ReportDuty? Duty { get; private set; }
    public IReadOnlyList<string> Problems { get; private set; } = [];
    public IReadOnlyList<ProfileEdition> Editions { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool IsOwner => User.IsInRole("Owner");

    [BindProperty]
    public DutyForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [BindProperty]
    public string? Text { get; set; }

    /// <summary>The edition whose text was changed.</summary>
    [BindProperty]
    public int Edition { get; set; }

    public async Task<IActionResult> OnGetAsync(string code) => await ShowAsync(code) ? Page() : NotFound();

    public async Task<IActionResult> OnGetJsonAsync(string code) =>
        await ProfileBook.FindAsync(db, code) is { } found ? File(Encoding.UTF8.GetBytes(WriteProfile.Text(found.Profile)), "application/json", $"{found.Profile.Code}.json") : NotFound();

    public async Task<IActionResult> OnPostDutyAsync(string code)
    {
        if (await ProfileBook.FindAsync(db, code) is not { } found) return NotFound();
        var duty = await db.ReportDuties.SingleOrDefaultAsync(d => d.ProfileCode == code);
        if (duty is null) db.Add(duty = new ReportDuty { ProfileCode = code });
        else db.Expect(duty, Version);
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var starts = read.Day(Input.StartsOn, nameof(Input.StartsOn), "first day reported here", needed: true);
        duty.State = found.Profile.State;
        duty.CompanyNumber = NoFormula(read.Text(Input.CompanyNumber, nameof(Input.CompanyNumber), "company's number", most: 60), nameof(Input.CompanyNumber), read);
        duty.SignedBy = NoFormula(read.Text(Input.SignedBy, nameof(Input.SignedBy), "person who signs", most: 120), nameof(Input.SignedBy), read);
        duty.Ended = Input.Ended;
        if (starts is { } day)
        {
            var first = await db.ReportRuns.Where(r => r.ProfileCode == code).MinAsync(r => (DateOnly?)r.First);
            if (first < day) read.Refuse(nameof(Input.StartsOn), $"A report from {HouseTime.Show(first)} on is frozen; the first day cannot come after it.");
            duty.StartsOn = day;
        }

        if (ModelState.IsValid && await db.TrySaveAsync(ModelState, nameof(Input), Input, () => DutyAsync(code), v => Version = v)) return RedirectToPage(new { code });
        db.ChangeTracker.Clear();
        var (typed, version) = (Input, Version);
        await ShowAsync(code);
        (Input, Version) = (typed, version);
        return Page();
    }

    public async Task<IActionResult> OnPostTextAsync(string code)
    {
        if (!(await may.AuthorizeAsync(User, SignInSetup.OwnerOnly)).Succeeded) return Forbid();
        var (typed, edition) = (Text ?? "", Edition);
        var (profile, problems) = ReadProfile.Of(typed);
        Problems = problems;
        if (profile is not null && profile.Code != code) Problems = [$"The code in the text is “{profile.Code}”; this profile's is “{code}”. To make another profile use “Add a profile”."];
        else if (profile is not null && await ProfileBook.KeepAsync(db, profile, edition, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", clock.GetUtcNow().UtcDateTime) is { } why) Problems = [why];
        if (profile is not null && Problems.Count == 0) return RedirectToPage(new { code });
        db.ChangeTracker.Clear();
        if (!await ShowAsync(code)) return NotFound();
        (Text, Edition) = (typed, edition);
        return Page();
    }

    public static string PeriodWords(PeriodKind kind) => kind switch
    {
        PeriodKind.Month => "every month",
        PeriodKind.Quarter => "every quarter",
        PeriodKind.Year => "every year",
        PeriodKind.Days => "each system in its own days",
        _ => "no report",
    };

    public static string EventWords(CountedEvent counted) => counted switch
    {
        CountedEvent.Activation => "the fan switched on",
        CountedEvent.Completion => "the work complete",
        CountedEvent.Alteration => "another fan put in",
        _ => "the first valid test after the work",
    };

    private static string NoFormula(string text, string field, FormReading read)
    {
        if (Csv.LooksComputed(text)) read.Refuse(field, $"It cannot begin with “{text[0]}”: a spreadsheet would take it for a formula.");
        return text;
    }

    private async Task<(DutyForm, int)> DutyAsync(string code) =>
        await db.ReportDuties.AsNoTracking().SingleOrDefaultAsync(d => d.ProfileCode == code) is { } d ? (FormOf(d), d.Version) : (new DutyForm(), 0);

    private static DutyForm FormOf(ReportDuty d) => new() { StartsOn = TypedNumbers.Plain(d.StartsOn), CompanyNumber = d.CompanyNumber, SignedBy = d.SignedBy, Ended = d.Ended };

    private async Task<bool> ShowAsync(string code)
    {
        if (await ProfileBook.FindAsync(db, code) is not { } found) return false;
        (InBook, Text, Edition) = (found, WriteProfile.Text(found.Profile), found.Edition);
        Duty = await db.ReportDuties.AsNoTracking().SingleOrDefaultAsync(d => d.ProfileCode == code);
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Editions = await ProfileBook.EditionsAsync(db, code);
        (Input, Version) = Duty is { } duty ? (FormOf(duty), duty.Version) : (new DutyForm(), 0);
        return true;
    }
}
