using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>The second half of a demo house's path: from the signature to the judged test.</summary>
internal sealed class DemoWork(OfficeDb db, DemoClock clock, Actor actor, CompanyProfile company, MailSettings mail, DateTimeOffset now)
{
    private static readonly string[] Rooms = ["Basement", "Family room", "Den", "Bedroom"];
    private readonly TimeZoneInfo _zone = HouseTime.Zone(company.TimeZone);

    public async Task PlayAsync(DemoHouse demo, int houseId, SuctionDesign design, int acceptanceId, Action<DemoHouse, int, string> on)
    {
        actor.Name = "Bram Oster";
        var money = new DemoMoney(db, clock, actor, demo.NoEmail ? null : Letterhead.Of(company, mail));
        await money.DepositAsync(acceptanceId, paid: demo.Stage is not DemoStage.Accepted);
        if (demo.Stage == DemoStage.Accepted) return;
        var jobId = await OpenJob.RunAsync(db, acceptanceId, clock) ?? throw new InvalidOperationException($"{demo.Street}: no job.");
        var day = demo.Stage switch { DemoStage.Planned => demo.DaysAgo + 4, DemoStage.PlannedLate => demo.DaysAgo - 1, _ => 14 };
        await PlanAsync(jobId, acceptanceId, demo, day);
        if (demo.Stage is DemoStage.Planned or DemoStage.PlannedLate) return;
        on(demo, day, "Cleo Marsh");
        var system = await BuildAsync(demo, houseId, design, jobId);
        await money.BalanceAsync(acceptanceId);
        if (demo.Stage == DemoStage.TestWaiting) return;
        await TestAsync(demo, houseId, system, day, on);
        await money.SettleAsync(houseId, demo.Stage);
    }

    private async Task PlanAsync(int jobId, int acceptanceId, DemoHouse demo, int day)
    {
        var job = await db.Jobs.SingleAsync(j => j.Id == jobId);
        var accepted = await db.Acceptances.AsNoTracking().SingleAsync(a => a.Id == acceptanceId);
        var inquiry = await db.Houses.Where(h => h.Id == job.HouseId).Select(h => h.AskedAtUtc).SingleAsync();
        var (people, first) = (await BookablesAsync(), HouseTime.DayOf(inquiry, _zone).AddDays(day));
        if (demo.Stage == DemoStage.Planned) first = await FreeDayAsync(first, people);
        List<string> who = await AreFreeAsync(first, people) ? [.. people.Select(p => p.Key)] : [];
        List<PlanDays.Row> days = [new(null, first, DayPart.WholeDay, new TimeOnly(8, 0), who)];
        if (demo.TwoDays) days.Add(new(null, first.AddDays(1), DayPart.Morning, new TimeOnly(8, 0), [people[0].Key]));
        var refused = await PlanJob.WriteAsync(db, job, new(days, people[0].Name, ""), HouseTime.DayOf(accepted.AtUtc, _zone), accepted.CancelBy, people, clock.Utc);
        if (demo.TwoDays) PutAround(job, first);
        if (refused.Count > 0) throw new InvalidOperationException($"{demo.Street}: {refused[0].Words}");
        await db.SaveChangesAsync();
    }

    /// <summary>Cleo and the van.</summary>
    private async Task<IReadOnlyList<Bookable>> BookablesAsync()
    {
        var cleo = await db.Users.Where(u => u.FullName == "Cleo Marsh").Select(u => u.Id).FirstAsync();
        var van = await db.Vehicles.OrderBy(v => v.Id).Select(v => v.Id).FirstOrDefaultAsync();
        return van == 0 ? [new($"p{cleo}", "Cleo Marsh")] : [new($"p{cleo}", "Cleo Marsh"), new($"v{van}", "Blue van")];
    }

    /// <summary>The first working day from the given one on which they are free that day and the next.</summary>
    private async Task<DateOnly> FreeDayAsync(DateOnly day, IReadOnlyList<Bookable> who)
    {
        while (IsWeekend(day) || IsWeekend(day.AddDays(1)) || !await AreFreeAsync(day, who) || !await AreFreeAsync(day.AddDays(1), who)) day = day.AddDays(1);
        return day;
    }

    private static bool IsWeekend(DateOnly day) => day.DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday;

