using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>What can be done on sheet 5 besides planning.</summary>
public sealed partial class SheetModel
{
    /// <summary>A line of the checklist as it came back.</summary>
    public sealed class StepForm
    {
        public int Id { get; set; }
        public bool Was { get; set; }
        public bool Done { get; set; }
        public string? NotNeededWas { get; set; }
        public string? NotNeeded { get; set; }
    }

    /// <summary>The ends a job can come to.</summary>
    public sealed class ClosingForm
    {
        public string? DoneOn { get; set; }
        public string? CalledOffBecause { get; set; }
    }

    [BindProperty]
    public List<StepForm> Steps { get; set; } = [];

    [BindProperty]
    public string? Notes { get; set; }

    [BindProperty]
    public string? NotesWas { get; set; }

    [BindProperty]
    public string? NewStep { get; set; }

    [BindProperty]
    public ClosingForm Closing { get; set; } = new();

    public async Task<IActionResult> OnPostStepsAsync()
    {
        if (await LoadAsync() is { } missing) return missing;
        if (Job is null) return NotFound();
        var ticks = Steps.ConvertAll(s => new TickSteps.Tick(s.Id, s.Was, s.Done, s.NotNeededWas ?? "", (s.NotNeeded ?? "").Trim()));
        var refusals = await TickSteps.RunAsync(db, Job.Id, ticks, NotesWas ?? "", (Notes ?? "").Trim(), Me, Now);
        if (refusals.Count == 0 && !string.IsNullOrWhiteSpace(NewStep)) await TickSteps.AddAsync(db, Job.Id, NewStep.Trim());
        if (refusals.Count == 0) return Back(Job.Id, "checklist");
        ModelState.Remove(nameof(NotesWas));
        return await RefuseAsync(refusals);
    }

    public Task<IActionResult> OnPostFinishAsync() => ActAsync(officeOnly: false, async job =>
    {
        var day = new FormReading(ModelState, nameof(Closing), units.System).Day(Closing.DoneOn, nameof(Closing.DoneOn), "day the work was done", needed: true);
        if (day is not { } done) return [];
        var refusals = FinishJob.Write(job, done, Today, Job!.System is not null);
        if (refusals.Count == 0) await PlanDays.TakeOffAsync(db, PlanDays.Owner.OfJob(HouseId, job.Id), done, Now);
        return refusals;
    });

    public Task<IActionResult> OnPostCallOffAsync() => ActAsync(officeOnly: true, async job =>
    {
        var refusals = CallOffJob.Write(job, (Closing.CalledOffBecause ?? "").Trim());
        if (refusals.Count > 0) return refusals;
        await PlanDays.TakeOffAsync(db, PlanDays.Owner.OfJob(HouseId, job.Id), Today.AddDays(-1), Now);
        foreach (var appointment in await db.Appointments.Where(a => a.JobId == job.Id && a.CancelledAtUtc == null && a.Day >= Today).ToListAsync()) CancelAppointment.Write(appointment, Now);
        return refusals;
    });

    public Task<IActionResult> OnPostTakeBackAsync() => ActAsync(officeOnly: true, job =>
    {
        if (Job!.Cancelled) return Task.FromResult<IReadOnlyList<Refusal>>([new("", $"The buyer cancelled the contract of job {job.Number} in time; it stays called off. If they want the work after all, send a new quote.")]);
        CallOffJob.TakeBack(job);
        return Task.FromResult<IReadOnlyList<Refusal>>([]);
    });

    public Task<IActionResult> OnPostPermitAsync() => ActAsync(officeOnly: true, job =>
    {
        Permit.Write(job, new FormReading(ModelState, nameof(Permit), units.System), Today);
        return Task.FromResult<IReadOnlyList<Refusal>>([]);
    }, "permit");

    public Task<IActionResult> OnPostAppointmentAsync() => ActAsync(officeOnly: true, async job =>
    {
        var appointment = await db.Appointments.FirstOrDefaultAsync(a => a.Id == Appointment.Id && a.JobId == job.Id && a.CancelledAtUtc == null)
            ?? db.Appointments.Add(new Appointment { JobId = job.Id, HouseId = job.HouseId, CalendarUid = PrivateLink.Make().Hash[..32] }).Entity;
        Appointment.Write(appointment, new FormReading(ModelState, nameof(Appointment), units.System), Now);
        return [];
    }, "appointments");

    public Task<IActionResult> OnPostAppointmentOffAsync(int appointmentId) => ActAsync(officeOnly: true, async job =>
    {
        if (await db.Appointments.FirstOrDefaultAsync(a => a.Id == appointmentId && a.JobId == job.Id && a.CancelledAtUtc == null) is { } appointment) CancelAppointment.Write(appointment, Now);
        return [];
    }, "appointments");

    /// <summary>Begins a change order, or goes on with the one that is begun.</summary>
    public async Task<IActionResult> OnPostChangeAsync()
    {
        if (await LoadAsync() is { } missing) return missing;
        if (Job is null) return NotFound();
        var begun = await DraftChange.BeginAsync(db, Job.Id, Now, Me);
        return begun.Refusals.Count > 0 ? await RefuseAsync(begun.Refusals) : RedirectToPage("/Work/Change", new { houseId = HouseId, changeId = begun.ChangeOrderId });
    }

    public async Task<IActionResult> OnPostPapersAsync(LabelSize labelSize = LabelSize.FourBySix)
    {
        if (await LoadAsync() is { } missing) return missing;
        if (Job?.System is not { } system) return NotFound();
        await PrintPapers.RunAsync(db, system.Id, await ResultsOfHouse.LinesAsync(db, HouseId, Zone), mail.PublicAddress, Enum.IsDefined(labelSize) ? labelSize : LabelSize.FourBySix, Now, Me);
        return Back(Job.Id, "as-built");
    }

    private async Task<IActionResult> ActAsync(bool officeOnly, Func<Job, Task<IReadOnlyList<Refusal>>> act, string? fragment = null)
    {
        if (officeOnly && await OfficeOnlyAsync() is { } refused) return refused;
        if (await LoadAsync() is { } missing) return missing;
        if (Job is null) return NotFound();
        var job = await db.Jobs.Include(j => j.Steps).SingleAsync(j => j.Id == Job.Id);
        var refusals = await act(job);
        if (refusals.Count > 0 || !ModelState.IsValid) return await RefuseAsync(refusals);
        db.Expect(job, Version);
        try
        {
            await db.SaveChangesAsync();
            return Back(job.Id, fragment);
        }
        catch (DbUpdateConcurrencyException)
        {
            return await RefuseAsync([new("", "Someone else changed this job since you opened it. Look at it as it stands now, then decide again.")]);
        }
    }

    /// <summary>Shows the sheet again with what was refused; the plan's fields, which were not sent along, as they are on record.</summary>
    private async Task<IActionResult> RefuseAsync(IReadOnlyList<Refusal> refusals)
    {
        foreach (var refusal in refusals)
            ModelState.AddModelError(refusal.Field is nameof(Closing.DoneOn) or nameof(Closing.CalledOffBecause) ? $"{nameof(Closing)}.{refusal.Field}" : refusal.Field, refusal.Words);
        db.ChangeTracker.Clear();
        await LoadAsync();
        FillForms();
        ModelState.Remove(nameof(Version));
        return Page();
    }
}
