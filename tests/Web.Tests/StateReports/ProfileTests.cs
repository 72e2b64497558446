using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>Profiles as data: those that came with the program, and what is refused.</summary>
[Trait("Database", "either")]
public sealed class ProfileTests
{
    private const string Small = """{"code":"own","name":"Own","period":"month","fields":["tag"]}""";

    [Fact]
    public void Those_that_came_say_what_is_not_known_whom_to_ask_and_when_they_were_read()
    {
        Assert.Equal(13, ProfileBook.Shipped.Count);
        Assert.All(ProfileBook.Shipped.Values, p =>
        {
            Assert.Contains("Confirm with your state program.", p.NotKnown);
            Assert.True(p.NotKnown.Count > 1);
            Assert.NotNull(p.Read);
            Assert.NotEmpty(p.Citation);
            Assert.Equal(p.Reports, p.Fields.Count > 0);
        });
    }

    [Fact]
    public void A_profile_written_and_read_again_is_the_same() =>
        Assert.All(ProfileBook.Shipped.Values, p => Assert.Equal(WriteProfile.Text(p), WriteProfile.Text(ReadProfile.Of(WriteProfile.Text(p)).Profile!)));

    [Theory]
    [InlineData("""{"code":"own","name":"Own","fields":["tagg"]}""", "the office knows no value “tagg”; did you mean “tag”?")]
    [InlineData("""{"code":"own","name":"Own","fields":[{"name":"X","from":"hat_size"}]}""", "“fields[1].from”: the office knows no value “hat_size”")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"feee":{}}""", "“feee” is not a name a profile has; did you mean “fee”?")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"fee":{"cent":1}}""", "“fee.cent” is not a name a profile has")]
    [InlineData("""{"code":"own","name":"Own","fields":[{"from":"tag","colour":"red"}]}""", "“fields[1].colour” is not a name a profile has")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag","tag"]}""", "Two fields have the name “tag”")]
    [InlineData("""{"code":"own","name":"Own"}""", "“fields” is missing")]
    [InlineData("""{"code":"own","name":"Own","fields":[]}""", "list of 1 to")]
    [InlineData("""{"code":"Own State","name":"Own","fields":["tag"]}""", "small letters, digits and dashes")]
    [InlineData("""{"code":"proof","name":"Own","fields":["tag"]}""", "none of profiles")]
    [InlineData("""{"name":"Own","fields":["tag"]}""", "“code” is missing")]
    [InlineData("""{"code":"own","fields":["tag"]}""", "“name” is missing")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"state":"Ohio"}""", "two letters of a state")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"period":"week"}""", "“period” must be one of none, month, quarter, year, days")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"deadline":{"rule":"days-after-period"}}""", "“deadline.days” is missing")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"deadline":{"rule":"business-days-after-quarter","days":10}}""", "then “period” must be quarter")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"read":"25.11.2026"}""", "a day like 2026-11-25")]
    [InlineData("""{"code":"own","name":"Own","fields":[{"from":"tag","format":"MM"}]}""", "is text and takes no format")]
    [InlineData("""{"code":"own","name":"Own","fields":[{"from":"completion_date","format":"dd.MM"}]}""", "must be one of yyyy-MM-dd")]
    [InlineData("""{"code":"own","name":"Own","fields":[{"name":"X","value":"=1"}]}""", "take for a formula")]
    [InlineData("""{"code":"own","name":"Own","fields":[{"name":"=X","from":"tag"}]}""", "take for a formula")]
    [InlineData("""{"code":"own","name":"Own","fields":[{"name":"X","from":"tag","value":"y"}]}""", "both “from” and “value”")]
    [InlineData("""{"code":"own","name":"Own","fields":["tag"],"retention":{"years":"five"}}""", "“retention.years” must be a whole number")]
    [InlineData("""{"code":"own","name":"Own","name":"Twice","fields":["tag"]}""", "“name” stands twice")]
    [InlineData("""{"code":"own",""", "This is not JSON: in line 1")]
    [InlineData("""["tag"]""", "must be an object")]
    [InlineData("", "Paste a profile")]
    public void What_is_wrong_is_refused_by_its_name(string json, string words)
    {
        var (profile, problems) = ReadProfile.Of(json);
        Assert.Null(profile);
        Assert.Contains(problems, p => p.Contains(words, StringComparison.Ordinal));
    }

    // Sources: 25 Pa. Code 240.303(2) (45 days) and 240.309 (ten business days after the quarter); Minn. R. 4620.7800 (Apr 30, Jul 30, Oct 30, and
    // Jan 30 inferred); K.A.R. 28-35-601(g), second hand (90 days); ten days after the month is a house rule. Days counted by hand.
    [Theory]
    [InlineData("pennsylvania", "2025-02-28", "2025-01-20", "2025-03-06")]
    [InlineData("kansas", "2025-11-30", "2025-11-15", "2026-02-13")]
    [InlineData("minnesota", "2025-Q1", null, "2025-04-30")]
    [InlineData("minnesota", "2025-Q2", null, "2025-07-30")]
    [InlineData("minnesota", "2025-Q3", null, "2025-10-30")]
    [InlineData("minnesota", "2025-Q4", null, "2026-01-30")]
    [InlineData("general-month", "2025-12", null, "2026-01-10")]
    [InlineData("iowa", "2025", null, null)]
    public void A_report_is_due_by_its_rule(string code, string period, string? earliest, string? due)
    {
        var profile = ProfileBook.Shipped[code];
        var day = ReportPeriod.DayOf(profile.Period, period)!.Value;
        var days = profile.Period == PeriodKind.Days ? ReportPeriod.Days(day.AddDays(-30), day) : ReportPeriod.Of(profile.Period, day);
        Assert.Equal(period, days.Name);
        Assert.Equal(due is null ? null : DateOnly.ParseExact(due, "yyyy-MM-dd"), profile.Deadline.DueOn(days, earliest is null ? null : DateOnly.ParseExact(earliest, "yyyy-MM-dd")));
    }

    [Theory]
    [InlineData("2025-02-10", "2025-04-14")]
    [InlineData("2025-06-30", "2025-07-15")]
    public void The_fee_is_due_ten_business_days_after_the_quarter(string day, string due) =>
        Assert.Equal(DateOnly.ParseExact(due, "yyyy-MM-dd"), ProfileBook.Shipped["pennsylvania"].Fee.Deadline.DueOn(ReportPeriod.Of(PeriodKind.Month, DateOnly.ParseExact(day, "yyyy-MM-dd")), null));

    [Theory]
    [InlineData(PeriodKind.Month, "2026-13")]
    [InlineData(PeriodKind.Month, "2026-1")]
    [InlineData(PeriodKind.Quarter, "2026-Q5")]
    [InlineData(PeriodKind.Quarter, "2026-Q0")]
    [InlineData(PeriodKind.Year, "26")]
    [InlineData(PeriodKind.Days, "2026-02-30")]
    [InlineData(PeriodKind.Month, "0001-01")]
    public void What_is_no_period_is_none(PeriodKind kind, string name) => Assert.Null(ReportPeriod.DayOf(kind, name));

    [Fact]
    public async Task The_owner_adds_and_changes_a_profile_and_a_frozen_report_remembers_its_text()
    {
        await using var office = new Office();
        await office.App.InitializeAsync();
        var owner = await office.App.SignInAsOwnerAsync();
        var refused = await owner.SubmitAsync("/state-reports/profiles/new", new() { ["Text"] = Small.Replace("\"tag\"", "\"tga\"", StringComparison.Ordinal) }, "form[action*='handler=Text']");
        Assert.Contains("knows no value “tga”; did you mean “tag”?", await refused.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("tga", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync("/state-reports/profiles/new", new() { ["Text"] = Small }, "form[action*='handler=Text']")).StatusCode);
        Assert.Contains("There is a profile “own” already", await (await owner.SubmitAsync("/state-reports/profiles/new", new() { ["Text"] = Small }, "form[action*='handler=Text']")).TextAsync(), StringComparison.Ordinal);
        var run = await office.App.FreezeAsync("2026-02", "own");
        var page = await owner.GetStringAsync("/state-reports/profiles/own");
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync("/state-reports/profiles/own", new() { ["Text"] = Small.Replace("[\"tag\"]", "[\"tag\",\"zip\"]", StringComparison.Ordinal) }, "form[action*='handler=Text']")).StatusCode);
        Assert.Contains("Someone else changed this profile", await (await owner.SubmitAsync("/state-reports/profiles/own", new() { ["Text"] = Small.Replace("Own", "Mine", StringComparison.Ordinal), ["Edition"] = "1" }, "form[action*='handler=Text']")).TextAsync(), StringComparison.Ordinal);
        Assert.Equal([1, 2], await office.App.WithDbAsync(db => db.ReportProfiles.Where(p => p.Code == "own").OrderBy(p => p.Edition).Select(p => p.Edition).ToListAsync()));
        Assert.DoesNotContain("zip", run.ProfileJson, StringComparison.Ordinal);
        Assert.NotEqual("", page);
        Assert.Empty((await office.App.WithDbAsync(db => VerifyReports.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task The_office_takes_up_a_profile_and_reads_its_text_but_does_not_change_it()
    {
        await using var office = new Office();
        await office.App.InitializeAsync();
        var desk = await office.App.SignInAsOfficeAsync();
        Assert.Contains("Write the first day", await (await desk.SubmitAsync("/state-reports/profiles/minnesota", [], "form[action*='handler=Duty']")).TextAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync("/state-reports/profiles/minnesota", new() { ["Input.StartsOn"] = "1/1/2026", ["Input.CompanyNumber"] = "MN-12" }, "form[action*='handler=Duty']");
        Assert.Equal("MN MN-12", await office.App.WithDbAsync(db => db.ReportDuties.Select(d => d.State + " " + d.CompanyNumber).SingleAsync()));
        Assert.DoesNotContain("handler=Text", await desk.GetStringAsync("/state-reports/profiles/minnesota"), StringComparison.Ordinal);
        Assert.StartsWith("{\n  \"code\": \"minnesota\",", await desk.GetStringAsync("/state-reports/profiles/minnesota?handler=Json"), StringComparison.Ordinal);
    }

    private sealed class Office : IAsyncDisposable
    {
        public OfficeApp App { get; } = new();

        public async ValueTask DisposeAsync() => await App.DisposeAsync();
    }
}
