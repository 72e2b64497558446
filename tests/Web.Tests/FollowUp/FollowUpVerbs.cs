using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Messages;

namespace MitigationOffice.Web.Tests.FollowUp;

public static class FollowUpVerbs
{
    /// <summary>What the jobs do in an hour: plan, queue what is due, send, note what was sent.</summary>
    public static async Task RunFollowUpAsync(this OfficeApp office)
    {
        await office.WithDbAsync(db => PlanReminders.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime));
        await office.WithAsync<QueueDueReminders, int>(queue => queue.RunAsync());
        await office.SendOutboxAsync();
        await office.WithDbAsync(db => SettleReminders.NoteSentAsync(db));
    }

    /// <summary>A house with an owner and a running system; returns its number and the system's.</summary>
    public static Task<(int HouseId, int SystemId)> AddHouseWithSystemAsync(
        this OfficeApp office, string email, DateTime activatedAtUtc, DateOnly? batteryOn = null, string zone = "", string street = "14 Larkspur Hill Road") => office.WithDbAsync(async db =>
    {
        var house = new House { Street = street, City = "Birchford", County = "Alder", State = "MN", Zip = "55999", TimeZone = zone, AskedAtUtc = activatedAtUtc.AddDays(-30) };
        house.Areas.Add(new FoundationArea { Name = "Basement", Kind = FoundationKind.Basement, FloorM2 = 90 });
        house.MakeSearchable();
        var customer = new Customer { Name = "Wren Alder", Email = email, Phone = "555-0123" };
        customer.MakeSearchable();
        db.HouseOwners.Add(new HouseOwner { House = house, Customer = customer, FromDay = DateOnly.FromDateTime(activatedAtUtc.AddDays(-30)) });
        await db.SaveChangesAsync();
        var system = ASystem(house.Id, activatedAtUtc, batteryOn);
        db.Systems.Add(system);
        await db.SaveChangesAsync();
        return (house.Id, system.Id);
    });

    private static int _tags;

    public static InstalledSystem ASystem(int houseId, DateTime activatedAtUtc, DateOnly? batteryOn = null)
    {
        var day = DateOnly.FromDateTime(activatedAtUtc);
        var system = new InstalledSystem
        {
            HouseId = houseId, TagNumber = $"T-{Interlocked.Increment(ref _tags):0000}", ActivatedAtUtc = activatedAtUtc, CompletedOn = day,
            FanPlace = "Outside wall", StartUpGaugePa = 224, StartUpWatts = 42, Backdraft = BackdraftCheck.NothingToCheck, Price = Money.FromDollars(1840),
        };
        if (batteryOn is { } on) system.Components.Add(new SystemComponent { Kind = ComponentKind.Alarm, Model = "Chime 9", FittedOn = day, BatteryFittedOn = on });
        return system;
    }

    public static Task<int> AddTestAsync(this OfficeApp office, int houseId, DateTime endedAtUtc, TestOutcome outcome = TestOutcome.BelowTarget, TestReason reason = TestReason.PostMitigation) =>
        office.WithDbAsync(async db =>
        {
            var test = new RadonTest
            {
                HouseId = houseId, Reason = reason, StartedAtUtc = endedAtUtc.AddHours(-72), EndedAtUtc = endedAtUtc, Outcome = outcome, DecidingPCiL = 1.3m,
                JudgedAtUtc = endedAtUtc, MadeBy = "Ivo Pell", MadeByNumber = "M-77",
                Devices = [new TestDevice { Kind = DeviceKind.ContinuousMonitor, Serial = "CM-1", Room = "Basement", PCiL = 1.3m }],
            };
            db.RadonTests.Add(test);
            await db.SaveChangesAsync();
            return test.Id;
        });

    public static DateTime Utc(int year, int month, int day, int hour = 17, int minute = 0) => new(year, month, day, hour, minute, 0, DateTimeKind.Utc);

    /// <summary>Turns the clock to a local time at the company's place (Chicago).</summary>
    public static void ClockTo(this OfficeApp office, DateOnly day, int hour, int minute = 0, string zone = "America/Chicago") =>
        office.Clock.SetUtcNow(new DateTimeOffset(HouseTime.ToUtc(day, new TimeOnly(hour, minute), TimeZoneInfo.FindSystemTimeZoneById(zone)), TimeSpan.Zero));
}
