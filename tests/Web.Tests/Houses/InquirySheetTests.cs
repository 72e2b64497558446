using System.Net;
using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Web.Tests.Houses;

public sealed class InquirySheetTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Rows_are_changed_added_and_taken_out()
    {
        var desk = await office.SignInAsOfficeAsync();
        var inquiry = HouseVerbs.Inquiry("3 Rows Road", "Row Owner");
        (inquiry["Input.Areas[0].Kind"], inquiry["Input.Areas[0].Floor"]) = ("Basement", "900");
        (inquiry["Input.Appliances[0].Name"], inquiry["Input.Appliances[0].Draft"]) = ("Furnace", "SealedCombustion");
        var id = await desk.TakeInquiryAsync(inquiry);
        var saved = await desk.SubmitAsync($"/houses/{id}/inquiry", new()
        {
            ["Input.Areas[0].Floor"] = "950 ft²", ["Input.Areas[1].Kind"] = "CrawlSpace", ["Input.Areas[1].Name"] = "Under the kitchen", ["Input.Appliances[0].TakeOut"] = "true",
        });
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        var house = await office.HouseAsync(id);
        Assert.Equal([(88.258, "Basement"), (0, "Under the kitchen")], house.Areas.OrderBy(a => a.Id).Select(a => (Math.Round(a.FloorM2, 3, MidpointRounding.AwayFromZero), a.Name)));
        Assert.Empty(house.Appliances);
    }

    [Fact]
    public async Task Saving_what_is_shown_changes_nothing_in_either_unit()
    {
        var desk = await office.SignInAsOfficeAsync();
        var inquiry = HouseVerbs.Inquiry("4 Same Again", "Same Owner");
        (inquiry["Input.Areas[0].Kind"], inquiry["Input.Areas[0].Floor"], inquiry["Input.Elevation"]) = ("Basement", "87.3 m²", "1,013 ft");
        inquiry["Input.EarlierTests[0].Level"] = "275 Bq/m³";
        var id = await desk.TakeInquiryAsync(inquiry);
        var before = await office.HouseAsync(id);
        var audited = await office.WithDbAsync(db => db.Audit.CountAsync());
        for (var i = 0; i < 2; i++)
        {
            await desk.SubmitAsync($"/houses/{id}/inquiry", []);
            await desk.SubmitAsync("/", [], "form[action='/account/units']");
        }

        var after = await office.HouseAsync(id);
        Assert.Equal(87.3, after.Areas.Single().FloorM2, 12);
        // 275 Bq/m³ / 37 = 7.432432… pCi/L
        Assert.Equal(7.432432m, after.EarlierTests.Single().PCiL);
        Assert.Equal((before.ElevationM, before.Version), (after.ElevationM, after.Version));
        Assert.Equal(audited, await office.WithDbAsync(db => db.Audit.CountAsync()));
    }

    [Fact]
    public async Task Two_people_who_change_rows_of_one_house_meet_and_nothing_typed_is_lost()
    {
        var (ada, bram) = (await office.SignInAsOwnerAsync(), await office.SignInAsOfficeAsync());
        var id = await ada.TakeInquiryAsync(HouseVerbs.Inquiry("6 Meeting Place", "Meet Owner"));
        var version = (await office.HouseAsync(id)).Version;
        await ada.SubmitAsync($"/houses/{id}/inquiry", new() { ["Input.Appliances[0].Name"] = "Fireplace", ["Input.Appliances[0].Draft"] = "Natural" });
        var late = await bram.SubmitAsync($"/houses/{id}/inquiry", new() { ["Input.Heating"] = "Boiler", ["Version"] = $"{version}", ["Input.Appliances[0].Name"] = "", ["Input.Appliances[0].Draft"] = "", ["Input.Appliances[0].Id"] = "0" });
        var text = await late.TextAsync();
        Assert.Contains("Someone else saved this since you opened it", text, StringComparison.Ordinal);
        Assert.Contains("They saved “Fireplace Natural”; you wrote “nothing”", text, StringComparison.Ordinal);
        Assert.Contains("value=\"Boiler\"", await late.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("", (await office.HouseAsync(id)).Heating);
    }

    [Fact]
    public async Task Cautions_stand_beside_with_their_sources_and_go_when_their_cause_goes()
    {
        var desk = await office.SignInAsOfficeAsync();
        var inquiry = HouseVerbs.Inquiry("8 Caution Corner", "Careful Owner");
        (inquiry["Input.VermiculiteSuspected"], inquiry["Input.YearBuilt"]) = ("true", "1950");
        (inquiry["Input.Appliances[0].Name"], inquiry["Input.Appliances[0].Draft"]) = ("Boiler", "Natural");
        var id = await desk.TakeInquiryAsync(inquiry);
        var text = await desk.TextAsync($"/houses/{id}/inquiry");
        // SGM-SF-2017: 11.1.1 spillage, 11.2.3 suspected asbestos, 11.2.4 lead in buildings before 1978.
        foreach (var words in new[] { "11.2.3", "11.2.4", "before 1978", "11.1.1", "Natural draft here: Boiler", "Local code, your licence" }) Assert.Contains(words, text, StringComparison.Ordinal);
        await desk.SubmitAsync($"/houses/{id}/inquiry", new() { ["Input.VermiculiteSuspected"] = "false", ["Input.YearBuilt"] = "1995", ["Input.Appliances[0].Draft"] = "Electric" });
        Assert.DoesNotContain("11.2.3", await desk.TextAsync($"/houses/{id}/inquiry"), StringComparison.Ordinal);
        Assert.DoesNotContain("Cautions", await desk.TextAsync($"/houses/{id}/inquiry"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sold_house_has_a_new_owner_from_a_day_and_keeps_the_old_one_on_record()
    {
        var desk = await office.SignInAsOfficeAsync();
        var id = await office.AddHouseAsync("10 Sold Street", "Seller Sedge");
        var sold = await desk.SubmitAsync($"/houses/{id}/hand-over", new() { ["Day"] = "2/27/2026", ["Owner.New.Name"] = "Buyer Birch", ["Owner.New.Email"] = "birch@mail.example" });
        Assert.Equal(HttpStatusCode.Redirect, sold.StatusCode);
        var owners = (await office.HouseAsync(id)).Owners.OrderBy(o => o.FromDay).Select(o => (o.Customer!.Name, o.FromDay, o.ToDay)).ToList();
        Assert.Equal([("Seller Sedge", new DateOnly(2020, 1, 1), new DateOnly(2026, 2, 27)), ("Buyer Birch", new DateOnly(2026, 2, 27), (DateOnly?)null)], owners);
        Assert.Contains("For\nBuyer Birch".Replace("\n", "", StringComparison.Ordinal), (await desk.TextAsync($"/houses/{id}/inquiry")).Replace("\n", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("10 Sold Street", await desk.TextAsync("/houses?find=sedge"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1/1/2019", "cannot be handed over before that day")]
    [InlineData("12/1/2026", "when the day has come")]
    [InlineData("soon", "month/day/year")]
    [InlineData("", "Write the day")]
    public async Task A_day_that_cannot_be_is_refused(string day, string words)
    {
        var desk = await office.SignInAsOfficeAsync();
        var id = await office.AddHouseAsync("11 Odd Day " + day, "Owner " + day);
        var answer = await desk.SubmitAsync($"/houses/{id}/hand-over", new() { ["Day"] = day, ["Owner.New.Name"] = "Nobody Yet", ["Owner.New.Email"] = "yet@mail.example", ["Owner.NewEvenSo"] = "true" });
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
        Assert.Single((await office.HouseAsync(id)).Owners);
    }

    [Fact]
    public async Task Two_hand_overs_of_one_house_from_the_same_form_make_one()
    {
        var (ada, bram) = (await office.SignInAsOwnerAsync(), await office.SignInAsOfficeAsync());
        var id = await office.AddHouseAsync("12 Twice Sold", "Once Owner");
        var owner = (await office.HouseAsync(id)).Owners.Single();
        Dictionary<string, string> Sale(string name) => new()
        {
            ["Day"] = "3/1/2026", ["OwnerId"] = $"{owner.Id}", ["Version"] = $"{owner.Version}", ["Owner.New.Name"] = name, ["Owner.New.Email"] = $"{name.Length}{name[..3]}@mail.example",
        };
        await ada.SubmitAsync($"/houses/{id}/hand-over", Sale("First Buyer"));
        var late = await bram.SubmitAsync($"/houses/{id}/hand-over", Sale("Second Buyers"));
        Assert.Contains("Someone else changed the owner", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(2, (await office.HouseAsync(id)).Owners.Count);
        Assert.False(await office.WithDbAsync(db => db.Customers.AnyAsync(c => c.Name == "Second Buyers")));
    }

    [Fact]
    public async Task An_installer_sees_and_corrects_the_house_but_does_not_hand_it_over()
    {
        var crew = await office.SignInAsInstallerAsync();
        var id = await office.AddHouseAsync("13 Crew Court", "Crew Customer", "555-555-0155");
        var html = await (await crew.GetAsync($"/houses/{id}/inquiry")).Content.ReadAsStringAsync();
        Assert.Contains("555-555-0155", html, StringComparison.Ordinal);
        Assert.DoesNotContain("/customers/", html, StringComparison.Ordinal);
        Assert.DoesNotContain("/hand-over", html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await crew.SubmitAsync($"/houses/{id}/inquiry", new() { ["Input.Heating"] = "Furnace" })).StatusCode);
        foreach (var url in new[] { $"/houses/{id}/hand-over", "/customers", "/customers/new" })
            Assert.StartsWith("/not-allowed", (await crew.GetAsync(url)).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Fact]
    public async Task More_rows_keep_what_was_typed()
    {
        var desk = await office.SignInAsOfficeAsync();
        var id = await office.AddHouseAsync("14 More Rows", "More Owner");
        var answer = await desk.SubmitAsync($"/houses/{id}/inquiry", new() { ["Input.Areas[0].Name"] = "Old wing", ["Input.Heating"] = "Stove" }, button: "button[value=more]");
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains("value=\"Old wing\"", html, StringComparison.Ordinal);
        Assert.Contains("value=\"Stove\"", html, StringComparison.Ordinal);
        Assert.Contains("Input.Areas[4].Name", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_sheet_takes_ten_statements_at_most()
    {
        var desk = await office.SignInAsOfficeAsync();
        var id = await office.AddHouseAsync("15 Few Statements", "Few Owner");
        await office.AssertFewStatementsAsync(desk, $"/houses/{id}/inquiry");
        await office.AssertFewStatementsAsync(desk, $"/houses/{id}/hand-over");
    }
}
