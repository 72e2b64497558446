using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Tests.Messages;

namespace MitigationOffice.Web.Tests.Quotes;

public sealed class NudgeTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_quote_without_an_answer_is_nudged_once_by_each_rule_between_nine_and_five()
    {
        var first = NewDay();
        var offer = await office.HouseWithSentQuoteAsync();
        await AtAsync(first, 3, 15);
        Assert.Empty(await NudgesAsync(offer));
        await AtAsync(first, 4, 11);
        Assert.Empty(await NudgesAsync(offer));
        // Several programs at once.
        office.Clock.SetUtcNow(first.AddDays(4).AddHours(16));
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => RunAsync()));
        await AtAsync(first, 4, 17);
        var one = Assert.Single(await NudgesAsync(offer));
        Assert.Equal((MailClass.Commercial, $"nudge:{offer.RevisionId}:4"), (one.Class, one.Key));
        using var stream = new MemoryStream(one.Mime);
        var mime = await MimeKit.MimeMessage.LoadAsync(stream);
        Assert.NotNull(mime.Headers["List-Unsubscribe"]);
        var link = mime.TextBody!.Split('\n').Single(l => l.Contains("/offer/", StringComparison.Ordinal)).Trim();
        Assert.Contains("Choose what is done", await office.Visitor().TextAsync(new Uri(link).PathAndQuery), StringComparison.Ordinal);
        await AtAsync(first, 14, 16);
        await AtAsync(first, 15, 16);
        Assert.Equal([4, 14], (await office.WithDbAsync(db => db.QuoteNudges.Where(n => n.QuoteRevisionId == offer.RevisionId).ToListAsync())).Select(n => n.AfterDays).Order());
    }

    [Theory]
    [InlineData("signed")]
    [InlineData("declined")]
    [InlineData("revised")]
    [InlineData("being revised")]
    [InlineData("ran out")]
    [InlineData("closed")]
    [InlineData("opted out")]
    [InlineData("turned off")]
    public async Task It_stops_when_there_is_nothing_more_to_ask(string because)
    {
        var first = NewDay();
        var offer = await office.HouseWithSentQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        switch (because)
        {
            case "signed": await office.AcceptedQuoteAsync(offer); break;
            case "declined": await office.WithDbAsync(db => CloseQuote.DeclineAsync(db, offer.Token, "", office.Clock)); break;
            case "revised":
                var next = await office.WithDbAsync(async db => (await ReviseQuote.NextAsync(db, offer.QuoteId, office.Clock))!.Id);
                await office.SendAsync(new QuoteAtHand(offer.HouseId, offer.QuoteId, next));
                break;
            case "being revised": await office.WithDbAsync(db => ReviseQuote.NextAsync(db, offer.QuoteId, office.Clock)); break;
            case "closed": await desk.SubmitAsync($"/houses/{offer.HouseId}/quote", new() { ["Lost.Because"] = "Price" }, "#lost"); break;
            case "turned off": await desk.SubmitAsync($"/houses/{offer.HouseId}/quote", [], "#nudges", "#nudges button"); break;
            case "opted out":
                var address = await office.WithDbAsync(db => db.Outbox.Where(m => m.HouseId == offer.HouseId).Select(m => m.ToAddress).FirstAsync());
                await office.WithDbAsync(async db =>
                {
                    db.Suppressions.Add(new Suppression { Address = address, Class = MailClass.Commercial, AtUtc = first.UtcDateTime });
                    await db.SaveChangesAsync();
                });
                break;
        }

        await AtAsync(first, because == "ran out" ? 45 : 5, 16);
        Assert.Empty(await NudgesAsync(offer));
    }

    [Fact]
    public async Task One_that_waits_in_the_outbox_is_not_sent_after_the_answer()
    {
        var first = NewDay();
        var offer = await office.HouseWithSentQuoteAsync();
        await AtAsync(first, 5, 17);
        Assert.Equal(DeliveryState.Waiting, Assert.Single(await NudgesAsync(offer)).State);
        await office.AcceptedQuoteAsync(offer);
        await RunAsync();
        Assert.Equal(DeliveryState.Suppressed, Assert.Single(await NudgesAsync(offer)).State);
    }

    [Fact]
    public async Task The_rules_are_the_office_s_to_change_and_wrong_words_are_refused()
    {
        var desk = await office.SignInAsOfficeAsync();
        var refused = await desk.SubmitAsync("/quotes/nudges", new() { ["Rows[0].AfterDays"] = "0", ["Rows[0].Body"] = "Hello {nam}", ["Rows[1].Subject"] = "See {link}" }, "main form[method=post]");
        var text = await refused.TextAsync();
        foreach (var words in new[] { "The number of days must be between 1 and 365", "There is no field {nam}", "The link belongs into the message" }) Assert.Contains(words, text, StringComparison.Ordinal);
        await desk.SubmitAsync("/quotes/nudges", new() { ["Rows[2].AfterDays"] = "21", ["Rows[2].Subject"] = "Still there?", ["Rows[2].Body"] = "Look: {link}" }, "main form[method=post]");
        Assert.Equal([4, 14, 21], await office.WithDbAsync(db => db.NudgeRules.Select(r => r.AfterDays).OrderBy(d => d).ToListAsync()));
        await desk.SubmitAsync("/quotes/nudges", new() { ["Rows[2].AfterDays"] = "", ["Rows[2].Subject"] = "", ["Rows[2].Body"] = "" }, "main form[method=post]");
        Assert.Equal(2, await office.WithDbAsync(db => db.NudgeRules.CountAsync()));
    }

    /// <summary>The next day at ten or eleven in the morning at the house; its midnight in UTC.</summary>
    private DateTimeOffset NewDay()
    {
        var midnight = new DateTimeOffset(office.Clock.GetUtcNow().UtcDateTime.Date.AddDays(1), TimeSpan.Zero);
        office.Clock.SetUtcNow(midnight.AddHours(16));
        return midnight;
    }

    private Task AtAsync(DateTimeOffset first, int day, int hourUtc)
    {
        office.Clock.SetUtcNow(first.AddDays(day).AddHours(hourUtc));
        return RunAsync();
    }

    private async Task RunAsync()
    {
        await using var scope = office.Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<NudgeQuotes>().RunAsync();
    }

    private Task<List<OutboxMessage>> NudgesAsync(OfferOut offer) => office.WithDbAsync(db => db.Outbox.AsNoTracking().Where(m => m.Key.StartsWith($"nudge:{offer.RevisionId}:")).OrderBy(m => m.Id).ToListAsync());
}
