using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Staff;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>Loads the invented company once: each house is played through the office's own acts, dated back. A second run adds nothing.</summary>
public static class LoadDemo
{
    public const string Password = "copper kettle seven larks";

    public static async Task RunAsync(IServiceProvider services, CancellationToken cancel)
    {
        var clock = new DemoClock(services.GetRequiredService<TimeProvider>().GetUtcNow());
        var actor = new Actor();
        await using var db = new OfficeDb(services.GetRequiredService<DbContextOptions<OfficeDb>>(), clock, actor);
        await PeopleAsync(services.GetRequiredService<UserManager<StaffMember>>());
        var wanted = DemoFiles.Houses();
        var known = await db.Houses.Select(h => h.AddressKey).ToListAsync(cancel);
        var missing = wanted.Where(h => !known.Contains(SearchText.AddressKey(h.Street, DemoFiles.Company().Zip))).ToList();
        if (missing.Count == 0) return;
        await CompanyAsync(db, clock, cancel);
        await FanFile.ApplyAsync(db, FanFile.Read(DemoFiles.Text("fans.csv")).Fans);
        await PriceBookFile.ApplyAsync(db, PriceBookFile.Read(DemoFiles.Text("prices.csv")));
        if (!await db.Vehicles.AnyAsync(cancel)) db.Vehicles.AddRange(new Vehicle { Name = "Blue van", Plate = "LR 12" }, new Vehicle { Name = "Trailer" });
        await db.SaveChangesAsync(cancel);
        var now = clock.At;
        var quality = new DemoQuality(db, actor);
        var today = DateOnly.FromDateTime(clock.Utc);
        await quality.InstrumentsAsync(today);
        var path = new DemoPath(db, clock, actor, services.GetRequiredService<MailSettings>());
        foreach (var house in missing.OrderByDescending(h => h.DaysAgo)) await path.PlayAsync(house, now, cancel);
        clock.At = now;
        await quality.ChecksAsync(today, clock.Utc);
        await quality.KitsAsync(today);
        await quality.ExposureAsync(clock.Utc);
        await SettlePastAsync(db, clock, cancel);
        await PlanReminders.RunAsync(db, clock.Utc, [new ReportDays()], cancel);
        // What fell due in the played past was said then; without this the first morning would mail it all. Letters are left to be printed.
        var told = today.AddDays(-4);
        var byLetter = wanted.Where(h => h.NoEmail).Select(h => SearchText.AddressKey(h.Street, DemoFiles.Company().Zip)).ToList();
        foreach (var id in await db.Reminders.Where(r => r.State == ReminderState.Planned && r.SendOn < told && db.Houses.Any(h => h.Id == r.HouseId && !byLetter.Contains(h.AddressKey))).Select(r => r.Id).ToListAsync(cancel))
            await SettleReminders.DoneByHandAsync(db, id, "Bram Oster", "told on the phone");
    }

    private static async Task PeopleAsync(UserManager<StaffMember> users)
    {
        foreach (var person in DemoFiles.Company().People)
        {
            if (await users.FindByEmailAsync(person.Email) is not null) continue;
            var made = await users.CreateAsync(new StaffMember { UserName = person.Email, Email = person.Email, FullName = person.Name, Role = person.Role }, Password);
            if (!made.Succeeded) throw new InvalidOperationException(string.Join(' ', made.Errors.Select(e => e.Description)));
        }
    }

    private static async Task CompanyAsync(OfficeDb db, DemoClock clock, CancellationToken cancel)
    {
        var (from, to) = (DemoFiles.Company(), await db.Company.SingleAsync(cancel));
        (to.Name, to.Street, to.City, to.State, to.Zip, to.Phone, to.Email) = (from.Name, from.Street, from.City, from.State, from.Zip, from.Phone, from.Email);
        (to.TimeZone, to.CertificationNumber, to.StateProgram, to.StateProgramPhone) = (from.TimeZone, from.CertificationNumber, from.StateProgram, from.StateProgramPhone);
        (to.TaxPercent, to.ElectricityCentsPerKWh, to.ElectricityPriceSource) = (from.TaxPercent, from.ElectricityCentsPerKWh, from.ElectricityPriceSource);
        (to.DesignWinterC, to.JanuaryMeanC, to.MeanAnnualC, to.HeatingDegreeDaysC) = (from.DesignWinterC, from.JanuaryMeanC, from.MeanAnnualC, from.HeatingDegreeDaysC);
        (to.ElevationM, to.WinterDays) = (from.ElevationM, from.WinterDays);
        to.QuoteIntroduction = "Thank you for having us in your house. This is what we measured, what we would do about it, and what it costs now and to run.";
        var today = DateOnly.FromDateTime(clock.Utc);
        if (!await db.Licences.AnyAsync(cancel))
            db.Licences.AddRange(from.Licences.Select(l => new Licence { Holder = l.Holder, Number = l.Number, IssuedBy = l.IssuedBy, ExpiresOn = today.AddDays(l.ExpiresInDays), EducationMinutesNeeded = 16 * 60, Courses = [new EducationCourse { Day = today.AddDays(-140), Title = "Sumps and drain tile", Minutes = 8 * 60 }] }));
        await db.SaveChangesAsync(cancel);
    }

    /// <summary>Mail of the played past is not sent today, and the months before the last one are reported.</summary>
    private static async Task SettlePastAsync(OfficeDb db, DemoClock clock, CancellationToken cancel)
    {
        foreach (var message in await db.Outbox.Where(m => m.State == DeliveryState.Waiting && m.CreatedAtUtc < clock.Utc.AddDays(-1)).ToListAsync(cancel))
            (message.State, message.SentAtUtc, message.LastAnswer) = (DeliveryState.Sent, message.CreatedAtUtc, "Part of the demo's past; not sent.");
        await db.SaveChangesAsync(cancel);
        var zone = HouseTime.Zone((await db.Company.AsNoTracking().SingleAsync(cancel)).TimeZone);
        var month = HouseTime.DayOf(clock.Utc, zone);
        month = new DateOnly(month.Year, month.Month, 1).AddMonths(-2);
        var run = await FreezeReport.RunAsync(db, ProfileBook.General, ReportPeriod.Of(PeriodKind.Month, month).Name, "Bram Oster", "Ada Quill", clock.Utc, withGaps: true, cancel);
        db.ReportSendings.Add(new ReportSending { ReportRunId = run.Id, SentOn = HouseTime.DayOf(clock.Utc, zone), How = "the state's web page", Confirmation = "SR-10417" });
        await db.SaveChangesAsync(cancel);
    }
}