    private async Task<bool> AreFreeAsync(DateOnly day, IReadOnlyList<Bookable> who)
    {
        var keys = who.Select(w => w.Key).ToList();
        return !await db.Bookings.AnyAsync(b => keys.Contains(b.Resource) && b.GivenBack == 0 && b.Day == day);
    }

    /// <summary>What a larger job has around it.</summary>
    private void PutAround(Job job, DateOnly first)
    {
        (job.PermitNumber, job.PermitAskedOn, job.PermitGrantedOn, job.PermitUntil) = ("BP-4417", first.AddDays(-3), first.AddDays(-1), first.AddDays(120));
        (job.DigTicket, job.DigFrom, job.DigUntil) = ("DT-90812", first.AddDays(-1), first.AddDays(13));
        db.Appointments.Add(new Appointment { JobId = job.Id, HouseId = job.HouseId, Kind = AppointmentKind.Electrician, Who = "Odell Electric", Phone = "(218) 555-0161", Day = first.AddDays(1), At = new TimeOnly(9, 30), Words = "Disconnect beside the fan", ChangedAtUtc = clock.Utc, CalendarUid = PrivateLink.Make().Hash[..32] });
        db.Appointments.Add(new Appointment { JobId = job.Id, HouseId = job.HouseId, Kind = AppointmentKind.Inspector, Who = "City of Birchford, building inspection", Day = first.AddDays(2), At = new TimeOnly(13, 0), ChangedAtUtc = clock.Utc, CalendarUid = PrivateLink.Make().Hash[..32] });
    }

    private async Task<InstalledSystem> BuildAsync(DemoHouse demo, int houseId, SuctionDesign design, int jobId)
    {
        var job = await db.Jobs.Include(j => j.Steps).SingleAsync(j => j.Id == jobId);
        await TickSteps.RunAsync(db, jobId, [.. job.Steps.Select(s => new TickSteps.Tick(s.Id, false, true, "", ""))], "", "", actor.Name, clock.Utc);
        var fan = await db.Fans.AsNoTracking().SingleAsync(f => f.Id == design.FanId);
        var foreseen = (await ComputeDesign.ReadAsync(db, design)).Report!.Fans.Single(f => f.Model == fan.Model);
        var today = HouseTime.DayOf(clock.Utc, _zone);
        var total = await db.Acceptances.Where(a => a.Id == job.AcceptanceId).Select(a => a.Total).SingleAsync();
        var gauge = Math.Round(foreseen.PitVacuumPa / 249.08891 * 20, 0, MidpointRounding.AwayFromZero) / 20;
        var (system, refusals) = await Commission.RunAsync(db, new AsBuilt
        {
            HouseId = houseId, JobId = jobId, SuctionDesignId = design.Id, TagNumber = $"BF-{houseId:0000}", ActivatedAtUtc = clock.Utc.AddHours(1), CompletedOn = today,
            SystemType = "Sub-slab suction", PipeSize = "4in", FanPlace = demo.Route == "attic" ? "Attic" : "Outdoors", StartUpGaugePa = gauge * 249.08891,
            StartUpGaugeAsEntered = $"{gauge} inWC", StartUpWatts = Math.Round(foreseen.Watts * 1.02, 1, MidpointRounding.AwayFromZero),
            NothingDraws = !demo.NaturalDraft, Drafts = [.. (await DraftingAsync(houseId)).Select(a => new CheckedDraft(a, DraftResult.Draws, 0.5m))], Instrument = DemoQuality.Manometer, Price = total,
            Parts =
            [
                new(ComponentKind.Fan, fan.Model, $"H{houseId * 7919 % 100000:00000}") { FanId = fan.Id, WarrantyUntil = today.AddYears(fan.WarrantyYears) },
                new(ComponentKind.Gauge, "U-tube manometer"), new(ComponentKind.Alarm, "Sounding alarm") { BatteryFittedOn = today },
            ],
            Readings = [.. foreseen.Holes.Select((h, i) => new FinalReading(h.Label, Math.Round(Math.Max(0, h.NowPa * (0.94 + 0.03 * i)), 1, MidpointRounding.AwayFromZero), h.NowPa) { FanOffPa = -0.4 - 0.1 * i })],
            Electrician = "Odell Electric", ElectricianLicence = "EL-2207", WiringSignedOn = today, SecondBranch = demo.Ground == "divided" ? "Capped tee beside the fan" : "",
        }, clock.Utc.AddHours(2));
        if (system is null) throw new InvalidOperationException($"{demo.Street}: {refusals[0].Words}");
        job = await db.Jobs.Include(j => j.Steps).SingleAsync(j => j.Id == jobId);
        var open = FinishJob.Write(job, today, today, asBuiltRecorded: true);
        if (open.Count > 0) throw new InvalidOperationException($"{demo.Street}: {open[0].Words}");
        await PlanDays.TakeOffAsync(db, PlanDays.Owner.OfJob(houseId, jobId), today, clock.Utc);
        await db.SaveChangesAsync();
        await PrintPapers.RunAsync(db, system.Id, [], mail.PublicAddress, LabelSize.FourBySix, clock.Utc.AddHours(2), actor.Name);
        if (demo.Service) await CallAsync(houseId, system);
        return system;
    }

