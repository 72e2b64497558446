using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Pages.Work;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Drawings;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Service;

/// <summary>One service call: what is likely, the visit, what was found.</summary>
public sealed class CallModel(OfficeDb db, UnitChoice units, TimeProvider clock, IAuthorizationService may, Actor actor) : PageModel
{
    /// <summary>The visits as they are typed.</summary>
    public sealed class VisitForm
    {
        public List<DayRow> Days { get; set; } = [];
    }

    [FromRoute]
    public int HouseId { get; set; }

    [FromRoute]
    public int CallId { get; set; }

    [BindProperty]
    public VisitForm Input { get; set; } = new();

    [BindProperty]
    public OutcomeForm Outcome { get; set; } = new();

    [BindProperty]
    public string? CalledOffBecause { get; set; }

    [BindProperty]
    public int Version { get; set; }

    public ServiceCall Call { get; private set; } = null!;
    public Look Look { get; private set; } = null!;
    public Advise.Advice Advice { get; private set; } = null!;
    public IReadOnlyList<Bookable> All { get; private set; } = [];
    public IReadOnlyList<(string Value, string Words)> Fans { get; private set; } = [];
    public string? Warranty { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool MayPlan { get; private set; }
    public GaugeDrawing Gauge => new(Look.StartPa, Look.GaugePa);
    public DayRowsView DayRows => new(Input.Days, All);
    private DateTime Now => clock.GetUtcNow().UtcDateTime;
    private DateOnly Today => HouseTime.DayOf(Now, Zone);
    private FormReading Read(string prefix) => new(ModelState, prefix, units.System);

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        Version = Call.Version;
        Outcome = OutcomeForm.Of(Call, Today, units.System);
        Input.Days = [.. (await db.WorkDays.AsNoTracking().Include(d => d.Bookings).Where(d => d.ServiceCallId == CallId && d.CancelledAtUtc == null).OrderBy(d => d.Day).ThenBy(d => d.Id).AsSingleQuery().ToListAsync()).Select(DayRow.Of)];
        Input.Days.Add(new());
        return Page();
    }

    public async Task<IActionResult> OnPostVisitAsync()
    {
        if (!(await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded) return Forbid();
        if (!await LoadAsync()) return NotFound();
        var days = Work.DayRows.Read(Input.Days, Read(nameof(Input)));
        if (ModelState.IsValid)
            foreach (var refusal in await PlanDays.WriteAsync(db, PlanDays.Owner.OfCall(HouseId, CallId), [.. days.Select(d => d.Row)], All, Now))
                Read(nameof(Input)).Refuse(Work.DayRows.AtRow(refusal, days).Field, refusal.Words);
        return await SaveAsync();
    }

    public async Task<IActionResult> OnPostSettleAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var fan = int.TryParse(Outcome.NewFanId, System.Globalization.CultureInfo.InvariantCulture, out var id) ? await db.Fans.FirstOrDefaultAsync(f => f.Id == id) : null;
        var outcome = Outcome.Read(Read(nameof(Outcome)), fan, MayPlan ? null : Call.Cover);
        if (outcome is not null && ModelState.IsValid) Refuse(await SettleCall.WriteAsync(db, Call, outcome, HouseTime.DayOf(Call.AskedAtUtc, Zone), Today, actor.Name));
        if (outcome is not null && ModelState.IsValid) await PlanDays.TakeOffAsync(db, PlanDays.Owner.OfCall(HouseId, CallId), outcome.On, Now);
        var answer = await SaveAsync();
        if (ModelState.IsValid) await PlanReminders.RunAsync(db, Now, HouseId, HttpContext.RequestAborted);
        return answer;
    }

