using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Web.Tests.Offer;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>Change orders as the office, the installer with the tablet and the house owner use them.</summary>
public sealed class ChangePagesTests(OfferOffice office) : IClassFixture<OfferOffice>
{
    private static readonly Dictionary<string, string> Signature = new() { ["Input.Consented"] = "true", ["Input.TypedName"] = "Rosalind Quill", ["Input.Intended"] = "true" };

    [Fact]
    public async Task The_office_draws_it_up_mails_it_and_the_customer_signs()
    {
        var at = await office.BegunChangeAsync();
        var desk = await office.SignInAsOfficeAsync();
        var sent = await desk.SubmitAsync(at.Sheet, new()
        {
            ["Input.Reason"] = "Water stands under the slab.", ["Input.Added[0].Words"] = "Sealed lid <over> the pit", ["Input.Added[0].Price"] = "$200.00", ["Input.Added[0].Taxable"] = "true", ["Input.Stands[0].What"] = "TakenOut",
        }, button: "button[formaction*='handler=Send']");
        Assert.True(sent.StatusCode == HttpStatusCode.Redirect, await sent.TextAsync());
        var order = await office.ChangeAsync(at.ChangeId);
        Assert.Equal((ChangeState.Sent, 2), (order.State, order.Lines.Count));
        var token = await TokenAsync(at.ChangeId);
        var visitor = office.Visitor();
        var page = await visitor.TextAsync($"/offer/change/{token}");
        Assert.All([$"{order.OldTotal}", ChangeWordsOf(order.Difference), $"{order.NewTotal}", "Sealed lid <over> the pit", "Taken out:"], w => Assert.Contains(w, page, StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.Redirect, (await visitor.SubmitAsync($"/offer/change/{token}?step=sign", Signature)).StatusCode);
        Assert.Contains("Thank you, Rosalind Quill", await visitor.TextAsync($"/offer/change/{token}"), StringComparison.Ordinal);
        var kept = await office.WithDbAsync(db => db.ChangeSignatures.AsNoTracking().SingleAsync(s => s.ChangeOrderId == at.ChangeId));
        var copy = await (await visitor.GetAsync($"/offer/change/{token}/paper")).Content.ReadAsByteArrayAsync();
        Assert.Equal(kept.SignedSha256, Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(copy)));
        Assert.Equal(HttpStatusCode.Redirect, (await office.Visitor().GetAsync($"/offer/change/{token}/paper")).StatusCode);
        Assert.DoesNotContain("Rosalind", await office.Visitor().TextAsync($"/offer/change/{token}"), StringComparison.Ordinal);
        Assert.Contains($"{order.NewTotal}", await desk.TextAsync($"/houses/{at.Sale.HouseId}/money"), StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(desk, at.Sheet);
        await office.AssertFewStatementsAsync(desk, $"/houses/{at.Sale.HouseId}/money");
        await office.AssertFewStatementsAsync(desk, $"/houses/{at.Sale.HouseId}/work");
    }

    [Fact]
    public async Task A_balance_is_not_issued_beside_an_unsigned_change_order_without_a_warning()
    {
        var at = await office.SentChangeAsync();
        var (desk, money) = (await office.SignInAsOfficeAsync(), $"/houses/{at.Sale.HouseId}/money");
        var page = await new HtmlParser().ParseDocumentAsync(await (await desk.GetAsync(money)).Content.ReadAsStringAsync());
        var caution = page.QuerySelector($"#unsigned-{at.Sale.AcceptanceId}")!;
        Assert.Contains("Not signed yet", caution.TextContent, StringComparison.Ordinal);
        Assert.NotNull(caution.QuerySelector($"a[href='{at.Sheet}']"));
        var form = "form[action*='handler=Issue']:has(input[value=Balance])";
        var refused = await (await desk.SubmitAsync(money, new() { ["evenSo"] = "false" }, form)).TextAsync();
        Assert.Contains("is not signed. Nothing was issued", refused, StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Invoices.AnyAsync(i => i.AcceptanceId == at.Sale.AcceptanceId)));
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(money, [], form)).StatusCode);
        Assert.True(await office.WithDbAsync(db => db.Invoices.AnyAsync(i => i.AcceptanceId == at.Sale.AcceptanceId && i.Kind == InvoiceKind.Balance)));
    }

    [Fact]
    public async Task An_installer_draws_it_up_without_a_price_and_hands_the_tablet_over()
    {
        var at = await office.BegunChangeAsync();
        var crew = await office.SignInAsInstallerAsync();
        var alarm = await office.WithDbAsync(db => db.PriceItems.Where(p => p.Code == "ALARM2").Select(p => p.Id).SingleAsync());
        var typed = new Dictionary<string, string> { ["Input.Reason"] = "They sleep upstairs.", ["Input.Added[0].Item"] = $"{alarm}", ["Input.Added[1].Words"] = "Patch of the wall" };
        var refused = await (await crew.SubmitAsync(at.Sheet, typed, button: "button[formaction*='handler=Tablet']")).TextAsync();
        Assert.Contains("“Patch of the wall” has no price yet", refused, StringComparison.Ordinal);
        Assert.DoesNotContain("$", refused, StringComparison.Ordinal);
        var desk = await office.SignInAsOfficeAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(at.Sheet, new() { ["Input.Added[1].Price"] = "60" })).StatusCode);
        var handed = await crew.SubmitAsync(at.Sheet, [], button: "button[formaction*='handler=Tablet']");
        Assert.True(handed.StatusCode == HttpStatusCode.Redirect, await handed.TextAsync());
        var path = handed.Headers.Location!.OriginalString;
        Assert.StartsWith("/offer/change/", path, StringComparison.Ordinal);
        await crew.SubmitAsync(path + "?step=sign", Signature);
        Assert.Contains("hand the tablet back", await crew.TextAsync(path), StringComparison.Ordinal);
        var kept = await office.WithDbAsync(db => db.ChangeSignatures.AsNoTracking().SingleAsync(s => s.ChangeOrderId == at.ChangeId));
        Assert.Equal("Cleo Marsh", kept.HandedBy);
        var order = await office.ChangeAsync(at.ChangeId);
        Assert.Equal(15_500, order.Lines.Sum(l => l.Difference.Cents));
        Assert.DoesNotContain("$", await crew.TextAsync(at.Sheet), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("agreed", HttpStatusCode.OK, "has been signed")]
    [InlineData("declined", HttpStatusCode.Gone, "has been declined")]
    [InlineData("withdrawn", HttpStatusCode.Gone, "has been withdrawn")]
    [InlineData("replaced", HttpStatusCode.Gone, "has been replaced")]
    [InlineData("ended", HttpStatusCode.Gone, "This link has ended")]
    [InlineData("expired", HttpStatusCode.Gone, "has expired")]
    [InlineData("closed", HttpStatusCode.Gone, "Nothing can be changed any more")]
    [InlineData("unknown", HttpStatusCode.NotFound, "This link leads nowhere")]
    public async Task A_link_that_is_not_live_says_so_without_personal_data_and_takes_no_signature(string state, HttpStatusCode code, string words)
    {
        var at = await office.SentChangeAsync(await office.SignedSaleAsync("Rosalind Secretname"));
        var visitor = office.Visitor();
        var form = await FormAsync(visitor, at.Path + "?step=sign");
        var path = at.Path;
        switch (state)
        {
            case "agreed": await office.SignChangeAsync(at, "Rosalind Secretname"); break;
            case "declined": await visitor.SubmitAsync(at.Path + "?step=decline", new() { ["Input.Reason"] = "Too dear." }); break;
            case "withdrawn": Assert.True(await office.WithDbAsync(db => CloseChange.WithdrawAsync(db, at.ChangeId))); break;
            case "replaced": await office.SentChangeAsync(at.Sale); break;
            case "ended": await office.SendChangeAsync(at); break;
            case "expired": await office.WithDbAsync(db => db.ChangeLinks.Where(l => l.ChangeOrderId == at.ChangeId).ExecuteUpdateAsync(l => l.SetProperty(x => x.ExpiresAtUtc, office.Clock.GetUtcNow().UtcDateTime))); break;
            case "closed": await office.IssueAsync(at.Sale, InvoiceKind.Balance); break;
            default: path = "/offer/change/" + new string('A', 43); break;
        }

        var before = await office.RowsAsync();
        foreach (var below in new[] { "", "?step=sign", "?step=decline", "?handler=Decline" })
        {
            var answer = await visitor.GetAsync(path + below);
            var html = await answer.Content.ReadAsStringAsync();
            Assert.Equal(code, answer.StatusCode);
            Assert.Contains(words, html, StringComparison.Ordinal);
            Assert.All(["Secretname", "Larkspur", "$"], s => Assert.DoesNotContain(s, html, StringComparison.Ordinal));
            await visitor.SendAsync(new HttpRequestMessage(HttpMethod.Head, path + below));
        }

        Assert.Contains(words, await (await visitor.PostAsync(path + "?step=sign", new FormUrlEncodedContent([.. form, .. Signature]))).TextAsync(), StringComparison.Ordinal);
        await visitor.PostAsync(path + "?handler=Decline", new FormUrlEncodedContent(form));
        Assert.Equal(before, await office.RowsAsync());
    }

    [Fact]
    public async Task What_was_typed_is_kept_when_it_is_refused_or_overtaken()
    {
        var at = await office.BegunChangeAsync();
        var desk = await office.SignInAsOfficeAsync();
        var body = await (await desk.SubmitAsync(at.Sheet, new() { ["Input.Reason"] = "Wet.", ["Input.Added[0].Words"] = "A lid", ["Input.Added[0].Price"] = "lots", ["Input.Added[0].Quantity"] = "-3" })).Content.ReadAsStringAsync();
        Assert.All(["value=\"lots\"", "value=\"-3\"", "value=\"A lid\"", "Wet."], w => Assert.Contains(w, body, StringComparison.Ordinal));
        Assert.Empty((await office.ChangeAsync(at.ChangeId)).Lines);
        await desk.SubmitAsync(at.Sheet, new() { ["Input.Reason"] = "Wet." });
        var late = await (await desk.SubmitAsync(at.Sheet, new() { ["Version"] = "0", ["Input.Reason"] = "Very wet." })).TextAsync();
        Assert.Contains("Someone changed this order since you opened it", late, StringComparison.Ordinal);
        Assert.Contains("Very wet.", late, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/houses/{at.Sale.HouseId + 1000}/work/changes/{at.ChangeId}")).StatusCode);
    }

    [Fact]
    public async Task The_due_days_are_those_of_the_quote_and_may_be_written_over()
    {
        await office.WithDbAsync(db => db.Company.ExecuteUpdateAsync(c => c.SetProperty(x => x.DepositDueDays, 5).SetProperty(x => x.BalanceDueDays, 21)));
        var sale = await office.SignedSaleAsync();
        await office.WithDbAsync(db => db.Company.ExecuteUpdateAsync(c => c.SetProperty(x => x.DepositDueDays, 0).SetProperty(x => x.BalanceDueDays, 0)));
        var terms = await office.WithDbAsync(db => db.Acceptances.Where(a => a.Id == sale.AcceptanceId).Join(db.QuoteRevisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => r.Terms).SingleAsync());
        Assert.Equal("The deposit is due within 5 days after the quote is accepted, the rest within 21 days after the work is finished.", terms);
        var (desk, page) = (await office.SignInAsOfficeAsync(), $"/houses/{sale.HouseId}/money");
        await desk.SubmitAsync(page, [], "form[action*='handler=Issue']:has(input[value=Deposit])");
        var refused = await (await desk.SubmitAsync(page, new() { ["DueOn"] = "next week" }, "form[action*='handler=Issue']:has(input[value=Balance])")).TextAsync();
        Assert.Contains("day it is due as month/day/year", refused, StringComparison.Ordinal);
        await desk.SubmitAsync(page, [], "form[action*='handler=Issue']:has(input[value=Balance])");
        var due = await office.WithDbAsync(db => db.Invoices.Where(i => i.HouseId == sale.HouseId).OrderBy(i => i.Id).Select(i => i.DueOn).ToListAsync());
        Assert.Equal([new DateOnly(2026, 3, 7), new DateOnly(2026, 3, 23)], due);
    }

    [Fact]
    public async Task The_work_sheet_reads_the_deposit_from_the_payments()
    {
        var at = await office.BegunChangeAsync();
        var (desk, sheet) = (await office.SignInAsOfficeAsync(), $"/houses/{at.Sale.HouseId}/work");
        Assert.Contains("deposit open", await desk.TextAsync(sheet), StringComparison.Ordinal);
        await office.PayAsync(at.Sale, at.Sale.Deposit.Dollars);
        var paid = await desk.TextAsync(sheet);
        Assert.DoesNotContain("deposit open", paid, StringComparison.Ordinal);
        Assert.Contains($"Paid so far{at.Sale.Deposit}", paid.Replace("\n", "", StringComparison.Ordinal).Replace("  ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    private static string ChangeWordsOf(Money difference) => Business.Invoices.Papers.ChangeOnPaper.Words(difference);

    /// <summary>The secret out of the waiting mail.</summary>
    private Task<string> TokenAsync(int changeId) => office.WithDbAsync(async db =>
    {
        var mime = await db.Outbox.Where(m => m.Key.StartsWith($"change:{changeId}:")).OrderByDescending(m => m.Id).Select(m => m.Mime).FirstAsync();
        using var stream = new MemoryStream(mime);
        var body = (await MimeKit.MimeMessage.LoadAsync(stream)).TextBody!;
        var start = body.IndexOf("/offer/change/", StringComparison.Ordinal) + "/offer/change/".Length;
        return body.Substring(start, 43);
    });

    private static async Task<List<KeyValuePair<string, string>>> FormAsync(HttpClient visitor, string path)
    {
        var page = await new HtmlParser().ParseDocumentAsync(await visitor.GetStringAsync(path));
        return [new("_form", page.QuerySelector("main form[method=post] input[name=_form]")!.GetAttribute("value")!)];
    }
}
