using System.Text.Json;
using MitigationOffice.Engineering.Siting;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Tests.Siting;

public class SitingRuleSetTests
{
    private const string Head = """{ "id": "x", "jurisdiction": "X", "citation": "C", "certainty": "commonPractice", "rules": [""";

    [Fact]
    public void The_library_brings_four_rule_sets() =>
        Assert.Equal(["us-epa-1994", "us-irc-af103", "us-pa", "us-rms-mf-2018"], SitingRuleSets.All.Select(set => set.Id));

    [Fact]
    public void Every_set_says_where_it_comes_from()
    {
        Assert.All(SitingRuleSets.All, set =>
        {
            Assert.NotEmpty(set.Jurisdiction);
            Assert.NotEmpty(set.Citation);
            Assert.NotEmpty(set.Note);
            Assert.All(set.Rules, rule => Assert.EndsWith(".", rule.Text, StringComparison.Ordinal));
        });
        Assert.Equal(Certainty.FromMemory, SitingRuleSets.Get("us-epa-1994").Certainty);
    }

    [Fact]
    public void An_unknown_set_is_refused_and_the_known_ones_named()
    {
        var refused = Assert.Throws<KeyNotFoundException>(() => SitingRuleSets.Get("us-zz"));
        Assert.Equal("There is no siting rule set 'us-zz'; there are us-epa-1994, us-irc-af103, us-pa, us-rms-mf-2018.", refused.Message);
    }

    [Fact]
    public void A_jurisdiction_is_added_by_a_file()
    {
        var set = SitingRuleSets.Read(Head + """{ "id": "h", "kind": "heightAboveGrade", "minimumFt": 15, "text": "15 ft.", "certainty": "published", "citation": "D" }, { "id": "o", "kind": "openingClearance", "minimumFt": 10, "text": "10 ft." }] }""");
        Assert.Equal(new Citation("D", Certainty.Published), set.SourceOf(set.Rules[0]));
        Assert.Equal(new Citation("C", Certainty.CommonPractice), set.SourceOf(set.Rules[1]));
        Assert.Equal(SitingOutcome.Failed, DischargeSiting.Judge(new() { HeightAboveGradeFt = 12m, Openings = [] }, set).Outcome);
        var near = DischargeSiting.Judge(new() { HeightAboveGradeFt = 15m, Openings = [new("Door", OpeningKind.Door, 9m, null)] }, set);
        Assert.Equal(SitingOutcome.Failed, near.Outcome);
        Assert.Equal("Door is 9 ft away.", near.Findings[1].Why);
    }

    [Theory]
    [InlineData("""{ "id": "h", "kind": "heightAboveGrade", "text": "t" }] }""", "needs minimumFt, 0 or more")]
    [InlineData("""{ "id": "h", "kind": "heightAboveGrade", "minimumFt": -1, "text": "t" }] }""", "needs minimumFt, 0 or more")]
    [InlineData("""{ "id": "h", "kind": "openingClearance", "text": "t" }] }""", "needs minimumFt")]
    [InlineData("""{ "id": "h", "kind": "direction", "text": "t" }] }""", "needs maximumFromVerticalDeg")]
    [InlineData("""{ "id": "h", "kind": "roofEdge", "text": "t" }] }""", "needs aboveEdgeIn")]
    [InlineData("""{ "id": "h", "kind": "roofClearance", "text": "t" }] }""", "needs pitchedMinimumIn and flatMinimumIn")]
    [InlineData("""{ "id": "h", "kind": "fanLocation", "text": "t" }] }""", "The rule 'h' of 'x' needs forbidden")]
    [InlineData("""] }""", "The rule set 'x' has no rules")]
    [InlineData("""{ "id": "h", "kind": "noRainCap", "text": "t" }, { "id": "h", "kind": "noRainCap", "text": "t" }] }""", "two rules named 'h'")]
    [InlineData("""{ "id": "h", "kind": "noRainCap", "text": "t", "height": 3 }] }""", "height")]
    [InlineData("""{ "id": "h", "kind": "snow", "text": "t" }] }""", "kind")]
    [InlineData("""{ "id": "h", "kind": "noRainCap" }] }""", "text")]
    public void A_wrong_file_is_refused_by_name(string rest, string message) =>
        Assert.Contains(message, Assert.Throws<JsonException>(() => SitingRuleSets.Read(Head + rest)).Message, StringComparison.Ordinal);

    [Fact]
    public void An_empty_file_is_refused() =>
        Assert.Contains("holds null", Assert.Throws<JsonException>(() => SitingRuleSets.Read("null")).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(Certainty.Published, "read in the source")]
    [InlineData(Certainty.SecondHand, "quoted by another text")]
    [InlineData(Certainty.Arithmetic, "plain arithmetic")]
    [InlineData(Certainty.FromMemory, "from memory")]
    [InlineData(Certainty.CommonPractice, "common practice, no source")]
    public void A_citation_says_how_surely_it_is_known(Certainty certainty, string words) =>
        Assert.Equal($"S ({words})", new Citation("S", certainty).ToString());
}
