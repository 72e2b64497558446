using System.Net;
using System.Security.Cryptography;
using System.Text;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using MimeKit;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Tests.Quotes;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Offer;

public sealed class OfferTests(OfferOffice office) : IClassFixture<OfferOffice>
{
    private static Dictionary<string, string> Signature(string name = "Rosalind Quill") =>
        new() { ["Input.Consented"] = "true", ["Input.TypedName"] = name, ["Input.Intended"] = "true" };

    private static string SignPath(OfferOut offer, int tier = 1, params int[] addOns) =>
        $"{offer.Path}?step=sign&tier={offer.TierIds[tier]}{string.Concat(addOns.Select(a => $"&add={a}"))}";

    [Fact]
    public async Task The_house_owner_chooses_adds_looks_over_signs_and_takes_the_signed_copy()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var visitor = office.Visitor();
        var choose = await visitor.TextAsync(offer.Path);
        Assert.Contains("9.6 pCi/L", choose, StringComparison.Ordinal);
        Assert.Contains("Through every winter", choose, StringComparison.Ordinal);
        var add = await visitor.TextAsync($"{offer.Path}?step=add&tier={offer.TierIds[0]}");
        Assert.Contains("Ice closes the outdoor pipe on the coldest days.", add, StringComparison.Ordinal);
        var cable = await AddOnAsync(offer, "Freeze-guard heat cable");
        var review = await visitor.TextAsync($"{offer.Path}?step=review&tier={offer.TierIds[0]}&add={cable}");
        var expected = await TotalsAsync(offer, 0, cable);
        Assert.Contains(expected.Total.ToString(), review, StringComparison.Ordinal);
        Assert.Contains("the last day to cancel is Mar 5, 2026", review, StringComparison.Ordinal);
        Assert.Contains("Recommended, and not chosen", review, StringComparison.Ordinal);
        var signed = await visitor.SubmitAsync(SignPath(offer, 0, cable), Signature());
        Assert.Equal($"{offer.Path}/done", signed.Headers.Location!.OriginalString);
        var done = await visitor.TextAsync($"{offer.Path}/done");
        Assert.Contains("Thank you, Rosalind Quill", done, StringComparison.Ordinal);
        Assert.Contains(expected.Total.ToString(), done, StringComparison.Ordinal);