    public async Task<IActionResult> OnPostCallOffAsync()
    {
        if (!(await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded) return Forbid();
        if (!await LoadAsync()) return NotFound();
        foreach (var refusal in SettleCall.CallOff(Call, (CalledOffBecause ?? "").Trim())) ModelState.AddModelError(refusal.Field, refusal.Words);
        if (ModelState.IsValid) await PlanDays.TakeOffAsync(db, PlanDays.Owner.OfCall(HouseId, CallId), Today.AddDays(-1), Now);
        return await SaveAsync();
    }

    public async Task<IActionResult> OnPostTakeBackAsync()
    {
        if (!(await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded) return Forbid();
        if (!await LoadAsync()) return NotFound();
        SettleCall.TakeBack(Call);
        return await SaveAsync();
    }

    private async Task<IActionResult> SaveAsync()
    {
        if (!ModelState.IsValid) return Page();
        db.Expect(Call, Version);
        db.Entry(Call).Property(c => c.Number).IsModified = true;
        try
        {
            await db.SaveChangesAsync();
            return RedirectToPage("/Service/Call", new { HouseId, CallId });
        }
        catch (DbUpdateConcurrencyException)
        {
            ModelState.AddModelError("", "Someone else changed this call since you opened it. Your typing is kept below; saving again puts it over theirs.");
            Version = await db.ServiceCalls.Where(c => c.Id == CallId).Select(c => c.Version).SingleAsync();
            ModelState.Remove(nameof(Version));
        }
        catch (DbUpdateException)
        {
            ModelState.AddModelError("", PlanDays.TakenMeanwhile);
        }

        return Page();
    }

    private void Refuse(IEnumerable<Refusal> refusals)
    {
        foreach (var refusal in refusals) Read(nameof(Outcome)).Refuse(refusal.Field, refusal.Words);
    }

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 5) is not { } head) return false;
        if (await db.ServiceCalls.FirstOrDefaultAsync(c => c.Id == CallId && c.HouseId == HouseId) is not { } call) return false;
        (Call, Zone) = (call, await HouseZone.OfAsync(db, HouseId));
        ViewData["House"] = head with { Beside = "Service", Revision = call.Number };
        MayPlan = (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
        Look = await GatherLook.OfAsync(db, call.InstalledSystemId, HouseTime.DayOf(call.AskedAtUtc, Zone)) with { Sign = call.Sign, GaugePa = call.GaugePa, OutdoorC = call.OutdoorC };
        Advice = Advise.On(Look);
        All = await Bookables.ReadAsync(db);
        Fans = [("", "The old fan stays"), .. (await db.Fans.AsNoTracking().Where(f => !f.Retired).OrderBy(f => f.Model).Select(f => new { f.Id, f.Model }).ToListAsync()).Select(f => ($"{f.Id}", f.Model))];
        var until = await db.Systems.Where(s => s.Id == call.InstalledSystemId).SelectMany(s => s.Components).Where(c => c.Kind == ComponentKind.Fan && c.RemovedOn == null).MaxAsync(c => c.WarrantyUntil);
        Warranty = until is { } last ? $"The maker's warranty on the fan {(last < HouseTime.DayOf(call.AskedAtUtc, Zone) ? "ended on" : "runs until")} {HouseTime.Show(last)}." : null;
        return true;
    }
}

/// <summary>What was found and done, as it is typed.</summary>
public sealed class OutcomeForm
{
    public string? Found { get; set; }
    public string? Done { get; set; }
    public string? On { get; set; }
    public string? Cover { get; set; }
    public string? GaugeAfter { get; set; }
    public string? NewFanId { get; set; }
    public string? NewFanSerial { get; set; }
    public bool NewBattery { get; set; }
    public bool NewStartUp { get; set; }

    public static OutcomeForm Of(ServiceCall call, DateOnly today, UnitSystem units) => new()
    {
        Found = call.Found?.ToString(), Done = call.Done, On = TypedNumbers.Plain(call.SettledOn ?? today), Cover = call.Cover.ToString(), GaugeAfter = Measures.GaugePressure.Number(call.GaugeAfterPa, units),
    };

    /// <param name="fixedCover">Who pays where the person may not decide it.</param>
    public SettleCall.Outcome? Read(FormReading read, Fan? fan, Cover? fixedCover)
    {
        var (on, done) = (read.Day(On, nameof(On), "day", needed: true), read.Text(Done, nameof(Done), "words", most: 4000));
        var gauge = read.Measure(Measures.GaugePressure, GaugeAfter, nameof(GaugeAfter));
        if (!Enum.TryParse<Cause>(Found, out var found) || !Enum.IsDefined(found)) read.Refuse(nameof(Found), "Choose what was found.");
        var cover = fixedCover ?? (Enum.TryParse<Cover>(Cover, out var said) && Enum.IsDefined(said) ? said : Business.Service.Cover.NotDecided);
        var serial = read.Text(NewFanSerial, nameof(NewFanSerial), "serial number", most: 100);
        if (serial.Length > 0 && fan is null) read.Refuse(nameof(NewFanId), "Choose the new fan that has this serial number.");
        return on is { } day ? new(found, done, day, cover) { GaugeAfterPa = gauge, NewFan = fan, NewFanSerial = serial, NewBattery = NewBattery, NewStartUp = NewStartUp } : null;
    }
}
