using System.Globalization;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quality;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>One blank, spiked device, or pair exposed for comparison alone.</summary>
[Authorize(SignInSetup.OfficeWork)]
public sealed class CheckModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public sealed class Form
    {
        public string? Kind { get; set; } = nameof(CheckKind.Blank);
        public string? DeviceKind { get; set; } = nameof(Business.Tests.DeviceKind.Charcoal);
        public string? Day { get; set; }
        public string? Serial { get; set; }
        public string? SecondSerial { get; set; }
        public string? PCiL { get; set; }
        public string? Against { get; set; }
        public string? Notes { get; set; }
    }

    public static readonly (string Value, string Words)[] Kinds = [(nameof(CheckKind.Blank), "Blank: never opened"), (nameof(CheckKind.Spike), "Spike: exposed to a known level"), (nameof(CheckKind.Pair), "Pair: two side by side")];

    [BindProperty]
    public Form Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [FromRoute(Name = "id")]
    public string Wanted { get; set; } = "";
    public bool IsNew => Wanted == "new";
    private int CheckId => int.TryParse(Wanted, CultureInfo.InvariantCulture, out var id) ? id : 0;

    public async Task<IActionResult> OnGetAsync()
    {
        if (!IsNew && !await db.QualityChecks.AnyAsync(c => c.Id == CheckId)) return NotFound();
        if (!IsNew) (Input, Version) = await ReadAsync();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var check = IsNew ? new QualityCheck() : await db.QualityChecks.SingleOrDefaultAsync(c => c.Id == CheckId);
        if (check is null) return NotFound();
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        Write(check, new FormReading(ModelState, nameof(Input), UnitSystem.US), today);
        if (!ModelState.IsValid) return Page();
        if (IsNew) db.Add(check);
        else db.Expect(check, Version);
        return await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v) ? RedirectToPage("/Tests/Quality") : Page();
    }

    public async Task<IActionResult> OnPostRemoveAsync()
    {
        if (await db.QualityChecks.SingleOrDefaultAsync(c => c.Id == CheckId) is not { } check) return NotFound();
        db.Remove(check);
        await db.SaveChangesAsync();
        return RedirectToPage("/Tests/Quality");
    }

    private void Write(QualityCheck check, FormReading read, DateOnly today)
    {
        check.Kind = Enum.TryParse<CheckKind>(Input.Kind, out var kind) ? kind : CheckKind.Blank;
        check.DeviceKind = Enum.TryParse<DeviceKind>(Input.DeviceKind, out var device) ? device : DeviceKind.Charcoal;
        check.Day = read.Day(Input.Day, nameof(Form.Day), "day", needed: true) ?? check.Day;
        if (check.Day > today) read.Refuse(nameof(Form.Day), "A check cannot have been made in the time to come.");
        check.Serial = read.Text(Input.Serial, nameof(Form.Serial), "serial number", needed: true, most: 60);
        check.SecondSerial = read.Text(Input.SecondSerial, nameof(Form.SecondSerial), "serial number of the second device", needed: kind == CheckKind.Pair, most: 60);
        check.PCiL = read.Number(Input.PCiL, nameof(Form.PCiL), "result in pCi/L", 0m, 100_000m);
        check.AgainstPCiL = read.Number(Input.Against, nameof(Form.Against), kind switch { CheckKind.Blank => "limit of detection in pCi/L", CheckKind.Spike => "known level in pCi/L", _ => "result of the second device in pCi/L" }, 0m, 100_000m);
        if (kind == CheckKind.Spike && check.AgainstPCiL == 0) read.Refuse(nameof(Form.Against), "The known level of a spike is above 0 pCi/L.");
        check.Notes = read.Text(Input.Notes, nameof(Form.Notes), "notes", most: 500);
    }

    private async Task<(Form, int)> ReadAsync()
    {
        var c = await db.QualityChecks.AsNoTracking().SingleAsync(x => x.Id == CheckId);
        return (new Form
        {
            Kind = c.Kind.ToString(), DeviceKind = c.DeviceKind.ToString(), Day = TypedNumbers.Plain(c.Day), Serial = c.Serial, SecondSerial = c.SecondSerial, PCiL = TypedNumbers.Plain(c.PCiL), Against = TypedNumbers.Plain(c.AgainstPCiL), Notes = c.Notes,
        }, c.Version);
    }
}
