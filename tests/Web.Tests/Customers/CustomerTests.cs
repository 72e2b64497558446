using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Web.Tests.Houses;

namespace MitigationOffice.Web.Tests.Customers;

public sealed class CustomerTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_business_is_added_found_and_corrected()
    {
        var desk = await office.SignInAsOfficeAsync();
        var added = await desk.SubmitAsync("/customers/new", new()
        {
            ["Input.Kind"] = "Business", ["Input.Name"] = "Hazel Court Rentals", ["Input.ContactName"] = "Io Reed", ["Input.Phone"] = "555 555 0160",
        });
        Assert.Equal(HttpStatusCode.Redirect, added.StatusCode);
        var page = added.Headers.Location!.OriginalString;
        Assert.Contains("Hazel Court Rentals", await desk.TextAsync("/customers?find=5550160+reed&kind=Business"), StringComparison.Ordinal);
        Assert.Contains("No customer answers", await desk.TextAsync("/customers?find=hazel&kind=Person"), StringComparison.Ordinal);
        await desk.SubmitAsync(page, new() { ["Input.Email"] = "io@hazel.example" });
        Assert.Equal("io@hazel.example", await office.WithDbAsync(db => db.Customers.Where(c => c.Name == "Hazel Court Rentals").Select(c => c.Email).SingleAsync()));
    }

    [Fact]
    public async Task A_customer_nobody_can_reach_is_refused()
    {
        var desk = await office.SignInAsOfficeAsync();
        var text = await (await desk.SubmitAsync("/customers/new", new() { ["Input.Name"] = "Out Of Reach" })).TextAsync();
        Assert.Contains("one way to reach them", text, StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Customers.AnyAsync(c => c.Name == "Out Of Reach")));
    }

    [Fact]
    public async Task A_double_is_named_with_its_link_and_made_only_when_ticked()
    {
        var desk = await office.SignInAsOfficeAsync();
        var first = (await desk.SubmitAsync("/customers/new", new() { ["Input.Name"] = "Ash Twin", ["Input.Phone"] = "555-555-0170" })).Headers.Location!.OriginalString;
        Dictionary<string, string> again = new() { ["Input.Name"] = "Ash Twin", ["Input.Email"] = "ash@mail.example" };
        var refused = await desk.SubmitAsync("/customers/new", again);
        Assert.Contains("same name", await refused.TextAsync(), StringComparison.Ordinal);
        Assert.Contains($"href=\"{first}\"", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        again["NewEvenSo"] = "true";
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/customers/new", again)).StatusCode);
        Assert.Equal(2, await office.WithDbAsync(db => db.Customers.CountAsync(c => c.Name == "Ash Twin")));
    }

    [Fact]
    public async Task Two_people_who_change_one_customer_see_each_other()
    {
        var desk = await office.SignInAsOfficeAsync();
        var id = await AddAsync("Conflict Cole", "555-555-0180");
        await desk.SubmitAsync($"/customers/{id}", new() { ["Input.Phone"] = "555-555-0181" });
        var late = await desk.SubmitAsync($"/customers/{id}", new() { ["Input.Phone"] = "555-555-0189", ["Version"] = "0" });
        Assert.Contains("They saved “555-555-0181”; you wrote “555-555-0189”.", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Equal("555-555-0181", await office.WithDbAsync(db => db.Customers.Where(c => c.Id == id).Select(c => c.Phone).SingleAsync()));
    }

    [Fact]
    public async Task Their_houses_are_links_with_the_time_they_owned_them()
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("21 Owned Lane", "Lane Owner");
        var customer = await office.WithDbAsync(db => db.HouseOwners.Where(o => o.HouseId == house).Select(o => o.CustomerId).SingleAsync());
        var text = await desk.TextAsync($"/customers/{customer}");
        Assert.Contains("21 Owned Lane, Birchford, MN 55999", text, StringComparison.Ordinal);
        Assert.Contains("since Jan 1, 2020", text, StringComparison.Ordinal);
        Assert.Contains("Lane Owner", await desk.TextAsync($"/houses/new?customer={customer}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_csv_of_customers_keeps_hostile_names_inert()
    {
        var desk = await office.SignInAsOfficeAsync();
        await AddAsync("@SUM(1)", "555-555-0199");
        var text = Encoding.UTF8.GetString(await (await desk.GetAsync("/customers?handler=File")).Content.ReadAsByteArrayAsync());
        Assert.Contains("\r\n'@SUM(1),Person,", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_pages_take_ten_statements_at_most()
    {
        var desk = await office.SignInAsOfficeAsync();
        var id = await AddAsync("Few Statements", "555-555-0190");
        foreach (var url in new[] { "/customers", "/customers?find=few+statements&sort=newest", $"/customers/{id}" }) await office.AssertFewStatementsAsync(desk, url);
    }

    private Task<int> AddAsync(string name, string phone) => office.WithDbAsync(async db =>
    {
        var customer = new Customer { Name = name, Phone = phone };
        customer.MakeSearchable();
        db.Add(customer);
        await db.SaveChangesAsync();
        return customer.Id;
    });
}
