using System.Net;
using System.Text;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Tests.Houses;

public sealed class HouseListTests(OfficeApp office) : IClassFixture<OfficeApp>, IAsyncLifetime
{
    private static bool _filled;

    public async Task InitializeAsync()
    {
        if (_filled) return;
        _filled = true;
        await office.AddHouseAsync("12 Café Row", "Zoë Müller", "(555) 555-0133");
        var tagged = await office.AddHouseAsync("9 Tagged Way", "Tess Older");
        await office.AddSystemAsync(tagged, "MN-00417", OfficeApp.Start.UtcDateTime.AddDays(-3));
    }

    public Task DisposeAsync() => Task.CompletedTask;

    [Theory]
    [InlineData("cafe")]
    [InlineData("CAFÉ muller")]
    [InlineData("555-0133")]
    [InlineData("+1 (555) 555-0133")]
    [InlineData("row zoe 55999")]
    public async Task A_house_is_found_by_words_accents_and_digits(string find)
    {
        var desk = await office.SignInAsOfficeAsync();
        var text = await desk.TextAsync("/houses?find=" + Uri.EscapeDataString(find));
        Assert.Contains("12 Café Row", text, StringComparison.Ordinal);
        Assert.DoesNotContain("9 Tagged Way", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("cafe tagged")]
    [InlineData("zzz' OR '1'='1")]
    public async Task A_word_that_does_not_match_finds_nothing(string find)
    {
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("No house answers to that", await desk.TextAsync("/houses?find=" + Uri.EscapeDataString(find)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_exact_tag_goes_straight_to_its_house_and_a_part_of_it_lists_the_house()
    {
        var desk = await office.SignInAsOfficeAsync();
        var exact = await desk.GetAsync("/houses?find=mn-00417");
        Assert.Equal(HttpStatusCode.Redirect, exact.StatusCode);
        var house = exact.Headers.Location!.OriginalString;
        Assert.EndsWith("/proof", (await desk.GetAsync(house)).Headers.Location!.OriginalString, StringComparison.Ordinal);
        Assert.Contains("9 Tagged Way", await desk.TextAsync("/houses?find=00417"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_house_stands_at_what_is_waiting_and_the_filter_agrees()
    {
        var desk = await office.SignInAsOfficeAsync();
        var now = OfficeApp.Start.UtcDateTime;
        var expected = new Dictionary<string, int>
        {
            ["ToDiagnose"] = await office.AddHouseAsync("1 Stage"),
            ["ToDesign"] = await office.AddHouseAsync("2 Stage"),
            ["QuoteOut"] = await office.AddHouseAsync("3 Stage"),
            ["QuoteRanOut"] = await office.AddHouseAsync("4 Stage"),
            ["NotTested"] = await office.AddHouseAsync("5 Stage"),
            ["DevicesOut"] = await office.AddHouseAsync("6 Stage"),
            ["Proven"] = await office.AddHouseAsync("7 Stage"),
            ["NotPassed"] = await office.AddHouseAsync("8 Stage"),
            ["Planned"] = await office.AddHouseAsync("9 Stage"),
        };
        await office.AddReadingsAsync(expected["ToDesign"], new DateOnly(2026, 2, 1));
        await office.AddQuoteAsync(expected["QuoteOut"], RevisionState.Sent, new DateOnly(2026, 3, 20));
        await office.AddQuoteAsync(expected["QuoteRanOut"], RevisionState.Sent, new DateOnly(2026, 3, 1));
        await office.AddJobAsync(expected["Planned"], JobState.Planned, new DateOnly(2026, 3, 4));
        foreach (var (stage, outcome, ended) in new[] { ("DevicesOut", TestOutcome.NotJudged, false), ("Proven", TestOutcome.BelowTarget, true), ("NotPassed", TestOutcome.NotPassed, true) })
            await office.AddTestAsync(expected[stage], await office.AddSystemAsync(expected[stage], $"S-{stage}", now.AddDays(-5)), outcome, now.AddDays(-3), ended ? now.AddDays(-1) : null);
        await office.AddSystemAsync(expected["NotTested"], "S-5", now.AddDays(-5));
        foreach (var (stage, id) in expected)
        {
            var html = await (await desk.GetAsync($"/houses?stage={stage}&find=Stage")).Content.ReadAsStringAsync();
            Assert.All(expected, other => Assert.Equal(other.Value == id, html.Contains($"href=\"/houses/{other.Value}\"", StringComparison.Ordinal)));
        }
    }

    [Fact]
    public async Task The_csv_holds_what_the_list_shows_and_no_cell_computes()
    {
        var desk = await office.SignInAsOfficeAsync();
        await office.AddHouseAsync("88 Sheet, \"Old\" Mill", "=HYPERLINK(1)");
        var answer = await desk.GetAsync("/houses?find=sheet&handler=File");
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        Assert.Equal(Encoding.UTF8.Preamble.ToArray(), bytes[..3]);
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        var lines = Encoding.UTF8.GetString(bytes[3..]).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, lines.Length);
        Assert.StartsWith("\"88 Sheet, \"\"Old\"\" Mill\",Birchford,,MN,55999,'=HYPERLINK(1),", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Fifty_stand_on_a_page_and_the_rest_on_the_next()
    {
        var desk = await office.SignInAsOfficeAsync();
        for (var i = 0; i < 53; i++) await office.AddHouseAsync($"{i} Paging Lane", zip: "55111");
        var first = await desk.TextAsync("/houses?find=paging");
        Assert.Contains("53 houses, page 1 of 2", first, StringComparison.Ordinal);
        Assert.Contains("52 Paging Lane", first, StringComparison.Ordinal);
        var past = await desk.TextAsync("/houses?find=paging&part=999");
        Assert.Contains("page 2 of 2", past, StringComparison.Ordinal);
        Assert.Contains("1 Paging Lane", past, StringComparison.Ordinal);
        Assert.DoesNotContain("52 Paging Lane", past, StringComparison.Ordinal);
        Assert.Contains("page 2 of 2", await desk.TextAsync("/houses?find=paging&part=2&sort=address"), StringComparison.Ordinal);
        Assert.Contains("page 1 of 2", await desk.TextAsync("/houses?find=paging&part=abc"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/houses")]
    [InlineData("/houses?find=a+b+c+d+e+f+g+h&stage=Proven&sort=stage")]
    [InlineData("/houses?sort=owner")]
    [InlineData("/houses?handler=File&sort=city")]
    [InlineData("/houses/new")]
    public async Task A_list_takes_ten_statements_at_most(string url) => await office.AssertFewStatementsAsync(await office.SignInAsOfficeAsync(), url);

    [Theory]
    [InlineData("/houses/999999")]
    [InlineData("/houses/999999/inquiry")]
    [InlineData("/houses/999999/papers")]
    [InlineData("/houses/999999/hand-over")]
    [InlineData("/houses/0/inquiry")]
    [InlineData("/customers/999999")]
    [InlineData("/customers/abc")]
    public async Task A_stale_link_is_answered_with_nothing_here(string url)
    {
        var owner = await office.SignInAsOwnerAsync();
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync(url)).StatusCode);
    }
}

public sealed class EmptyHouseListTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task An_empty_list_says_what_it_is_for_and_holds_the_first_action()
    {
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("A house begins with an inquiry", await desk.TextAsync("/houses"), StringComparison.Ordinal);
        Assert.Contains("href=\"/houses/new\"", await (await desk.GetAsync("/houses")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var crew = await office.SignInAsInstallerAsync();
        Assert.DoesNotContain("href=\"/houses/new\"", await (await crew.GetAsync("/houses")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
