using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Pages.StateReports;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>A profile made and changed field by field, with plain forms.</summary>
[Trait("Database", "either")]
public sealed class ProfileFormTests : IAsyncLifetime
{
    private const string New = "/state-reports/profiles/new", Fields = "form#fields", Change = "form[action$='/change']";
    private readonly OfficeApp _office = new();

    public Task InitializeAsync() => _office.InitializeAsync();

    public async Task DisposeAsync() => await _office.DisposeAsync();

    [Fact]
    public async Task A_profile_shown_in_the_form_and_saved_untouched_is_no_new_edition()
    {
        var owner = await _office.SignInAsOwnerAsync();
        foreach (var profile in ProfileBook.Shipped.Values)
            Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync($"/state-reports/profiles/{profile.Code}/change", [], Change)).StatusCode);
        Assert.Equal(0, await _office.WithDbAsync(db => db.ReportProfiles.CountAsync()));
    }

    [Fact]
    public async Task A_new_profile_keeps_every_field_that_was_typed()
    {
        var owner = await _office.SignInAsOwnerAsync();
        var added = await owner.SubmitAsync(New, new()
        {
            ["Input.Code"] = "my-state", ["Input.Name"] = "My state, quarterly", ["Input.Jurisdiction"] = "My state", ["Input.State"] = "wy", ["Input.Citation"] = "House rule", ["Input.ReadOn"] = "Nov 25, 2026",
            ["Input.NotKnown"] = "The form was not seen.\r\nConfirm with your state program.", ["Input.Period"] = "quarter", ["Input.DeadlineRule"] = "business-days-after-quarter", ["Input.DeadlineDays"] = "10",
            ["Input.Activation"] = "false", ["Input.Completion"] = "true", ["Input.NilReport"] = "false", ["Input.Fee"] = "$12.50", ["Input.FeeRule"] = "days-after-period", ["Input.FeeDays"] = "30", ["Input.FeeCitation"] = "House rule, fee",
            ["Input.Years"] = "7", ["Input.OrLongerWarranty"] = "true", ["Input.KeepCitation"] = "House rule, records", ["Input.AddressesPrivate"] = "true", ["Input.OwnerOnly"] = "true", ["Input.PrivacyWords"] = "To nobody.", ["Input.PrivacyCitation"] = "House rule, privacy",
            ["Input.Pdf"] = "false", ["Input.Columns[0].Name"] = "Tag no.", ["Input.Columns[0].Most"] = "20", ["Input.Columns[1].From"] = "building_type", ["Input.Columns[1].Name"] = "Kind", ["Input.Columns[1].Map"] = "Single family = 01\nMulti family = 02",
            ["Input.Columns[2].From"] = "completion_date", ["Input.Columns[2].Name"] = "Done", ["Input.Columns[2].Format"] = "MM/dd/yyyy", ["Input.Columns[3].From"] = "", ["Input.Columns[3].Name"] = "Form", ["Input.Columns[3].Value"] = "B", ["Input.Columns[3].Required"] = "false",
        }, Fields);
        Assert.Equal("/state-reports/profiles/my-state", added.Headers.Location?.ToString());
        var p = (await _office.WithDbAsync(db => ProfileBook.FindAsync(db, "my-state")))!.Profile;
        Assert.Equal(("My state, quarterly", "My state", "WY", "House rule", new DateOnly(2026, 11, 25)), (p.Name, p.Jurisdiction, p.State, p.Citation, p.Read!.Value));
        Assert.Equal(["The form was not seen.", "Confirm with your state program."], p.NotKnown);
        Assert.Equal((PeriodKind.Quarter, new DeadlineRule(DeadlineKind.BusinessDaysAfterQuarter, 10), false), (p.Period, p.Deadline, p.NilReport));
        Assert.Equal([CountedEvent.Completion], p.Events);
        Assert.Equal(new FeeRule(1250, new DeadlineRule(DeadlineKind.DaysAfterPeriod, 30), "House rule, fee"), p.Fee);
        Assert.Equal(new KeepRule(7, true, false, "House rule, records"), p.Retention);
        Assert.Equal(new PrivacyRule(true, true, "To nobody.", "House rule, privacy"), p.Privacy);
        Assert.Equal([FileKind.Csv, FileKind.Xlsx], p.Files);
        Assert.Equal(["Tag no.", "Kind", "Done", "Form"], p.Fields.Select(f => f.Name));
        Assert.Equal((20, "MM/dd/yyyy", "B"), (p.Fields[0].Most, p.Fields[2].Format, p.Fields[3].Value));
        Assert.Equal(new Dictionary<string, string> { ["Single family"] = "01", ["Multi family"] = "02" }, p.Fields[1].Map);
    }

    [Theory]
    [InlineData("Input.Columns[1].From", "hat_size", "“Column 2, what it holds”: the office knows no value “hat_size”", "Input_Columns_1__From")]
    [InlineData("Input.Columns[1].Name", "TAG", "Two fields have the name “tag”", "Input_Columns_1__Name")]
    [InlineData("Input.Columns[0].Format", "MM/dd/yyyy", "“Column 1, written as”: “tag” is text and takes no format", "Input_Columns_0__Format")]
    [InlineData("Input.Columns[0].Value", "x", "has both", "Input_Columns_0__From")]
    [InlineData("Input.Columns[0].Map", "no sign", "Column 1: write each of the state's words as “Single family = 01”, not “no sign”", "Input_Columns_0__Map")]
    [InlineData("Input.Columns[2].Most", "many", "most characters of column 3", "Input_Columns_2__Most")]
    [InlineData("Input.Columns[2].Name", "=1+1", "which a spreadsheet would take for a formula", "Input_Columns_2__Name")]
    [InlineData("Input.Code", "My State", "“Code” must be small letters, digits and dashes", "Input_Code")]
    [InlineData("Input.Code", "minnesota", "There is a profile “minnesota” already", "Input_Code")]
    [InlineData("Input.Name", "", "“Name” is missing", "Input_Name")]
    [InlineData("Input.State", "Wyoming", "“State” must be the two letters", "Input_State")]
    [InlineData("Input.ReadOn", "someday", "Write the day the rule was read as month/day/year", "Input_ReadOn")]
    [InlineData("Input.Period", "week", "“How often” must be one of", "Input_Period")]
    [InlineData("Input.DeadlineRule", "days-after-period", "“Days until it is due” is missing", "Input_DeadlineDays")]
    [InlineData("Input.DeadlineDays", "9999", "9999", "Input_DeadlineDays")]
    [InlineData("Input.Fee", "a lot", "Write the fee for each system as a number", "Input_Fee")]
    [InlineData("Input.Activation", "false", "“What is counted” names none", "Input_Activation")]
    [InlineData("Input.Years", "-1", "-1", "Input_Years")]
    public async Task What_is_wrong_is_named_at_its_field_and_nothing_typed_is_lost(string field, string typed, string words, string at)
    {
        var owner = await _office.SignInAsOwnerAsync();
        var all = new Dictionary<string, string> { ["Input.Code"] = "own", ["Input.Name"] = "Own", ["Input.Citation"] = "A rule of mine" };
        all[field] = typed;
        var answer = await owner.SubmitAsync(New, all, Fields);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var page = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync());
        var links = page.QuerySelectorAll("#refusals a");
        Assert.Contains(links, l => l.TextContent.Contains(words, StringComparison.Ordinal) && l.GetAttribute("href") == $"#{at}");
        Assert.NotNull(page.GetElementById(at));
        Assert.Equal("A rule of mine", page.GetElementById("Input_Citation")!.GetAttribute("value"));
        Assert.Equal(0, await _office.WithDbAsync(db => db.ReportProfiles.CountAsync()));
    }

    [Fact]
    public async Task Columns_are_moved_added_and_taken_out_without_saving()
    {
        var owner = await _office.SignInAsOwnerAsync();
        async Task<string[]> PressAsync(string act) => await HeadsAsync(await owner.SubmitAsync(New, new() { ["Input.Columns[0].Name"] = "Mine" }, Fields, $"button[value='{act}']"));
        Assert.Equal(["street", "Mine", "city", "zip"], await PressAsync("down-0"));
        Assert.Equal(["street", "Mine", "city", "zip"], await PressAsync("up-1"));
        Assert.Equal(["Mine", "street", "zip"], await PressAsync("out-2"));
        Assert.Equal(["Mine", "street", "city", "zip", ""], await PressAsync("add"));
        Assert.Equal(ReportFields.General.Count, (await PressAsync("all")).Length);
        Assert.Equal(0, await _office.WithDbAsync(db => db.ReportProfiles.CountAsync()));
    }

    [Fact]
    public void An_act_that_is_none_changes_nothing()
    {
        foreach (var act in new[] { "", "up-0", "down-19", "out-x", "up-x", "sideways-1", "out-99999999999" })
        {
            var form = ProfileForm.Of(ProfileBook.Shipped["minnesota"]);
            var before = form.Columns.Select(c => c.From).ToList();
            form.Arrange(act, new(), new(new Microsoft.AspNetCore.Mvc.ModelBinding.EmptyModelMetadataProvider(), new()));
            Assert.Equal(before, form.Columns.Select(c => c.From));
        }
    }

    [Fact]
    public async Task A_change_is_a_new_edition_and_a_frozen_report_keeps_its_own()
    {
        var owner = await _office.SignInAsOwnerAsync();
        await _office.AddProfileAsync("""{"code":"own","name":"Own","period":"month","files":["csv"],"fields":["tag"]}""");
        var run = await _office.FreezeAsync("2026-02", "own");
        var file = await _office.BytesAsync(run.CsvDocumentId);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync("/state-reports/profiles/own/change", new() { ["Input.Columns[0].Name"] = "Tag number" }, Change)).StatusCode);
        Assert.Equal("Tag number", (await _office.WithDbAsync(db => ProfileBook.FindAsync(db, "own")))!.Profile.Fields[0].Name);
        Assert.Equal((1, "tag"), await _office.WithDbAsync(async db => (await db.ReportRuns.Select(r => r.ProfileEdition).SingleAsync(), ReadProfile.Of(await db.ReportRuns.Select(r => r.ProfileJson).SingleAsync()).Profile!.Fields[0].Name)));
        Assert.Equal(file, await _office.BytesAsync(run.CsvDocumentId));
        var page = await owner.TextAsync("/state-reports/profiles/own");
        Assert.Contains("2, in force", page, StringComparison.Ordinal);
        Assert.Contains("February 2026", page, StringComparison.Ordinal);
        Assert.Contains("Someone else changed this profile", await (await owner.SubmitAsync("/state-reports/profiles/own/change", new() { ["Input.Name"] = "Mine", ["Edition"] = "1" }, Change)).TextAsync(), StringComparison.Ordinal);
        Assert.Empty((await _office.WithDbAsync(db => VerifyReports.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task Only_the_owner_of_the_company_changes_a_profile()
    {
        var desk = await _office.SignInAsOfficeAsync();
        Assert.StartsWith("/not-allowed", (await desk.GetAsync("/state-reports/profiles/minnesota/change")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        Assert.DoesNotContain("/change", await desk.GetStringAsync("/state-reports/profiles/minnesota"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await (await _office.SignInAsOwnerAsync()).GetAsync("/state-reports/profiles/nowhere/change")).StatusCode);
    }

    private static async Task<string[]> HeadsAsync(HttpResponseMessage answer)
    {
        var page = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync());
        return [.. page.QuerySelectorAll("input[name^='Input.Columns'][name$='.Name']").Select(i => i.GetAttribute("value") ?? "")];
    }
}
