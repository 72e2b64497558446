using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;

namespace MitigationOffice.Web.Tests.Quotes;

/// <summary>A draft with ten thousand lines, as a slip of an import or a bad day makes it.</summary>
[Trait("Database", "either")]
public sealed class LongQuoteTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Edit = "form[action*='/quote?revision']";

    private async Task<QuoteAtHand> LongAsync()
    {
        var draft = await office.DraftedQuoteAsync();
        await office.WithDbAsync(async db =>
        {
            db.Audited = false;
            var tier = await db.Set<QuoteTier>().Include(t => t.Lines).SingleAsync(t => t.QuoteRevisionId == draft.RevisionId && t.Position == 1);
            var had = tier.Lines.Count;
            tier.Lines.AddRange(Enumerable.Range(had + 1, 10_000 - had).Select(n => new QuoteLine { Position = n, Words = $"Part {n:00000}", UnitPrice = new Money(100) }));
            await db.SaveChangesAsync();
        });
        return draft;
    }

    [Fact]
    public async Task The_sheet_shows_a_hundred_at_a_time_and_saving_keeps_the_others()
    {
        var draft = await LongAsync();
        var desk = await office.SignInAsOfficeAsync();
        var path = $"/houses/{draft.HouseId}/quote";
        await office.AssertFewStatementsAsync(desk, path);
        var html = await (await desk.GetAsync(path)).Content.ReadAsStringAsync();
        Assert.InRange(html.Length, 1000, 600_000);
        var page = await new HtmlParser().ParseDocumentAsync(html);
        Assert.Equal(102, page.QuerySelectorAll("input[name^='Input.Tiers[0].Lines['][name$='.Words']").Length);
        Assert.Contains("part 1 of 101", page.Body!.TextContent, StringComparison.Ordinal);
        var second = $"{path}?revision={draft.RevisionId}&lines=2";
        var saved = await desk.SubmitAsync(second, new() { ["Input.Tiers[0].Lines[0].Price"] = "7.25", ["Input.Tiers[0].Lines[1].Words"] = "", ["Input.Tiers[0].Lines[100].Words"] = "One more", ["Input.Tiers[0].Lines[100].Price"] = "3" }, Edit);
        Assert.True(saved.StatusCode == HttpStatusCode.Redirect, await saved.TextAsync());
        Assert.Contains("lines=2", saved.Headers.Location!.OriginalString, StringComparison.Ordinal);
        var lines = await office.WithDbAsync(db => db.QuoteRevisions.AsNoTracking().Where(r => r.Id == draft.RevisionId).SelectMany(r => r.Tiers).Where(t => t.Position == 1).SelectMany(t => t.Lines).OrderBy(l => l.Position).ToListAsync());
        Assert.Equal(10_000, lines.Count);
        Assert.Equal(Enumerable.Range(1, 10_000), lines.Select(l => l.Position));
        Assert.Equal(("Part 00101", 7_25), (lines[100].Words, lines[100].UnitPrice.Cents));
        Assert.Equal(("Part 00103", "Part 00200", "One more", "Part 00201"), (lines[101].Words, lines[198].Words, lines[199].Words, lines[200].Words));
    }

    [Fact]
    public async Task It_is_not_sent_and_its_paper_is_not_made_and_both_are_said_in_words()
    {
        var draft = await LongAsync();
        var desk = await office.SignInAsOfficeAsync();
        var text = await desk.TextAsync($"/houses/{draft.HouseId}/quote");
        Assert.Contains("different lines; 250 are the most that a quote’s paper takes", text, StringComparison.Ordinal);
        Assert.Contains("Its paper can be looked at when it holds fewer lines.", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.GetAsync($"/houses/{draft.HouseId}/quote?handler=Paper&revision={draft.RevisionId}")).StatusCode);
        var version = await office.WithDbAsync(db => db.QuoteRevisions.Where(r => r.Id == draft.RevisionId).Select(r => r.Version).SingleAsync());
        var sent = await office.WithDbAsync(async db => await SendQuote.NowAsync(db, draft.RevisionId, version, await office.LetterheadAsync(db), office.Clock, "Ada Quill"));
        Assert.Null(sent.Token);
        Assert.Contains(sent.Gaps, g => g.Words.Contains("different lines", StringComparison.Ordinal));
    }
}
