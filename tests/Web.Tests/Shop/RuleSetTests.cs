using System.Net;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Shop;
using MitigationOffice.Engineering.Siting;
using MitigationOffice.Web.Tests.Design;

namespace MitigationOffice.Web.Tests.Shop;

public sealed class RuleSetTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string AddForm = "form[enctype]";

    /// <summary>An invented county: the same kinds of rules as elsewhere with other numbers.</summary>
    internal static string County(string id, decimal aboveGradeFt) => $$"""
        { "id": "{{id}}", "jurisdiction": "Lantern County", "citation": "Lantern County Code 12-3 (invented)", "certainty": "commonPractice",
          "rules": [
            { "id": "height", "kind": "heightAboveGrade", "minimumFt": {{aboveGradeFt}}, "text": "The mouth is high enough above grade." },
            { "id": "cap", "kind": "noRainCap", "text": "There is no rain cap.", "advisory": true }
          ] }
        """;

    [Fact]
    public async Task A_jurisdiction_added_as_data_changes_what_a_rule_says_of_the_same_house()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, _) = await office.HouseWithDesignAsync();
        Assert.Equal("passes", Verdict(await ReportAsync(house), 0));
        Assert.Equal("us-epa-1994", (await ReportAsync(house)).Siting!.Key);

        // The mouth stands 18 ft up: enough for 10 ft, not for the county's 20.
        await AddAsync(owner, County("us-lantern", 20));
        Assert.Contains("Lantern County: Lantern County Code 12-3 (invented) (the office’s own, edition 1)", await owner.TextAsync($"/houses/{house}/design/siting"), StringComparison.Ordinal);
        await ChooseAsync(owner, house, "us-lantern");
        var judged = await ReportAsync(house);
        Assert.Equal(("fails", "The discharge is 18 ft above grade.", "us-lantern"), (Verdict(judged, 0), judged.Siting!.Rules[0].Why, judged.Siting.Key));
        Assert.Contains("Lantern County Code 12-3 (invented)", judged.Siting.Rules[0].Source, StringComparison.Ordinal);

        // The design remembers the very text; the text is still there after a newer edition.
        var first = await office.WithDbAsync(db => db.RuleSets.SingleAsync(r => r.Key == "us-lantern"));
        Assert.Equal(first.Sha256, judged.Siting.TextSha256);
        await AddAsync(owner, County("us-lantern", 15));
        Assert.Equal([(1, first.Sha256), (2, RuleSetText.HashOf(SitingRuleSets.Read(County("us-lantern", 15))))],
            (await office.WithDbAsync(db => db.RuleSets.Where(r => r.Key == "us-lantern").OrderBy(r => r.Edition).Select(r => new { r.Edition, r.Sha256 }).ToListAsync())).Select(r => (r.Edition, r.Sha256)));
        Assert.Equal(first.Sha256, (await ReportAsync(house)).Siting!.TextSha256);
        await ChooseAsync(owner, house, "us-lantern");
        Assert.Equal("passes", Verdict(await ReportAsync(house), 0));
    }

    [Fact]
    public async Task The_design_file_carries_the_rules_and_the_verb_reaches_the_same_verdict()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, design) = await office.HouseWithDesignAsync();
        await AddAsync(owner, County("lantern-file", 20));
        await ChooseAsync(owner, house, "lantern-file");
        var text = await owner.GetStringAsync($"/houses/{house}/design/{design}/file.json");
        Assert.Equal("lantern-file", JsonDocument.Parse(text).RootElement.GetProperty("discharge").GetProperty("ruleSet").GetProperty("id").GetString());
        var again = Business.Design.ComputeReport.Of(Business.Design.Files.DesignFileText.Read(text));
        Assert.Equal(JsonSerializer.Serialize((await ReportAsync(house)).Siting), JsonSerializer.Serialize(again.Siting));
        var broken = text.Replace("\"heightAboveGrade\"", "\"heightOverGrade\"", StringComparison.Ordinal);
        Assert.Contains("discharge.ruleSet: The field rules[0].kind is not of the kind it must be", Assert.Throws<Business.Design.DesignRefused>(() => Business.Design.ComputeReport.Of(Business.Design.Files.DesignFileText.Read(broken))).InFile, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_state_of_a_house_finds_its_own_set_and_an_own_edition_stands_in_the_place_of_the_programs()
    {
        var owner = await office.SignInAsOwnerAsync();
        await AddAsync(owner, County("us-zz", 12));
        await AddAsync(owner, County("us-pa", 30));
        Task<OfferedRuleSet> ForAsync(string chosen, string state) => office.WithDbAsync(db => OfferRuleSets.ForAsync(db, chosen, state));
        Assert.Equal("us-zz", (await ForAsync("", " ZZ")).Key);
        Assert.Contains("30", (await ForAsync("us-pa", "MN")).Own!, StringComparison.Ordinal);
        Assert.Equal(new OfferedRuleSet("us-epa-1994", null), await ForAsync("nonsense", "MN"));
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync("/shop/rules", [], "tr:has(a[href$='us-pa']) form")).StatusCode);
        Assert.Equal(new OfferedRuleSet("us-pa", null), await ForAsync("us-pa", "MN"));
        Assert.Contains("set aside", await owner.TextAsync("/shop/rules"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync("/shop/rules/us-pa?edition=0")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync("/shop/rules/us-none")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync("/shop/rules/us-pa?edition=7")).StatusCode);
    }

    [Theory]
    [InlineData("", "Choose a file or paste its text.")]
    [InlineData("not json", "it is not valid JSON")]
    [InlineData("[]", "a rule set is expected")]
    [InlineData("null", "the file holds null")]
    [InlineData("""{ "id": "x" }""", "Missing (line 1): jurisdiction, citation, certainty, rules.")]
    [InlineData("HEAD\"rules\": null }", "The field rules is not of the kind it must be")]
    [InlineData("HEAD\"rules\": [null] }", "A rule of the rule set 'us-x' is null.")]
    [InlineData("HEAD\"rules\": [] }", "The rule set 'us-x' has no rules.")]
    [InlineData("HEAD\"rules\": [{ \"id\": \"a\", \"kind\": \"heightAboveGrade\", \"text\": \"T\" }] }", "The rule 'a' of 'us-x' needs minimumFt, 0 or more.")]
    [InlineData("HEAD\"rules\": [{ \"id\": \"a\", \"kind\": \"heightAboveGrade\", \"minimumFt\": 5000, \"text\": \"T\" }] }", "In the rule “a” minimumFt is 5000; it must lie from 0 to 1000.")]
    [InlineData("HEAD\"rules\": [{ \"id\": \"a\", \"kind\": \"noRainCap\", \"text\": \" \" }] }", "The text of the rule “a” is empty; write it.")]
    [InlineData("HEAD\"rules\": [{ \"id\": \"a\", \"kind\": \"openingClearance\", \"minimumFt\": 1, \"text\": \"T\", \"ignoreOpenings\": null }] }", "The field rules[0].ignoreOpenings is not of the kind it must be")]
    [InlineData("HEAD\"colour\": 1, \"rules\": [] }", "Unknown field “colour”")]
    [InlineData("HEAD\"note\": \"a\", \"note\": \"b\", \"rules\": [] }", "stands there twice")]
    [InlineData("""{ "id": "../x", "jurisdiction": "J", "citation": "C", "certainty": "published", "rules": [{ "id": "a", "kind": "noRainCap", "text": "T" }] }""", "The id “../x” is not one to keep")]
    [InlineData("""{ "id": "us-x", "jurisdiction": "J", "citation": "C", "certainty": "surely", "rules": [{ "id": "a", "kind": "noRainCap", "text": "T" }] }""", "The field certainty is not of the kind it must be")]
    public async Task What_is_no_rule_set_is_refused_in_words_and_the_text_stays(string typed, string words)
    {
        var owner = await office.SignInAsOwnerAsync();
        var text = typed.Replace("HEAD", """{ "id": "us-x", "jurisdiction": "J", "citation": "C", "certainty": "published", """, StringComparison.Ordinal);
        var answer = await owner.SubmitAsync("/shop/rules", new() { ["Text"] = text }, AddForm);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains(words, html, StringComparison.Ordinal);
        Assert.Contains(text + "</textarea>", html, StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.RuleSets.AnyAsync(r => r.Key == "us-x")));
    }

    [Fact]
    public async Task Every_set_of_the_program_can_be_begun_from_and_the_example_is_taken()
    {
        var owner = await office.SignInAsOwnerAsync();
        foreach (var set in SitingRuleSets.All)
        {
            Assert.Equal(RuleSetText.HashOf(set), RuleSetText.HashOf(RuleSetText.Read(await owner.GetStringAsync($"/shop/rules/{set.Id}?handler=File&edition=0")).Set!));
            Assert.Contains(set.Rules[0].Text, await owner.TextAsync($"/shop/rules/{set.Id}?edition=0"), StringComparison.Ordinal);
        }

        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "MitigationOffice.sln"))) folder = folder.Parent!;
        var example = await File.ReadAllTextAsync(Path.Combine(folder.FullName, "demo-data", "siting-rules-example.json"));
        var read = RuleSetText.Read(example);
        Assert.True(read.Set is not null, read.Problem);
        await AddAsync(owner, example);
        await AddAsync(owner, example);
        Assert.Equal(1, await office.WithDbAsync(db => db.RuleSets.CountAsync(r => r.Key == read.Set!.Id)));
    }

    private static string Verdict(DesignReport report, int rule) => report.Siting!.Rules[rule].Outcome;

    private async Task<DesignReport> ReportAsync(int house) => JsonSerializer.Deserialize<DesignReport>(
        (await office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == house).Select(d => d.ReportJson).SingleAsync()))!, Business.Design.Files.DesignFileText.Json)!;

    internal static async Task AddAsync(HttpClient owner, string text)
    {
        var answer = await owner.SubmitAsync("/shop/rules", new() { ["Text"] = text }, AddForm);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
    }

    private static async Task ChooseAsync(HttpClient owner, int house, string rules)
    {
        var answer = await owner.SubmitAsync($"/houses/{house}/design/siting", new() { ["Input.Rules"] = rules }, "#siting-form");
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
    }
}
