using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Endurance;

/// <summary>An office with many houses, each of whose radon test is two years old: as many reminders are due at once.</summary>
public static class FillOffice
{
    public static async Task RunAsync(ServiceProvider office, int houses, DateTime nowUtc)
    {
        await FillAsync(office, houses, nowUtc, everyRule: false);
        await using var last = office.CreateAsyncScope();
        await PlanReminders.RunAsync(last.ServiceProvider.GetRequiredService<OfficeDb>(), nowUtc);
    }

    /// <param name="everyRule">All rules, each house with a gauge and an alarm, the tests spread over two years, every tenth without e-mail;
    /// otherwise only the retest, due everywhere at once.</param>
    public static async Task FillAsync(ServiceProvider office, int houses, DateTime nowUtc, bool everyRule)
    {
        await using (var scope = office.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
            await db.Database.MigrateAsync();
            await FirstRecords.EnsureAsync(db, CancellationToken.None);
            if (!everyRule) await OnlyRetestsAsync(db);
        }

        for (var from = 0; from < houses; from += 500) await AddAsync(office, from, Math.Min(500, houses - from), nowUtc, everyRule);
    }

    private static async Task OnlyRetestsAsync(OfficeDb db)
    {
        var company = await db.Company.SingleAsync();
        (company.Name, company.Email, company.Phone) = ("Lantern Ridge Radon", "office@lanternridge.example", "555-0100");
        (company.Street, company.City, company.State, company.Zip) = ("8 Quarry Lane", "Birchford", "MN", "55999");
        foreach (var rule in await db.ReminderRules.ToListAsync()) rule.Off = rule.Code != SeedReminderRules.Retest;
        await db.SaveChangesAsync();
    }

    private static async Task AddAsync(ServiceProvider office, int from, int count, DateTime nowUtc, bool everyRule)
    {
        await using var scope = office.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
        db.Audited = false;
        var activated = nowUtc.AddYears(-2).AddDays(-20);
        var made = Enumerable.Range(from, count).Select(i => new House { Street = $"{i} Larkspur Hill Road", City = "Birchford", State = "MN", Zip = "55999", AskedAtUtc = activated.AddDays(-30) }).ToList();
        foreach (var house in made)
        {
            house.MakeSearchable();
            db.HouseOwners.Add(new HouseOwner { House = house, Customer = new Customer { Name = "Wren Alder", Email = everyRule && made.IndexOf(house) % 10 == 0 ? "" : $"h{from + made.IndexOf(house)}@wren.example" }, FromDay = DateOnly.FromDateTime(activated) });
        }

        await db.SaveChangesAsync();
        foreach (var house in made)
        {
            var on = everyRule ? activated.AddDays(house.Id % 730) : activated;
            var system = new InstalledSystem { HouseId = house.Id, TagNumber = $"T-{house.Id:00000}", ActivatedAtUtc = on, CompletedOn = DateOnly.FromDateTime(on) };
            if (everyRule)
                system.Components =
                [
                    new SystemComponent { Kind = ComponentKind.Gauge, Model = "U-tube manometer", FittedOn = system.CompletedOn },
                    new SystemComponent { Kind = ComponentKind.Fan, Model = "North 3", FittedOn = system.CompletedOn, WarrantyUntil = system.CompletedOn.AddYears(5) },
                    new SystemComponent { Kind = ComponentKind.Alarm, Model = "Chime 9", FittedOn = system.CompletedOn, BatteryFittedOn = system.CompletedOn },
                ];
            db.Systems.Add(system);
            db.RadonTests.Add(new RadonTest { HouseId = house.Id, StartedAtUtc = on.AddDays(5), EndedAtUtc = on.AddDays(8), Outcome = TestOutcome.BelowTarget, DecidingPCiL = 1.2m });
        }

        await db.SaveChangesAsync();
    }
}
