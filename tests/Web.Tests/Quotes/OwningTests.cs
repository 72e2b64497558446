using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace MitigationOffice.Web.Tests.Quotes;

[Trait("Database", "either")]
public sealed class OwningTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Edit = "form[action*='/quote?revision']";

    private static Dictionary<string, string> Costs() => new()
    {
        ["Input.OwningYears"] = "12", ["Input.ElectricityPerYear"] = "20", ["Input.HeatCablePerYear"] = "$11", ["Input.HouseAirPerYear"] = "60", ["Input.FanLifeYears"] = "8", ["Input.FanReplacement"] = "450",
    };

    /// <summary>First choice by hand $606.47 net, tax 6.875 % of 11.47 = 0.79: 607.26; + 12 × (20 + 60) + one fan of 450 = 2,017.26. With the cable of the
    /// third choice, the bypass with it: 606.47 + 160 + 480 + tax of 651.47 = 44.79: 1,291.26; + 12 × 91 + 450 = 2,833.26.</summary>
    [Fact]
    public async Task The_cost_of_owning_is_the_same_on_the_sheet_the_paper_and_the_offer()
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync($"/houses/{draft.HouseId}/quote", Costs(), Edit)).StatusCode);
        var offer = await office.SendAsync(draft);
        using var pdf = PdfDocument.Open(await desk.GetByteArrayAsync($"/houses/{draft.HouseId}/quote?handler=Paper&revision={draft.RevisionId}"));
        var paper = string.Join(' ', pdf.GetPages().Select(p => ContentOrderTextExtractor.GetText(p))).ReplaceLineEndings(" ");
        foreach (var text in new[] { await desk.TextAsync($"/houses/{draft.HouseId}/quote"), paper, await office.Visitor().TextAsync(offer.Path) })
            foreach (var words in new[] { "$2,017.26", "$2,833.26", "One more fan", "A fan lasts 8 years", "Over 12 years" })
                Assert.Contains(words, text, StringComparison.Ordinal);
        var cable = await office.WithDbAsync(db => db.Set<QuoteAddOn>().Where(a => a.QuoteRevisionId == draft.RevisionId && a.OfferedFor == OfferReason.FreezeGuard).Select(a => a.Id).SingleAsync());
        var review = await office.Visitor().TextAsync($"{offer.Path}?step=review&tier={offer.TierIds[1]}&add={cable}");
        Assert.Contains("$2,833.26", review, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hours_and_margin_are_the_owner_s_alone()
    {
        var draft = await office.DraftedQuoteAsync();
        var path = $"/houses/{draft.HouseId}/quote";
        var owner = await (await office.SignInAsOwnerAsync()).TextAsync(path);
        Assert.Contains("Hours of labor", owner, StringComparison.Ordinal);
        Assert.Contains("share of the net price", owner, StringComparison.Ordinal);
        var desk = await (await office.SignInAsOfficeAsync()).TextAsync(path);
        Assert.DoesNotContain("Hours of labor", desk, StringComparison.Ordinal);
        var offer = await office.SendAsync(draft);
        Assert.DoesNotContain("Hours of labor", await office.Visitor().TextAsync(offer.Path), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Input.OwningYears", "400", "The number of years must be between 1 and 40; you wrote 400.")]
    [InlineData("Input.FanLifeYears", "-1", "The life of a fan must be between 0 and 100")]
    [InlineData("Input.HeatCablePerYear", "some", "Write the cost of the heat cable as a number")]
    [InlineData("Input.DepositPercent", "101", "The deposit must be between 0 and 100; you wrote 101.")]
    [InlineData("Input.Tiers[0].Lines[0].Price", "-5", "The price must be between 0 and 1000000; you wrote -5.")]
    [InlineData("Input.AddOns[0].Price", "-5", "The price must be between 0 and 1000000; you wrote -5.")]
    public async Task What_is_out_of_range_is_refused_in_words(string field, string typed, string words)
    {
        var draft = await office.DraftedQuoteAsync();
        var answer = await (await office.SignInAsOfficeAsync()).SubmitAsync($"/houses/{draft.HouseId}/quote", new() { [field] = typed }, Edit);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_worth_a_look_is_named_and_stops_nothing()
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{draft.HouseId}/quote", new() { ["Input.GuaranteePCiL"] = "0", ["Input.WhyRecommended"] = "", ["Input.Terms"] = "" }, Edit);
        var page = await new HtmlParser().ParseDocumentAsync(await desk.GetStringAsync($"/houses/{draft.HouseId}/quote"));
        var advice = page.QuerySelectorAll(".advice a").ToDictionary(a => a.GetAttribute("href")!, a => a.TextContent);
        Assert.Equal(["#Input_FanLifeYears", "#Input_GuaranteePCiL", "#Input_Terms", "#Input_WhyRecommended", $"/houses/{draft.HouseId}/design"], advice.Keys.Order(StringComparer.Ordinal));
        Assert.All(advice.Keys.Where(k => k[0] == '#'), k => Assert.NotNull(page.GetElementById(k[1..])));
        Assert.NotNull(page.QuerySelector("#send"));
    }

    /// <summary>More than the framework binds without being told to. Ten thousand lines pass as well, too slowly for every run.</summary>
    [Fact]
    public async Task A_quote_of_twelve_hundred_lines_is_shown_edited_and_added_up()
    {
        var draft = await office.DraftedQuoteAsync();
        await office.WithDbAsync(async db =>
        {
            var tier = await db.Set<QuoteTier>().Include(t => t.Lines).FirstAsync(t => t.QuoteRevisionId == draft.RevisionId && t.Position == 1);
            tier.Lines.AddRange(Enumerable.Range(1, 1_200 - tier.Lines.Count).Select(i => new QuoteLine { Position = 100 + i, Words = $"Extra {i}", UnitPrice = new Money(i) }));
            await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        var saved = await desk.SubmitAsync($"/houses/{draft.HouseId}/quote?revision={draft.RevisionId}&lines=12", new() { ["Input.Tiers[0].Lines[99].Price"] = "7.77" }, Edit);
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        var last = await office.WithDbAsync(db => db.Set<QuoteTier>().Where(t => t.QuoteRevisionId == draft.RevisionId && t.Position == 1).SelectMany(t => t.Lines).OrderBy(l => l.Position).LastAsync());
        Assert.Equal((777, 1_200), (last.UnitPrice.Cents, last.Position));
    }
}
