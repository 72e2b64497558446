using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Web.Tests.Houses;

/// <summary>Puts houses on record for tests, through the page or straight into the database.</summary>
public static partial class HouseVerbs
{
    [GeneratedRegex(@"/houses/(\d+)/")]
    private static partial Regex HouseInAddress();

    /// <summary>An inquiry as the form takes it.</summary>
    public static Dictionary<string, string> Inquiry(string street, string name, string phone = "", string email = "") => new()
    {
        ["Owner.New.Name"] = name, ["Owner.New.Phone"] = phone, ["Owner.New.Email"] = email.Length + phone.Length == 0 ? $"{Guid.CreateVersion7():N}@mail.example" : email,
        ["Input.Street"] = street, ["Input.City"] = "Birchford", ["Input.State"] = "MN", ["Input.Zip"] = "55999",
    };

    public static async Task<int> TakeInquiryAsync(this HttpClient client, Dictionary<string, string> inquiry)
    {
        var answer = await client.SubmitAsync("/houses/new", inquiry);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        return HouseId(answer);
    }

    public static int HouseId(HttpResponseMessage answer) =>
        int.Parse(HouseInAddress().Match(answer.Headers.Location!.OriginalString).Groups[1].Value, CultureInfo.InvariantCulture);

    /// <summary>A house with an owner, straight into the records.</summary>
    public static Task<int> AddHouseAsync(this OfficeApp office, string street, string owner = "Wren Alder", string phone = "", DateTime? askedAtUtc = null, string zip = "55999") =>
        office.WithDbAsync(async db =>
        {
            var customer = new Customer { Name = owner, Phone = phone };
            customer.MakeSearchable();
            var house = new House { Street = street, City = "Birchford", State = "MN", Zip = zip, AskedAtUtc = askedAtUtc ?? office.Clock.GetUtcNow().UtcDateTime };
            house.MakeSearchable();
            house.Owners.Add(new HouseOwner { Customer = customer, FromDay = new DateOnly(2020, 1, 1) });
            db.Add(house);
            await db.SaveChangesAsync();
            return house.Id;
        });

    public static Task AddReadingsAsync(this OfficeApp office, int houseId, DateOnly day) => office.WithDbAsync(async db =>
    {
        db.Add(new PressureFieldTest { HouseId = houseId, Day = day });
        await db.SaveChangesAsync();
    });

    public static Task<int> AddSystemAsync(this OfficeApp office, int houseId, string tag, DateTime activatedAtUtc) => office.WithDbAsync(async db =>
    {
        var system = new InstalledSystem { HouseId = houseId, TagNumber = tag, ActivatedAtUtc = activatedAtUtc, CompletedOn = DateOnly.FromDateTime(activatedAtUtc) };
        db.Add(system);
        await db.SaveChangesAsync();
        return system.Id;
    });

    public static Task<House> HouseAsync(this OfficeApp office, int id) => office.WithDbAsync(db =>
        db.Houses.AsNoTracking().Include(h => h.Areas).Include(h => h.Appliances).Include(h => h.EarlierTests).Include(h => h.Owners).ThenInclude(o => o.Customer).SingleAsync(h => h.Id == id));
}
