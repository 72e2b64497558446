using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>The second half of a demo house's path: from the signature to the judged test.</summary>
internal sealed class DemoWork(OfficeDb db, DemoClock clock, Actor actor, CompanyProfile company, MailSettings mail)
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
        var plan = new PlanJob.Plan(HouseTime.DayOf(inquiry, _zone).AddDays(day), new TimeOnly(8, 0), "Cleo Marsh", "");
        var refused = PlanJob.Write(job, plan, HouseTime.DayOf(accepted.AtUtc, _zone), accepted.CancelBy);
        if (refused.Count > 0) throw new InvalidOperationException($"{demo.Street}: {refused[0].Words}");
        (job.DepositReceived, job.DepositReceivedOn) = (accepted.Deposit, HouseTime.DayOf(accepted.AtUtc, _zone).AddDays(1));
        await db.SaveChangesAsync();
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
            Backdraft = demo.NaturalDraft ? BackdraftCheck.Passed : BackdraftCheck.NothingToCheck, Price = total,
            Parts =
            [
                new(ComponentKind.Fan, fan.Model, $"H{houseId * 7919 % 100000:00000}") { FanId = fan.Id, WarrantyUntil = today.AddYears(fan.WarrantyYears) },
                new(ComponentKind.Gauge, "U-tube manometer"), new(ComponentKind.Alarm, "Sounding alarm") { BatteryFittedOn = today },
            ],
            Readings = [.. foreseen.Holes.Select((h, i) => new FinalReading(h.Label, Math.Round(Math.Max(0, h.NowPa * (0.94 + 0.03 * i)), 1, MidpointRounding.AwayFromZero), h.NowPa))],
        }, clock.Utc.AddHours(2));
        if (system is null) throw new InvalidOperationException($"{demo.Street}: {refusals[0].Words}");
        job = await db.Jobs.Include(j => j.Steps).SingleAsync(j => j.Id == jobId);
        var open = FinishJob.Write(job, today, today, asBuiltRecorded: true);
        if (open.Count > 0) throw new InvalidOperationException($"{demo.Street}: {open[0].Words}");
        await db.SaveChangesAsync();
        await PrintPapers.RunAsync(db, system.Id, [], clock.Utc.AddHours(2), actor.Name);
        return system;
    }

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
        await SendResult.RunAsync(db, test.Id, demo.NoEmail ? null : Letterhead.Of(company, mail), _zone, clock.Utc, actor.Name);
    }
}
