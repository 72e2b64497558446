using System.Net;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Tests.Work;

/// <summary>Houses at the stages of work and proof.</summary>
public static class WorkVerbs
{
    public sealed record AcceptedHouse(int HouseId, int AcceptanceId, string Street, string Email);

    private static int _made;

    /// <summary>A house whose owner signed an offer; written straight into the records.</summary>
    public static Task<AcceptedHouse> HouseWithAcceptedOfferAsync(
        this OfficeApp office, Action<House>? with = null, DateOnly? cancelBy = null, string addOn = "Freeze-guard heat cable", string? email = null) => office.WithDbAsync(async db =>
    {
        var n = Interlocked.Increment(ref _made);
        var house = new House { Street = $"{n} Heron Court", City = "Birchford", State = "MN", Zip = "55999", TimeZone = "America/Chicago", YearBuilt = 1962, AskedAtUtc = OfficeApp.Start.UtcDateTime };
        house.Areas.Add(new FoundationArea { Name = "Basement", Kind = FoundationKind.Basement, FloorM2 = 90 });
        house.EarlierTests.Add(new EarlierTest { PCiL = 9.6m, Room = "Den", EndedOn = new DateOnly(2026, 1, 20) });
        with?.Invoke(house);
        house.MakeSearchable();
        var customer = new Customer { Name = $"Ines Tarn {n}", Email = email ?? $"ines{n}@house.example" };
        customer.MakeSearchable();
        house.Owners.Add(new HouseOwner { Customer = customer, FromDay = new DateOnly(2015, 5, 1) });
        db.Add(house);
        await db.SaveChangesAsync();
        db.Add(Field(house.Id));
        var pdf = StoredDocument.Of([1, 2, 3], PaperKind.SignedQuote, "Signed", "signed.pdf", "application/pdf", house.Id, OfficeApp.Start.UtcDateTime, "test");
        var quote = new Quote { Number = $"Q-T-{n:0000}", HouseId = house.Id, CustomerId = customer.Id };
        var revision = new QuoteRevision { Letter = "A", State = RevisionState.Accepted };
        revision.Tiers.Add(new QuoteTier { Name = "Sound", Position = 1 });
        revision.AddOns.Add(new QuoteAddOn { Words = addOn, Position = 1, Price = Money.FromDollars(310) });
        quote.Revisions.Add(revision);
        db.AddRange(pdf, quote);
        await db.SaveChangesAsync();
        var acceptance = new Acceptance
        {
            QuoteRevisionId = revision.Id, QuoteTierId = revision.Tiers[0].Id, AddOnIds = $"{revision.AddOns[0].Id}", Total = Money.FromDollars(2310.50m), Deposit = Money.FromDollars(693.15m),
            TypedName = customer.Name, ConsentText = "yes", IntentText = "yes", AtUtc = OfficeApp.Start.UtcDateTime, TimeZone = "America/Chicago", PdfDocumentId = pdf.Id, PdfSha256 = pdf.Sha256, SignedSha256 = "",
            CancelBy = cancelBy ?? new DateOnly(2026, 3, 5), PreviousHash = "", Hash = Convert.ToHexStringLower(SHA256.HashData([(byte)n])),
        };
        db.Add(acceptance);
        await db.SaveChangesAsync();
        return new AcceptedHouse(house.Id, acceptance.Id, house.Street, customer.Email);
    });

    private static PressureFieldTest Field(int houseId)
    {
        var test = new PressureFieldTest { HouseId = houseId, Day = new DateOnly(2026, 2, 10) };
        test.TestHoles.Add(new TestHole { Label = "H1", Position = 1 });
        test.TestHoles.Add(new TestHole { Label = "H2", Position = 2 });
        return test;
    }

    /// <summary>A house with an open job, opened on its page.</summary>
    public static async Task<(AcceptedHouse House, int JobId)> HouseWithJobAsync(this OfficeApp office, Action<House>? with = null, string? email = null)
    {
        var house = await office.HouseWithAcceptedOfferAsync(with, email: email);
        var desk = await office.SignInAsOfficeAsync();
        var opened = await desk.SubmitAsync($"/houses/{house.HouseId}/work", [], "form[action*='handler=Open']");
        Assert.Equal(HttpStatusCode.Redirect, opened.StatusCode);
        return (house, await office.WithDbAsync(db => db.Jobs.Where(j => j.AcceptanceId == house.AcceptanceId).Select(j => j.Id).SingleAsync()));
    }

