using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Tests.Work;

/// <summary>Days, people, vehicles, appointments.</summary>
public sealed class DaysTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Plan = "form[action*='handler=Plan']";

    private Task<string> CleoAsync() => office.WithDbAsync(async db => $"p{await db.Users.Where(u => u.FullName == "Cleo Marsh").Select(u => u.Id).SingleAsync()}");

    private Task<List<WorkDay>> DaysAsync(int jobId) => office.WithDbAsync(db => db.WorkDays.AsNoTracking().Include(d => d.Bookings).Where(d => d.JobId == jobId).OrderBy(d => d.Id).ToListAsync());

    [Fact]
    public async Task A_job_of_two_days_keeps_its_days_when_one_is_moved_and_one_taken_off()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var (desk, cleo, url) = (await office.SignInAsOfficeAsync(), await CleoAsync(), $"/houses/{house.HouseId}/work");
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "3/10/2026", ["Input.Days[0].ArriveAt"] = "8 am", ["Input.Days[0].Who"] = cleo, ["Input.Days[1].Day"] = "3/11/2026", ["Input.Days[1].Part"] = "Morning", ["Input.Days[1].Who"] = cleo }, Plan);
        var before = await DaysAsync(jobId);
        Assert.Equal([(new DateOnly(2026, 3, 10), 0, 2), (new DateOnly(2026, 3, 11), 0, 1)], before.Select(d => (d.Day, d.Sequence, d.Bookings.Count(b => b.GivenBack == 0))));
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "3/12/2026" }, Plan);
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "" }, Plan);
        var after = await DaysAsync(jobId);
        Assert.Equal(before.Select(d => d.CalendarUid), after.Select(d => d.CalendarUid));
        Assert.Equal((new DateOnly(2026, 3, 12), 1, true), (after[0].Day, after[0].Sequence, after[0].CancelledAtUtc is null));
        Assert.NotNull(after[1].CancelledAtUtc);
        Assert.Equal(new DateOnly(2026, 3, 12), (await office.JobAsync(jobId)).Day);
    }

    [Fact]
    public async Task Nobody_is_booked_twice_and_the_refusal_names_the_other_job()
    {
        var (desk, cleo) = (await office.SignInAsOfficeAsync(), await CleoAsync());
        var (first, second) = (await office.HouseWithJobAsync(), await office.HouseWithJobAsync());
        await desk.SubmitAsync($"/houses/{first.House.HouseId}/work", new() { ["Input.Days[0].Day"] = "4/7/2026", ["Input.Days[0].Part"] = "Morning", ["Input.Days[0].Who"] = cleo }, Plan);
        var refused = await desk.SubmitAsync($"/houses/{second.House.HouseId}/work", new() { ["Input.Days[0].Day"] = "4/7/2026", ["Input.Days[0].Who"] = cleo, ["Input.Crew"] = "Kept" }, Plan);
        Assert.Contains($"Cleo Marsh is booked on Apr 7, 2026 in the morning: {(await office.JobAsync(first.JobId)).Number}, {first.House.Street}", await refused.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"Kept\"", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var afternoon = await desk.SubmitAsync($"/houses/{second.House.HouseId}/work", new() { ["Input.Days[0].Day"] = "4/7/2026", ["Input.Days[0].Part"] = "Afternoon", ["Input.Days[0].Who"] = cleo }, Plan);
        Assert.Equal(HttpStatusCode.Redirect, afternoon.StatusCode);
    }

    [Fact]
    public async Task Two_plans_at_the_same_moment_book_a_vehicle_once()
    {
        var van = await office.WithDbAsync(async db =>
        {
            var added = db.Vehicles.Add(new Vehicle { Name = "Grey van" }).Entity;
            await db.SaveChangesAsync();
            return added.Id;
        });
        List<(WorkVerbs.AcceptedHouse House, int JobId)> jobs = [];
        for (var i = 0; i < 4; i++) jobs.Add(await office.HouseWithJobAsync());
        var all = new[] { new Bookable($"v{van}", "Grey van") };
        var outcomes = await Task.WhenAll(jobs.Select(j => Task.Run(async () =>
        {
            await using var scope = office.Services.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
            // Past the check in words, as two processes on one server would be: the index alone decides.
            db.WorkDays.Add(new WorkDay
            {
                HouseId = j.House.HouseId, JobId = j.JobId, Day = new DateOnly(2026, 4, 20), CalendarUid = PrivateLink.Make().Hash[..32],
                Bookings = [new Booking { Resource = all[0].Key, VehicleId = van, Name = "Grey van", Day = new DateOnly(2026, 4, 20), Half = DayHalf.Morning }],
            });
            try
            {
                await db.SaveChangesAsync();
                return true;
            }
            catch (DbUpdateException)
            {
                return false;
            }
        })));
        Assert.Single(outcomes, o => o);
        var desk = await office.SignInAsOfficeAsync();
        var loser = jobs[Array.IndexOf(outcomes, false)];
        Assert.Contains("Grey van is booked on Apr 20, 2026", await (await desk.SubmitAsync($"/houses/{loser.House.HouseId}/work", new() { ["Input.Days[0].Day"] = "4/20/2026", ["Input.Days[0].Who"] = all[0].Key }, Plan)).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_people_who_plan_through_their_pages_at_once_book_one_person_once()
    {
        var (desk, owner, cleo) = (await office.SignInAsOfficeAsync(), await office.SignInAsOwnerAsync(), await CleoAsync());
        var (first, second) = (await office.HouseWithJobAsync(), await office.HouseWithJobAsync());
        var typed = new Dictionary<string, string> { ["Input.Days[0].Day"] = "5/4/2026", ["Input.Days[0].Who"] = cleo };
        var answers = await Task.WhenAll(desk.SubmitAsync($"/houses/{first.House.HouseId}/work", typed, Plan), owner.SubmitAsync($"/houses/{second.House.HouseId}/work", typed, Plan));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Redirect);
        Assert.Equal(2, await office.WithDbAsync(db => db.Bookings.CountAsync(b => b.Resource == cleo && b.GivenBack == 0 && b.Day == new DateOnly(2026, 5, 4))));
    }

    [Fact]
    public async Task Permit_dig_ticket_and_hold_are_held_against_the_days()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var (desk, url) = (await office.SignInAsOfficeAsync(), $"/houses/{house.HouseId}/work");
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "6/9/2026" }, Plan);
        var wrong = await desk.SubmitAsync(url, new() { ["Permit.DigFrom"] = "6/12/2026", ["Permit.DigUntil"] = "6/1/2026", ["Permit.HoldBecause"] = "Storm" }, "form[action*='handler=Permit']");
        Assert.Contains("The ticket ends before it begins.", await wrong.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"Storm\"", await wrong.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync(url, new() { ["Permit.DigTicket"] = "D-1", ["Permit.DigFrom"] = "6/10/2026", ["Permit.DigUntil"] = "6/20/2026", ["Permit.PermitAskedOn"] = "6/1/2026", ["Permit.HoldBecause"] = "Storm" }, "form[action*='handler=Permit']");
        var text = await desk.TextAsync(url);
        foreach (var words in new[] { "Dig ticket D-1 holds from Jun 10, 2026; do not dig on Jun 9, 2026", "is not granted yet", "On hold since Mar 2, 2026: Storm" }) Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Contains("on hold: Storm", await desk.TextAsync("/work/week?from=6/9/2026"), StringComparison.Ordinal);
        Assert.Equal("Storm", (await office.JobAsync(jobId)).HoldBecause);
    }

    [Fact]
    public async Task The_days_sheet_holds_the_visit_its_people_appointment_and_steps()
    {
        var (house, jobId) = await office.HouseWithJobAsync(h => h.VermiculiteSuspected = true);
        var (desk, url) = (await office.SignInAsOfficeAsync(), $"/houses/{house.HouseId}/work");
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "7/7/2026", ["Input.Days[0].ArriveAt"] = "8:15 am", ["Input.Days[0].Who"] = await CleoAsync() }, Plan);
        await desk.SubmitAsync(url, new() { ["Appointment.Kind"] = "Electrician", ["Appointment.Who"] = "Odell Electric", ["Appointment.Day"] = "7/7/2026", ["Appointment.At"] = "10 am" }, "form[action*='handler=Appointment']:not([action*=Off])");
        var crew = await office.SignInAsInstallerAsync();
        var text = await crew.TextAsync("/work/day?on=7/7/2026");
        foreach (var words in new[] { "Tuesday, July 7, 2026", "8:15 AM", house.Street, "Cleo Marsh", "electrician: Odell Electric", "Asbestos", "Walk the route with the owner" }) Assert.Contains(words, text, StringComparison.Ordinal);
        // The caution of a step stands beside it on the paper that goes along.
        var cautions = await office.WithDbAsync(db => db.Jobs.Where(j => j.Id == jobId).SelectMany(j => j.Steps).Where(s => s.Caution != "").Select(s => s.Caution).ToListAsync());
        Assert.NotEmpty(cautions);
        Assert.All(cautions, c => Assert.Contains(c, text, StringComparison.Ordinal));
        await office.AssertFewStatementsAsync(crew, "/work/day?on=7/7/2026");
        await office.AssertFewStatementsAsync(await office.SignInAsOwnerAsync(), url);
    }

    [Fact]
    public async Task A_job_called_off_gives_its_people_back()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var (desk, url) = (await office.SignInAsOfficeAsync(), $"/houses/{house.HouseId}/work");
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "8/4/2026", ["Input.Days[0].Who"] = await CleoAsync() }, Plan);
        await desk.SubmitAsync(url, new() { ["Closing.CalledOffBecause"] = "Sold" }, "form[action*='handler=CallOff']");
        var day = Assert.Single(await DaysAsync(jobId));
        Assert.NotNull(day.CancelledAtUtc);
        Assert.All(day.Bookings, b => Assert.NotEqual(0, b.GivenBack));
    }
}
