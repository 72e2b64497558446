using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Benchmarks.Reports;

/// <summary>An office with a great many systems in one month, all invented.</summary>
internal static class ManySystems
{
    internal static async Task FillAsync(Func<OfficeDb> open, int count)
    {
        await using (var db = open())
        {
            await db.Database.MigrateAsync();
            db.Company.Add(new CompanyProfile { Name = "Lantern Ridge Radon", CertificationNumber = "TEST-001", State = "MN" });
            await db.SaveChangesAsync();
        }

        for (var from = 0; from < count; from += 1000)
        {
            await using var db = open();
            db.Audited = false;
            var houses = Enumerable.Range(from, Math.Min(1000, count - from)).Select(House).ToList();
            db.Houses.AddRange(houses);
            await db.SaveChangesAsync();
            db.Systems.AddRange(houses.Select((h, i) => System(h.Id, from + i)));
            db.RadonTests.AddRange(houses.Select((h, i) => Test(h.Id, from + i)));
            await db.SaveChangesAsync();
        }
    }

    private static DateTime On(int i) => new DateTime(2026, 10, 1, 15, 0, 0, DateTimeKind.Utc).AddMinutes(i * 4);

    private static House House(int i)
    {
        var house = new House { Street = $"{i + 1} Larkspur Hill Road", City = "Birchford", County = "Alder", State = "MN", Zip = "55999", AskedAtUtc = On(i).AddDays(-30) };
        house.Areas.Add(new FoundationArea { Name = "Basement", Kind = FoundationKind.Basement, FloorM2 = 90 });
        house.EarlierTests.Add(new EarlierTest { PCiL = 4 + i % 90 / 10m, Device = "Charcoal", StartedOn = new DateOnly(2026, 9, 1), EndedOn = new DateOnly(2026, 9, 4), MadeBy = "M-1" });
        house.Owners.Add(new HouseOwner { FromDay = new DateOnly(2020, 1, 1), Customer = new Customer { Name = string.Create(CultureInfo.InvariantCulture, $"Wren Alder {i}"), Phone = "555-0123" } });
        house.MakeSearchable();
        return house;
    }

    private static InstalledSystem System(int house, int i)
    {
        var day = DateOnly.FromDateTime(On(i));
        var system = new InstalledSystem { HouseId = house, TagNumber = $"T-{i:00000}", ActivatedAtUtc = On(i), CompletedOn = day, FanPlace = "Outside wall", StartUpGaugePa = 224, Backdraft = BackdraftCheck.Passed, Price = Money.FromDollars(1840) };
        system.Components.Add(new SystemComponent { Kind = ComponentKind.Fan, Model = "Larch 42", Serial = $"L{i}", FittedOn = day });
        return system;
    }

    private static RadonTest Test(int house, int i) => new()
    {
        HouseId = house, Reason = TestReason.PostMitigation, StartedAtUtc = On(i).AddDays(1.5), EndedAtUtc = On(i).AddDays(4), Outcome = TestOutcome.BelowTarget, DecidingPCiL = 1.3m, MadeByNumber = "M-77",
        Devices = [new TestDevice { Kind = DeviceKind.ContinuousMonitor, Room = "Basement", PCiL = 1.3m }],
    };
}