    /// <summary>A fan of the catalogue to fit.</summary>
    public static Task<int> FanAsync(this OfficeApp office, string model) => office.WithDbAsync(async db =>
    {
        var fan = await db.Fans.FirstOrDefaultAsync(f => f.Model == model);
        if (fan is null)
        {
            db.Fans.Add(fan = new Fan { Model = model, Connection = "4in", WarrantyYears = 5 });
            await db.SaveChangesAsync();
        }

        return fan.Id;
    });

    /// <summary>The as-built of a good system as a person would type it; switched on at 10 in the morning at the house on the office's first day.</summary>
    public static async Task<Dictionary<string, string>> AsBuiltTypedAsync(this OfficeApp office, string tag, string day = "3/2/2026", string time = "8:00 am") => new()
    {
        ["Input.TagNumber"] = tag, ["Input.FanOn.Day"] = day, ["Input.FanOn.Time"] = time, ["Input.FanId"] = $"{await office.FanAsync("Harrow 18")}", ["Input.FanSerial"] = "HX-77",
        ["Input.FanPlace"] = "Outdoors", ["Input.StartUpGauge"] = "0.84", ["Input.StartUpWatts"] = "15.2", ["Input.Outdoor"] = "21 F", ["Input.Alarm"] = "Chime 2", ["Input.AlarmBatteryOn"] = "3/2/2026",
        ["Input.Readings[0].Shown"] = "-4.2", ["Input.Readings[1].Shown"] = "−1.6 Pa",
    };

    /// <summary>A house with a system that runs since the given day at the house (by default the first day of the tests).</summary>
    public static async Task<(int HouseId, int JobId, int SystemId)> HouseWithRunningSystemAsync(this OfficeApp office, string? tag = null, Action<House>? with = null, string? email = null)
    {
        var (house, jobId) = await office.HouseWithJobAsync(with, email);
        var crew = await office.SignInAsInstallerAsync();
        var recorded = await crew.SubmitAsync($"/houses/{house.HouseId}/work/as-built?job={jobId}", await office.AsBuiltTypedAsync(tag ?? $"MN-{house.HouseId:00000}"));
        Assert.True(recorded.StatusCode == HttpStatusCode.Redirect, await recorded.TextAsync());
        return (house.HouseId, jobId, await office.WithDbAsync(db => db.Systems.Where(s => s.JobId == jobId).Select(s => s.Id).SingleAsync()));
    }

    /// <summary>A house whose test after the work was passed with the given result. The clock is moved on to after the test.</summary>
    public static async Task<(int HouseId, int SystemId, int TestId)> HouseWithPassedTestAsync(this OfficeApp office, string result = "0.8", string? email = null)
    {
        var (houseId, _, systemId) = await office.HouseWithRunningSystemAsync(email: email);
        var later = OfficeApp.Start.AddDays(6);
        if (office.Clock.GetUtcNow() < later) office.Clock.SetUtcNow(later);
        var desk = await office.SignInAsOfficeAsync();
        var judged = await desk.SubmitAsync($"/houses/{houseId}/proof/test", TestTyped(result), "main form[method=post]", "button[formaction]");
        Assert.True(judged.StatusCode == HttpStatusCode.Redirect, await judged.TextAsync());
        return (houseId, systemId, await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId).Select(t => t.Id).SingleAsync()));
    }

    /// <summary>A short test as a person would type it: one charcoal device for two days, closed up in time, started two days after the fan.</summary>
    public static Dictionary<string, string> TestTyped(string result) => new()
    {
        ["Input.Closed.Day"] = "3/3/2026", ["Input.Closed.Time"] = "6 pm", ["Input.Started.Day"] = "3/4/2026", ["Input.Started.Time"] = "9:00 am", ["Input.Ended.Day"] = "3/6/2026", ["Input.Ended.Time"] = "10:00 am",
        ["Input.Devices[0].Kind"] = "Charcoal", ["Input.Devices[0].Room"] = "Den", ["Input.Devices[0].Serial"] = "C-101", ["Input.Devices[0].Result"] = result,
    };

    public static Task<InstalledSystem> SystemOfAsync(this OfficeApp office, int houseId) =>
        office.WithDbAsync(db => db.Systems.AsNoTracking().Include(s => s.Components).Include(s => s.FinalSuctions).SingleAsync(s => s.HouseId == houseId));

    public static Task<Job> JobAsync(this OfficeApp office, int jobId) => office.WithDbAsync(db => db.Jobs.AsNoTracking().Include(j => j.Steps).SingleAsync(j => j.Id == jobId));
}
