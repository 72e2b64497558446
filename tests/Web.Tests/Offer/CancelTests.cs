using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Invoices;
using MitigationOffice.Web.Tests.Messages;
using MitigationOffice.Web.Tests.Quotes;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Offer;

/// <summary>The house owner cancels by the private link, within the days the rule gives.</summary>
public sealed class CancelTests
{
    private static readonly Dictionary<string, string> Notice = new() { ["Input.TypedName"] = "Rosalind Quill", ["Input.Cancels"] = "true" };

    [Fact]
    public async Task In_time_it_takes_the_sale_back_calls_the_job_off_and_tells_everybody()
    {
        await using var at = await StartedAsync();
        var (office, offer) = (at.Office, await at.Office.HouseWithSentQuoteAsync());
        var sale = await SaleAsync(office, offer);
        await office.IssueAsync(sale, InvoiceKind.Deposit);
        await office.PayAsync(sale, sale.Deposit.Dollars);
        var job = await office.WithDbAsync(db => OpenJob.RunAsync(db, sale.AcceptanceId, office.Clock));
        var visitor = office.Visitor();
        Assert.Contains("Cancel the purchase", await visitor.TextAsync(offer.Path), StringComparison.Ordinal);
        var page = await visitor.TextAsync(offer.Path + "/cancel");
        Assert.Contains("until midnight of Mar 5, 2026", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Rosalind", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await visitor.SubmitAsync(offer.Path + "/cancel", Notice)).StatusCode);
        var after = await visitor.TextAsync(offer.Path + "/cancel");
        Assert.Contains("is cancelled", after, StringComparison.Ordinal);
        Assert.Contains("given back by Mar 16, 2026", after, StringComparison.Ordinal);
        Assert.Contains("is cancelled", await visitor.TextAsync(offer.Path), StringComparison.Ordinal);
        var kept = await office.WithDbAsync(db => db.CancelNotices.AsNoTracking().SingleAsync(n => n.AcceptanceId == sale.AcceptanceId));
        Assert.Equal(("Rosalind Quill", CancelByLink.Statement, new DateOnly(2026, 3, 16)), (kept.TypedName, kept.Statement, kept.OwedBackBy));
        Assert.Equal(JobState.CalledOff, await office.WithDbAsync(db => db.Jobs.Where(j => j.Id == job).Select(j => j.State).SingleAsync()));
        Assert.Equal(Money.Zero, (await office.WithDbAsync(db => db.Invoices.AsNoTracking().Where(i => i.HouseId == offer.HouseId).ToListAsync())).Select(i => i.Total).Sum());
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains($"{sale.Deposit} owed back by Mon, Mar 16", await desk.TextAsync("/"), StringComparison.Ordinal);
        Assert.Contains("By the private link: Rosalind Quill", await desk.TextAsync($"/houses/{offer.HouseId}/money"), StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(desk, $"/houses/{offer.HouseId}/money");
        await office.AssertFewStatementsAsync(desk, "/");
        await office.SendOutboxAsync();
        var mail = Assert.Single(office.MailTo(await EmailAsync(office, sale)), m => m.Subject!.StartsWith("Cancelled:", StringComparison.Ordinal));
        Assert.Single(mail.Attachments);
        Assert.Single(office.MailTo("office@lanternridge.example"), m => m.Subject!.StartsWith("The buyer cancelled", StringComparison.Ordinal));
        using var pdf = PdfDocument.Open(await office.WithDbAsync(db => db.Documents.Where(d => d.Id == kept.PdfDocumentId).Select(d => d.Bytes).SingleAsync()));
        var text = string.Concat(pdf.GetPages().Select(p => p.Text)).Replace(" ", "", StringComparison.Ordinal);
        Assert.All(["Iherebycancelthistransaction.", "RosalindQuill", "Mar5,2026", "Mar16,2026"], w => Assert.Contains(w, text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Until_midnight_where_the_house_stands_and_not_a_second_later()
    {
        await using var at = await StartedAsync();
        var (office, offer) = (at.Office, await at.Office.HouseWithSentQuoteAsync());
        await office.AcceptedQuoteAsync(offer);
        var end = HouseTime.ToUtc(new DateOnly(2026, 3, 6), TimeOnly.MinValue, HouseTime.Zone("America/Chicago"));
        var other = await office.HouseWithSentQuoteAsync();
        await office.AcceptedQuoteAsync(other);
        office.Clock.SetUtcNow(new DateTimeOffset(end).AddSeconds(-1));
        var visitor = office.Visitor();
        var form = await FormAsync(visitor, offer.Path + "/cancel");
        Assert.Equal(HttpStatusCode.Redirect, (await visitor.PostAsync(other.Path + "/cancel", new FormUrlEncodedContent([.. form, .. Notice]))).StatusCode);
        office.Clock.SetUtcNow(new DateTimeOffset(end));
        Assert.Contains("The time to cancel has ended", await visitor.TextAsync(offer.Path + "/cancel"), StringComparison.Ordinal);
        var late = await (await visitor.PostAsync(offer.Path + "/cancel", new FormUrlEncodedContent([.. form, .. Notice]))).TextAsync();
        Assert.Contains("555-0100", late, StringComparison.Ordinal);
        Assert.Equal([other.HouseId], await office.WithDbAsync(db => db.CancelledSales.Select(c => c.HouseId).ToListAsync()));
    }

    [Fact]
    public async Task Fifty_notices_at_once_and_a_second_one_later_cancel_once()
    {
        await using var at = await StartedAsync();
        var (office, offer) = (at.Office, await at.Office.HouseWithSentQuoteAsync());
        await office.AcceptedQuoteAsync(offer);
        var visitors = await Task.WhenAll(Enumerable.Range(0, 50).Select(async _ => { var v = office.Visitor(); return (v, form: await FormAsync(v, offer.Path + "/cancel")); }));
        var answers = await Task.WhenAll(visitors.Select(v => v.v.PostAsync(offer.Path + "/cancel", new FormUrlEncodedContent([.. v.form, .. Notice]))));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        Assert.Equal((1, 1), await office.WithDbAsync(async db => (await db.CancelNotices.CountAsync(), await db.CancelledSales.CountAsync())));
        Assert.Equal(1, await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.Key.StartsWith("cancelled:") && !m.Key.EndsWith(":office"))));
    }

    [Fact]
    public async Task Looking_changes_nothing_and_what_is_missing_is_said_in_words()
    {
        await using var at = await StartedAsync();
        var (office, offer) = (at.Office, await at.Office.HouseWithSentQuoteAsync());
        Assert.Equal(HttpStatusCode.Redirect, (await office.Visitor().GetAsync(offer.Path + "/cancel")).StatusCode);
        await office.AcceptedQuoteAsync(offer);
        var before = await office.RowsAsync();
        var scanner = office.Visitor();
        foreach (var path in new[] { "/cancel", "/cancel?handler=Cancel", "", "/done" })
        {
            await scanner.GetAsync(offer.Path + path);
            await scanner.SendAsync(new HttpRequestMessage(HttpMethod.Head, offer.Path + path));
        }

        Assert.Equal(HttpStatusCode.BadRequest, (await scanner.PostAsync(offer.Path + "/cancel", new FormUrlEncodedContent(Notice))).StatusCode);
        var answer = await scanner.SubmitAsync(offer.Path + "/cancel", new() { ["Input.TypedName"] = "<b>Rosalind</b>", ["Input.Cancels"] = "false" });
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains("Tick that you cancel", html, StringComparison.Ordinal);
        Assert.Contains("&lt;b&gt;Rosalind&lt;/b&gt;", html, StringComparison.Ordinal);
        Assert.Contains("Type your full name.", await (await scanner.SubmitAsync(offer.Path + "/cancel", new() { ["Input.TypedName"] = " ", ["Input.Cancels"] = "true" })).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(before, await office.RowsAsync());
        Assert.Equal(HttpStatusCode.NotFound, (await scanner.GetAsync("/offer/" + new string('A', 43) + "/cancel")).StatusCode);
    }

    [Fact]
    public async Task A_cancelled_sale_opens_no_job_and_takes_none_back()
    {
        await using var at = await StartedAsync();
        var (office, offer) = (at.Office, await at.Office.HouseWithSentQuoteAsync());
        var sale = await SaleAsync(office, offer);
        var desk = await office.SignInAsOfficeAsync();
        var job = await office.WithDbAsync(db => OpenJob.RunAsync(db, sale.AcceptanceId, office.Clock));
        var takeBack = $"/houses/{offer.HouseId}/work?job={job}&handler=TakeBack";
        await office.WithDbAsync(async db => { CallOffJob.Write(await db.Jobs.SingleAsync(j => j.Id == job), "Too wet."); await db.SaveChangesAsync(); });
        var form = await FormAsync(desk, $"/houses/{offer.HouseId}/work?job={job}", "form[action*='handler=TakeBack']");
        await office.Visitor().SubmitAsync(offer.Path + "/cancel", Notice);
        var version = await office.WithDbAsync(db => db.Jobs.Where(j => j.Id == job).Select(j => j.Version).SingleAsync());
        Assert.Contains("send a new quote", await (await desk.PostAsync(takeBack, new FormUrlEncodedContent([.. form, new("Version", $"{version}")]))).TextAsync(), StringComparison.Ordinal);
        var other = await office.HouseWithSentQuoteAsync();
        await SaleAsync(office, other);
        Assert.Contains("Open the job", await desk.TextAsync($"/houses/{other.HouseId}/work"), StringComparison.Ordinal);
        await office.Visitor().SubmitAsync(other.Path + "/cancel", Notice);
        Assert.DoesNotContain("Open the job", await desk.TextAsync($"/houses/{other.HouseId}/work"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_change_of_a_notice_or_its_paper_is_found()
    {
        await using var at = await StartedAsync();
        var (office, offer) = (at.Office, await at.Office.HouseWithSentQuoteAsync());
        await office.AcceptedQuoteAsync(offer);
        await office.Visitor().SubmitAsync(offer.Path + "/cancel", Notice);
        Assert.Empty((await office.WithDbAsync(db => VerifyCancelNotices.RunAsync(db))).Problems);
        var notice = await office.WithDbAsync(db => db.CancelNotices.AsNoTracking().SingleAsync());
        await office.WithDbAsync(async db =>
        {
            await db.CancelNotices.ExecuteUpdateAsync(n => n.SetProperty(x => x.IpAddress, "203.0.113.9"));
            var bytes = await db.Documents.Where(d => d.Id == notice.PdfDocumentId).Select(d => d.Bytes).SingleAsync();
            bytes[^20] ^= 1;
            await db.Documents.Where(d => d.Id == notice.PdfDocumentId).ExecuteUpdateAsync(d => d.SetProperty(x => x.Bytes, bytes));
            await db.CancelledSales.ExecuteDeleteAsync();
        });
        var problems = string.Join(' ', (await office.WithDbAsync(db => VerifyCancelNotices.RunAsync(db))).Problems);
        Assert.All(["was changed", "paper of notice", "does not say that it was cancelled"], w => Assert.Contains(w, problems, StringComparison.Ordinal));
    }

    private static async Task<SignedSale> SaleAsync(OfficeApp office, OfferOut offer)
    {
        var signed = await office.AcceptedQuoteAsync(offer);
        return new(offer.HouseId, await office.WithDbAsync(db => db.Quotes.Where(q => q.Id == offer.QuoteId).Select(q => q.CustomerId).SingleAsync()), signed.Id, signed.Total, signed.Deposit);
    }

    private static Task<string> EmailAsync(OfficeApp office, SignedSale sale) => office.WithDbAsync(db => db.Customers.Where(c => c.Id == sale.CustomerId).Select(c => c.Email).SingleAsync());

    private static async Task<List<KeyValuePair<string, string>>> FormAsync(HttpClient visitor, string path, string form = "main form[method=post]")
    {
        var page = await new HtmlParser().ParseDocumentAsync(await visitor.GetStringAsync(path));
        return [new("_form", page.QuerySelector($"{form} input[name=_form]")!.GetAttribute("value")!)];
    }

    /// <summary>An office of its own: the clock is turned.</summary>
    private static async Task<OwnOffice> StartedAsync()
    {
        var own = new OwnOffice(new OfferOffice());
        await own.Office.InitializeAsync();
        return own;
    }

    private sealed record OwnOffice(OfferOffice Office) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync() => await Office.DisposeAsync();
    }
}
