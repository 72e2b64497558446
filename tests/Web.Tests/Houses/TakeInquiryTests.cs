using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Web.Tests.Houses;

public sealed class TakeInquiryTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task One_form_makes_the_customer_the_house_and_its_rows()
    {
        var desk = await office.SignInAsOfficeAsync();
        var inquiry = HouseVerbs.Inquiry("14 Larkspur Hill", "Wren Alder", "(555) 555-0142", "wren@mail.example");
        foreach (var (field, typed) in new[]
        {
            ("Input.County", "Tamarack"), ("Input.YearBuilt", "1961"), ("Input.Storeys", "1.5"), ("Input.Building", "SingleFamily"), ("Input.Sump", "Open"),
            ("Input.VermiculiteSuspected", "true"), ("Input.EarlierTests[0].Level", "7.4 pCi/L"), ("Input.EarlierTests[0].Room", "Basement"), ("Input.EarlierTests[0].EndedOn", "2/20/2026"),
            ("Input.Areas[0].Kind", "Basement"), ("Input.Areas[0].Floor", "1,040 sq ft"), ("Input.Appliances[0].Name", "Water heater"), ("Input.Appliances[0].Draft", "Natural"),
        }) inquiry[field] = typed;
        var house = await office.HouseAsync(await desk.TakeInquiryAsync(inquiry));
        Assert.Equal("14 Larkspur Hill, Birchford, MN 55999", house.AddressLine);
        Assert.Equal(("Wren Alder", new DateOnly(2026, 3, 2)), (house.Owners.Single().Customer!.Name, house.Owners.Single().FromDay));
        Assert.Equal((7.4m, "Basement"), (house.EarlierTests.Single().PCiL, house.EarlierTests.Single().Room));
        // 1 ft² is 0.09290304 m² exactly (international foot of 0.3048 m, squared).
        Assert.Equal(1040 * 0.09290304, house.Areas.Single().FloorM2, 9);
        Assert.Equal(Draft.Natural, house.Appliances.Single().Draft);
        Assert.Equal((1961, 1.5, SumpKind.Open, true), (house.YearBuilt, house.StoreysAboveGrade, house.Sump, house.VermiculiteSuspected));
    }

    [Fact]
    public async Task An_empty_form_says_what_is_missing_and_saves_nothing()
    {
        var desk = await office.SignInAsOfficeAsync();
        var before = await CountsAsync();
        var text = await (await desk.SubmitAsync("/houses/new", [])).TextAsync();
        foreach (var words in new[] { "Write the customer's name.", "Write the street and number.", "Write the city.", "Write the ZIP code." })
            Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Equal(before, await CountsAsync());
    }

    [Theory]
    [InlineData("Input.YearBuilt", "12", "must be between 1600")]
    [InlineData("Input.Storeys", "-3", "must be between 0.5 and 60")]
    [InlineData("Input.Zip", "5599", "five digits")]
    [InlineData("Input.Building", "Castle", "from the list")]
    [InlineData("Input.EarlierTests[0].Level", "many", "Write the radon level as a number")]
    [InlineData("Input.EarlierTests[0].Level", "-4", "must be between 0 and")]
    [InlineData("Input.EarlierTests[0].EndedOn", "2/30/2026", "month/day/year")]
    [InlineData("Input.Areas[0].Floor", "-900", "out of range")]
    [InlineData("Input.DesignWinter", "900 °F", "out of range")]
    [InlineData("Input.TimeZone", "Mars/Base", "not a time zone")]
    [InlineData("Owner.New.Email", "no at sign", "not an e-mail address")]
    [InlineData("Owner.New.Phone", "12", "with its area code")]
    public async Task Absurd_values_are_refused_in_words_and_stay_in_the_form(string field, string typed, string words)
    {
        var desk = await office.SignInAsOfficeAsync();
        var before = await CountsAsync();
        var inquiry = HouseVerbs.Inquiry("90 Absurd Way", "Odd Person");
        inquiry[field] = typed;
        var answer = await desk.SubmitAsync("/houses/new", inquiry);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
        if (field != "Input.Building") Assert.Contains(WebUtility.HtmlEncode(typed).Replace("&#176;", "&#xB0;", StringComparison.Ordinal), await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(before, await CountsAsync());
    }

    [Theory]
    [InlineData("\"><svg onload=x>")]
    [InlineData("</script><b>x")]
    [InlineData("Zoë Åsgård 井上 🏠")]
    [InlineData("=cmd|' /C calc'!A0")]
    public async Task A_hostile_name_is_kept_as_written_and_shown_as_text(string name)
    {
        var desk = await office.SignInAsOfficeAsync();
        var id = await desk.TakeInquiryAsync(HouseVerbs.Inquiry($"{name} Street 1", name));
        foreach (var url in new[] { $"/houses/{id}/inquiry", "/houses", $"/houses/{id}/papers", "/customers", "/" })
        {
            var html = await (await desk.GetAsync(url)).Content.ReadAsStringAsync();
            Assert.DoesNotContain("<svg onload", html, StringComparison.Ordinal);
            Assert.DoesNotContain("</script><b>", html, StringComparison.Ordinal);
        }

        Assert.Contains(name, await desk.TextAsync($"/houses/{id}/inquiry"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_name_of_five_thousand_letters_is_refused_in_words()
    {
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync("/houses/new", HouseVerbs.Inquiry("1 Long Street", new string('n', 5000)));
        Assert.Contains("longer than 200 characters", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_form_sent_twice_makes_one_house()
    {
        var desk = await office.SignInAsOfficeAsync();
        var inquiry = HouseVerbs.Inquiry("2 Double Click Court", "Twice Clicked");
        inquiry["_once"] = "inquiry-sent-twice";
        var answers = await Task.WhenAll(desk.SubmitAsync("/houses/new", inquiry), desk.SubmitAsync("/houses/new", inquiry));
        Assert.Equal(answers[0].Headers.Location, answers[1].Headers.Location);
        Assert.Equal(1, await office.WithDbAsync(db => db.Houses.CountAsync(h => h.Street == "2 Double Click Court")));
    }

    [Fact]
    public async Task An_address_on_record_is_noticed_however_it_is_written_and_may_be_doubled_knowingly()
    {
        var desk = await office.SignInAsOfficeAsync();
        var first = await desk.TakeInquiryAsync(HouseVerbs.Inquiry("77 North Quarry Road", "First Asker"));
        var again = HouseVerbs.Inquiry("77 N. QUARRY RD", "Second Asker");
        var refused = await desk.SubmitAsync("/houses/new", again);
        Assert.Contains("A house at this address is on record", await refused.TextAsync(), StringComparison.Ordinal);
        Assert.Contains($"/houses/{first}/inquiry", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Customers.AnyAsync(c => c.Name == "Second Asker")));
        again["NewHouseEvenSo"] = "true";
        Assert.NotEqual(first, await desk.TakeInquiryAsync(again));
    }

    [Theory]
    [InlineData("Somebody", "+1 555.555.0177", "", "same phone number")]
    [InlineData("Somebody", "", "DOUBLE@mail.example", "same e-mail address")]
    [InlineData("double, Original", "", "", "same name")]
    public async Task A_customer_on_record_is_noticed(string name, string phone, string email, string why)
    {
        var desk = await office.SignInAsOfficeAsync();
        if (!await office.WithDbAsync(db => db.Customers.AnyAsync(c => c.Name == "Double Original")))
            await desk.TakeInquiryAsync(HouseVerbs.Inquiry("5 Original Lane", "Double Original", "(555) 555-0177", "double@mail.example"));
        var refused = await desk.SubmitAsync("/houses/new", HouseVerbs.Inquiry($"6 {why}", name, phone, email));
        Assert.Equal(HttpStatusCode.OK, refused.StatusCode);
        Assert.Contains(why, await refused.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_customer_on_record_is_looked_up_chosen_and_gets_a_second_house()
    {
        var desk = await office.SignInAsOfficeAsync();
        await desk.TakeInquiryAsync(HouseVerbs.Inquiry("1 First House", "Landlord Fern", "555-555-0188"));
        var customer = await office.WithDbAsync(db => db.Customers.SingleAsync(c => c.Name == "Landlord Fern"));
        var looked = await desk.SubmitAsync("/houses/new", new() { ["Owner.Find"] = "0188 fern", ["Input.Street"] = "kept while looking" }, button: "button[value=look]");
        Assert.Contains("Landlord Fern", await looked.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("kept while looking", await looked.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var second = HouseVerbs.Inquiry("2 Second House", "");
        second["Owner.CustomerId"] = $"{customer.Id}";
        var house = await office.HouseAsync(await desk.TakeInquiryAsync(second));
        Assert.Equal(customer.Id, house.Owners.Single().CustomerId);
    }

    [Fact]
    public async Task Two_people_taking_the_same_address_at_the_same_moment_make_one_house()
    {
        var (ada, bram) = (await office.SignInAsOwnerAsync(), await office.SignInAsOfficeAsync());
        var answers = await Task.WhenAll(
            ada.SubmitAsync("/houses/new", HouseVerbs.Inquiry("31 Same Moment", "Caller One")),
            bram.SubmitAsync("/houses/new", HouseVerbs.Inquiry("31 Same Moment", "Caller Two")));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Redirect);
        Assert.Equal(1, await office.WithDbAsync(db => db.Houses.CountAsync(h => h.Street == "31 Same Moment")));
    }

    [Fact]
    public async Task An_installer_may_not_take_inquiries()
    {
        var crew = await office.SignInAsInstallerAsync();
        Assert.StartsWith("/not-allowed", (await crew.GetAsync("/houses/new")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    private Task<(int, int)> CountsAsync() => office.WithDbAsync(async db => (await db.Houses.CountAsync(), await db.Customers.CountAsync()));
}