        var bytes = await (await visitor.GetAsync($"{offer.Path}/paper")).Content.ReadAsByteArrayAsync();
        var kept = await office.WithDbAsync(db => db.Acceptances.AsNoTracking().SingleAsync(a => a.QuoteRevisionId == offer.RevisionId));
        Assert.Equal(kept.SignedSha256, Convert.ToHexStringLower(SHA256.HashData(bytes)));
        using var pdf = PdfDocument.Open(bytes);
        var text = string.Join(' ', pdf.GetPages().Select(p => p.Text));
        Assert.Contains(kept.PdfSha256, text, StringComparison.Ordinal);
        Assert.Equal((expected.Net, expected.Tax, expected.Total, expected.Deposit), (kept.Net, kept.Tax, kept.Total, kept.Deposit));
        Assert.Equal($"{cable}", kept.AddOnIds);
        Assert.Equal($"{await AddOnAsync(offer, "Condensate bypass at the fan")}", kept.DeclinedAddOnIds);
        Assert.Equal((new DateOnly(2026, 3, 5), "America/Chicago"), (kept.CancelBy, kept.TimeZone));
    }

    [Fact]
    public async Task The_copy_is_mailed_with_the_very_bytes_that_are_kept()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        await office.Visitor().SubmitAsync(SignPath(offer), Signature());
        var (mime, sha) = await office.WithDbAsync(async db => (
            await db.Outbox.Where(m => m.Key == $"accepted:{offer.RevisionId}").Select(m => m.Mime).SingleAsync(),
            await db.Acceptances.Where(a => a.QuoteRevisionId == offer.RevisionId).Select(a => a.SignedSha256).SingleAsync()));
        using var stream = new MemoryStream(mime);
        var message = await MimeMessage.LoadAsync(stream);
        using var content = new MemoryStream();
        await ((MimePart)message.Attachments.Single()).Content!.DecodeToAsync(content);
        Assert.Equal(sha, Convert.ToHexStringLower(SHA256.HashData(content.ToArray())));
    }

    [Fact]
    public async Task Fifty_signatures_at_once_make_exactly_one_acceptance()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var visitors = await Task.WhenAll(Enumerable.Range(0, 50).Select(async i =>
        {
            var visitor = office.Visitor();
            return (visitor, form: await Fields(visitor, SignPath(offer)), name: $"Signer {(char)('A' + i % 26)}{i}");
        }));
        var answers = await Task.WhenAll(visitors.Select(v => v.visitor.PostAsync(SignPath(offer), new FormUrlEncodedContent([.. v.form, .. Signature(v.name)]))));
        Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.Redirect));
        Assert.All(answers.Where(a => a.StatusCode != HttpStatusCode.Redirect), a => Assert.Equal(HttpStatusCode.OK, a.StatusCode));
        Assert.Equal(1, await office.WithDbAsync(db => db.Acceptances.CountAsync(a => a.QuoteRevisionId == offer.RevisionId)));
        Assert.Equal(1, await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.Key == $"accepted:{offer.RevisionId}")));
        Assert.Empty((await office.WithDbAsync(db => VerifyAcceptances.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task Twenty_quotes_signed_at_once_stand_in_one_chain()
    {
        var offers = new List<OfferOut>();
        for (var i = 0; i < 20; i++) offers.Add(await office.HouseWithSentQuoteAsync());
        var signed = await Task.WhenAll(offers.Select(o => office.AcceptedQuoteAsync(o)));
        Assert.Equal(20, signed.Select(a => a.PreviousHash).Distinct().Count());
        Assert.Empty((await office.WithDbAsync(db => VerifyAcceptances.RunAsync(db))).Problems);
    }

    [Theory]
    [InlineData("Input.TypedName", "", "Type your full name.")]
    [InlineData("Input.TypedName", "1234", "Type your full name.")]
    [InlineData("Input.Consented", "false", "Tick that you agree to electronic papers")]
    [InlineData("Input.Intended", "false", "Tick that you accept")]
    public async Task A_signature_that_lacks_something_is_refused_in_words_and_keeps_the_rest(string field, string value, string words)
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var typed = Signature("Rosalind Quill of the hill");
        typed[field] = value;
        var answer = await office.Visitor().SubmitAsync(SignPath(offer), typed);
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains(words, html, StringComparison.Ordinal);
        if (field != "Input.TypedName") Assert.Contains("Rosalind Quill of the hill", html, StringComparison.Ordinal);
        Assert.Equal(RevisionState.Sent, await StateAsync(offer));
    }

    [Fact]
    public async Task A_choice_that_is_not_of_this_quote_is_refused()
    {
        var (offer, other) = (await office.HouseWithSentQuoteAsync(), await office.HouseWithSentQuoteAsync());
        var visitor = office.Visitor();
        foreach (var path in new[] { $"{offer.Path}?step=sign&tier={other.TierIds[0]}", SignPath(offer, 0, other.AddOnIds[0]) })
        {
            var form = await Fields(visitor, SignPath(offer));
            Assert.Equal(HttpStatusCode.OK, (await visitor.PostAsync(path, new FormUrlEncodedContent([.. form, .. Signature()]))).StatusCode);
        }

        Assert.Equal(RevisionState.Sent, await StateAsync(offer));
    }

    [Fact]
    public async Task An_addition_that_the_choice_holds_already_is_not_charged_twice()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var cable = await AddOnAsync(offer, "Freeze-guard heat cable");
        await office.Visitor().SubmitAsync(SignPath(offer, 2, cable), Signature());
        var kept = await office.WithDbAsync(db => db.Acceptances.SingleAsync(a => a.QuoteRevisionId == offer.RevisionId));
        Assert.Equal(("", (await TotalsAsync(offer, 2)).Total), (kept.AddOnIds, kept.Total));
    }

    [Fact]
    public async Task Twice_signed_keeps_the_first_and_says_that_it_was_accepted()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var visitor = office.Visitor();
        var form = await Fields(visitor, SignPath(offer));
        await visitor.PostAsync(SignPath(offer), new FormUrlEncodedContent([.. form, .. Signature("First Signer")]));
        var second = await visitor.PostAsync(SignPath(offer), new FormUrlEncodedContent([.. form, .. Signature("Second Signer")]));
        Assert.Contains("This quote has been accepted", await second.TextAsync(), StringComparison.Ordinal);
        Assert.Equal("First Signer", await office.WithDbAsync(db => db.Acceptances.Where(a => a.QuoteRevisionId == offer.RevisionId).Select(a => a.TypedName).SingleAsync()));
    }

    [Theory]
    [InlineData("accepted", HttpStatusCode.OK, "has been accepted")]
    [InlineData("declined", HttpStatusCode.Gone, "has been declined")]
    [InlineData("replaced", HttpStatusCode.Gone, "has been replaced")]
    [InlineData("withdrawn", HttpStatusCode.Gone, "has been withdrawn")]
    [InlineData("expired", HttpStatusCode.Gone, "has expired")]
    [InlineData("ended", HttpStatusCode.Gone, "This link has ended")]
    [InlineData("unknown", HttpStatusCode.NotFound, "This link leads nowhere")]
    public async Task A_link_that_is_not_live_says_so_without_personal_data_and_takes_no_signature(string state, HttpStatusCode code, string words)
    {
        var offer = await office.HouseWithSentQuoteAsync("Rosalind Secretname");
        var visitor = office.Visitor();
        var form = await Fields(visitor, SignPath(offer));
        var path = offer.Path;
        switch (state)
        {
            case "accepted": await office.AcceptedQuoteAsync(offer); break;
            case "declined": await office.WithDbAsync(db => CloseQuote.DeclineAsync(db, offer.Token, "too dear", office.Clock)); break;
            case "replaced": await ReviseAndSendAsync(offer); break;
            case "withdrawn": await office.WithDbAsync(db => CloseQuote.WithdrawAsync(db, offer.RevisionId, office.Clock)); break;
            case "ended": await office.WithDbAsync(async db => { await OfferLink.RevokeAsync(db, offer.RevisionId, office.Clock.GetUtcNow().UtcDateTime); await db.SaveChangesAsync(); }); break;
            case "expired": await office.WithDbAsync(db => db.QuoteLinks.Where(l => l.QuoteRevisionId == offer.RevisionId).ExecuteUpdateAsync(l => l.SetProperty(x => x.ExpiresAtUtc, office.Clock.GetUtcNow().UtcDateTime))); break;
            default: path = "/offer/" + new string('A', 43); break;
        }

        var before = await office.RowsAsync();
        foreach (var below in new[] { "", "/done", "?step=sign&tier=1", "?step=decline" })
        {
            var answer = await visitor.GetAsync(path + below);
            var html = await answer.Content.ReadAsStringAsync();
            Assert.Equal(code, answer.StatusCode);
            Assert.Contains(words, html, StringComparison.Ordinal);
            Assert.All(new[] { "Secretname", "Larkspur", "pCi/L", "$" }, s => Assert.DoesNotContain(s, html, StringComparison.Ordinal));
        }

        Assert.Equal(HttpStatusCode.Redirect, (await visitor.GetAsync(path + "/paper")).StatusCode);
        var late = await visitor.PostAsync(path + $"?step=sign&tier={offer.TierIds[1]}", new FormUrlEncodedContent([.. form, .. Signature()]));
        Assert.Contains(words, await late.TextAsync(), StringComparison.Ordinal);
        await visitor.PostAsync(path + "?handler=Decline", new FormUrlEncodedContent(form));
        Assert.Equal(before, await office.RowsAsync());
    }

    [Fact]
    public async Task The_quote_holds_to_the_end_of_its_last_day_where_the_house_stands()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var until = await office.WithDbAsync(db => db.QuoteRevisions.Where(r => r.Id == offer.RevisionId).Select(r => r.ValidUntil).SingleAsync());
        var end = HouseTime.ToUtc(until!.Value.AddDays(1), TimeOnly.MinValue, HouseTime.Zone("America/Chicago"));
        Assert.Equal((OfferState.Live, OfferState.Expired), await office.WithDbAsync(async db => (
            (await OfferLink.FindAsync(db, offer.Token, end.AddSeconds(-1))).State, (await OfferLink.FindAsync(db, offer.Token, end)).State)));
    }

    [Fact]
    public async Task Looking_and_scanning_change_nothing()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var before = await office.RowsAsync();
        var visitor = office.Visitor();
        foreach (var below in new[] { "", "?step=add&tier=" + offer.TierIds[0], "?step=review&tier=" + offer.TierIds[0], "?step=sign&tier=" + offer.TierIds[0], "?step=decline", "?handler=Decline", "/paper", "/done", "?step=sign&tier=x&add=y&add=-1" })
        {
            await visitor.GetAsync(offer.Path + below);
            await visitor.SendAsync(new HttpRequestMessage(HttpMethod.Head, offer.Path + below));
        }

        Assert.Equal(before, await office.RowsAsync());
    }

    [Fact]
    public async Task A_signature_without_the_form_s_own_mark_is_refused()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var answer = await office.Visitor().PostAsync(SignPath(offer), new FormUrlEncodedContent(Signature()));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(RevisionState.Sent, await StateAsync(offer));
    }

    [Fact]
    public async Task Declining_keeps_the_reason_and_ends_the_offer()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        await office.Visitor().SubmitAsync(offer.Path + "?step=decline", new() { ["Input.Reason"] = "We <b>sold</b> the house." });
        Assert.Equal((RevisionState.Declined, "We <b>sold</b> the house."), await office.WithDbAsync(async db =>
        {
            var r = await db.QuoteRevisions.SingleAsync(x => x.Id == offer.RevisionId);
            return (r.State, r.DeclineReason);
        }));
        var sheet = await (await (await office.SignInAsOfficeAsync()).GetAsync($"/houses/{offer.HouseId}/quote")).Content.ReadAsStringAsync();
        Assert.Contains("We &lt;b&gt;sold&lt;/b&gt; the house.", sheet, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_paper_is_the_stored_one_byte_for_byte_and_no_one_keeps_or_finds_it()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var answer = await office.Visitor().GetAsync(offer.Path + "/paper");
        var stored = await office.WithDbAsync(db => db.QuoteRevisions.Where(r => r.Id == offer.RevisionId).Join(db.Documents, r => r.PdfDocumentId, d => d.Id, (r, d) => d.Bytes).SingleAsync());
        Assert.Equal(stored, await answer.Content.ReadAsByteArrayAsync());
        foreach (var each in new[] { answer, await office.Visitor().GetAsync(offer.Path) })
        {
            Assert.Contains("no-store", each.Headers.GetValues("Cache-Control").Single(), StringComparison.Ordinal);
            Assert.Contains("noindex", each.Headers.GetValues("X-Robots-Tag").Single(), StringComparison.Ordinal);
            Assert.Equal("no-referrer", each.Headers.GetValues("Referrer-Policy").Single());
        }
    }

    [Fact]
    public async Task The_signed_copy_is_for_the_browser_that_signed_and_for_an_hour()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var visitor = office.Visitor();
        await visitor.SubmitAsync(SignPath(offer), Signature());
        Assert.Equal(HttpStatusCode.OK, (await visitor.GetAsync(offer.Path + "/paper")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await office.Visitor().GetAsync(offer.Path + "/paper")).StatusCode);
        office.Clock.Advance(TimeSpan.FromMinutes(61));
        Assert.Equal(HttpStatusCode.Redirect, (await visitor.GetAsync(offer.Path + "/paper")).StatusCode);
        Assert.DoesNotContain("Rosalind", await visitor.TextAsync(offer.Path + "/done"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_secret_of_the_link_is_in_no_log_and_in_no_table_but_the_waiting_mail()
    {
        var log = new Heard();
        office.Services.GetRequiredService<ILoggerFactory>().AddProvider(log);
        var offer = await office.HouseWithSentQuoteAsync();
        var visitor = office.Visitor();
        await visitor.GetAsync(offer.Path + "?step=sign&tier=1");
        await visitor.PostAsync(offer.Path, new FormUrlEncodedContent(Signature()));
        await visitor.SubmitAsync(SignPath(offer), Signature());
        await visitor.GetAsync(offer.Path + "/done");
        Assert.DoesNotContain(offer.Token, log.ToString(), StringComparison.Ordinal);
        await office.WithDbAsync(async db =>
        {
            Assert.False(await db.Submissions.AnyAsync(s => s.Key.Contains(offer.Token)));
            Assert.False(await db.Audit.AnyAsync(a => a.Changes.Contains(offer.Token) || a.Changes.Contains(PrivateLink.HashOf(offer.Token))));
            Assert.True(await db.QuoteLinks.AnyAsync(l => l.TokenHash == PrivateLink.HashOf(offer.Token)));
        });
    }

    [Fact]
    public async Task Every_change_of_an_acceptance_or_its_papers_is_found()
    {
        var kept = await office.AcceptedQuoteAsync();
        await office.AcceptedQuoteAsync();
        async Task<string> TamperAsync(Func<OfficeDb, Task> with, Func<OfficeDb, Task> undo)
        {
            await office.WithDbAsync(with);
            var found = await office.WithDbAsync(db => VerifyAcceptances.RunAsync(db));
            await office.WithDbAsync(undo);
            return string.Join(' ', found.Problems);
        }

        var total = await TamperAsync(
            db => db.Acceptances.Where(a => a.Id == kept.Id).ExecuteUpdateAsync(a => a.SetProperty(x => x.Total.Cents, 1)),
            db => db.Acceptances.Where(a => a.Id == kept.Id).ExecuteUpdateAsync(a => a.SetProperty(x => x.Total.Cents, kept.Total.Cents)));
        Assert.Contains($"Acceptance {kept.Id} was changed", total, StringComparison.Ordinal);
        var bytes = await office.WithDbAsync(db => db.Documents.Where(d => d.Id == kept.PdfDocumentId).Select(d => d.Bytes).SingleAsync());
        var other = (byte[])bytes.Clone();
        other[^10] ^= 1;
        var paper = await TamperAsync(
            db => db.Documents.Where(d => d.Id == kept.PdfDocumentId).ExecuteUpdateAsync(d => d.SetProperty(x => x.Bytes, other)),
            db => db.Documents.Where(d => d.Id == kept.PdfDocumentId).ExecuteUpdateAsync(d => d.SetProperty(x => x.Bytes, bytes)));
        Assert.Contains($"The quote shown for acceptance {kept.Id} is not the one that was signed", paper, StringComparison.Ordinal);
        Assert.Empty((await office.WithDbAsync(db => VerifyAcceptances.RunAsync(db))).Problems);
    }

    private async Task ReviseAndSendAsync(OfferOut offer)
    {
        var next = await office.WithDbAsync(db => ReviseQuote.NextAsync(db, offer.QuoteId, office.Clock));
        await office.SendAsync(new QuoteAtHand(offer.HouseId, offer.QuoteId, next!.Id));
    }

    private Task<RevisionState> StateAsync(OfferOut offer) => office.WithDbAsync(db => db.QuoteRevisions.Where(r => r.Id == offer.RevisionId).Select(r => r.State).SingleAsync());

    private Task<int> AddOnAsync(OfferOut offer, string words) =>
        office.WithDbAsync(db => db.Set<QuoteAddOn>().Where(a => a.QuoteRevisionId == offer.RevisionId && a.Words == words).Select(a => a.Id).SingleAsync());

    private Task<QuoteTotals> TotalsAsync(OfferOut offer, int tier, params int[] addOns) => office.WithDbAsync(async db =>
    {
        var r = await db.QuoteRevisions.AsNoTracking().WithPrices().SingleAsync(x => x.Id == offer.RevisionId);
        return PriceQuote.Of(r, r.Tiers.Single(t => t.Id == offer.TierIds[tier]), r.AddOns.Where(a => addOns.Contains(a.Id)));
    });

    private static async Task<List<KeyValuePair<string, string>>> Fields(HttpClient visitor, string path)
    {
        var page = await new HtmlParser().ParseDocumentAsync(await visitor.GetStringAsync(path));
        return [new("_form", page.QuerySelector("main form[method=post] input[name=_form]")!.GetAttribute("value")!)];
    }

    private sealed class Heard : ILoggerProvider, ILogger
    {
        private readonly StringBuilder _all = new();

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            lock (_all) _all.Append(formatter(state, exception)).Append(exception).AppendLine();
        }

        public void Dispose()
        {
        }

        public override string ToString()
        {
            lock (_all) return _all.ToString();
        }
    }
}