    private Task<List<string>> DraftingAsync(int houseId) => db.Houses.Where(h => h.Id == houseId).SelectMany(h => h.Appliances).Where(a => a.Draft == Business.Houses.Draft.Natural).Select(a => a.Name).ToListAsync();

    /// <summary>The house owner scanned the label this morning: the gauge is down, and it is cold.</summary>
    private Task<ServiceCall> CallAsync(int houseId, InstalledSystem system) => OpenCall.RunAsync(db,
        new(houseId, system.Id, Sign.GaugeLower, "It was higher last month. I am home after four.", "Petra Holloway", "(218) 555-0148", "")
        {
            GaugePa = system.StartUpGaugePa * 0.6, GaugeAsEntered = Measures.GaugePressure.Show(system.StartUpGaugePa * 0.6), OutdoorC = -19, ByOwnPage = true,
        }, PrivateLink.Make().Hash, now.UtcDateTime.AddHours(-3));

    private async Task TestAsync(DemoHouse demo, int houseId, InstalledSystem system, int day, Action<DemoHouse, int, string> on)
    {
        on(demo, day + 3, "Bram Oster");
        var readings = demo.Results.Count > 0 ? demo.Results.Select(r => (decimal?)r).ToList() : [null];
        var test = new RadonTest
        {
            HouseId = houseId, InstalledSystemId = system.Id, Reason = TestReason.PostMitigation, ClosedHouseFromUtc = clock.Utc.AddHours(-14), StartedAtUtc = clock.Utc,
            MadeBy = demo.Monitor ? company.Name : "Birchford Test House", MadeByNumber = demo.Monitor ? company.CertificationNumber : "TL-118",
            Devices = demo.Monitor
                ? [new TestDevice { Kind = DeviceKind.ContinuousMonitor, Serial = DemoQuality.Monitor, Room = Rooms[1] }]
                : [.. readings.Select((r, i) => new TestDevice { Kind = DeviceKind.Charcoal, Serial = $"C{houseId:000}{i + 1}", Room = Rooms[i % Rooms.Length], PCiL = r, Pair = demo.Beside is null ? "" : "A" })],
        };
        if (demo.Beside is { } beside) test.Devices.Add(new TestDevice { Kind = DeviceKind.Charcoal, Serial = $"C{houseId:000}9", Room = Rooms[0], PCiL = beside, Pair = "A", ApartM = 0.1016 });
        db.Add(test);
        await db.SaveChangesAsync();
        if (demo.Stage == DemoStage.DevicesOut) return;
        on(demo, day + 6, "Bram Oster");
        test.EndedAtUtc = clock.Utc;
        if (demo.Monitor) await new DemoQuality(db, actor).KeepFileAsync(test, system.ActivatedAtUtc, _zone, demo.Results[0], clock.Utc);
        JudgeTest.Write(test, system.ActivatedAtUtc, company.TargetPCiL, _zone, clock.Utc);
        await db.SaveChangesAsync();
        await SettlePhases.RunAsync(db, clock.Utc, houseId);
        await SendResult.RunAsync(db, test.Id, demo.NoEmail ? null : Letterhead.Of(company, mail), _zone, clock.Utc, actor.Name);
    }
}
