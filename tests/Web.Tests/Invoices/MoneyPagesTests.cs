using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>The money pages as a person uses them.</summary>
public sealed class MoneyPagesTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task The_office_issues_deposit_and_balance_and_writes_the_payment_down()
    {
        var sale = await office.SignedSaleAsync();
        var (desk, page) = (await office.SignInAsOfficeAsync(), $"/houses/{sale.HouseId}/money");
        var issued = await desk.SubmitAsync(page, [], "form[action*='handler=Issue']:has(input[value=Deposit])");
        Assert.Equal(HttpStatusCode.Redirect, issued.StatusCode);
        Assert.Contains($"{sale.Deposit}", await desk.TextAsync(issued.Headers.Location!.OriginalString), StringComparison.Ordinal);
        await SavedAsync(desk.SubmitAsync(page, new() { ["Input.Amount"] = $"{sale.Deposit.Dollars}", ["Input.Reference"] = "1042" }, "form[action*='handler=Pay']"));
        Assert.Contains("Nothing is owed.", await desk.TextAsync(page), StringComparison.Ordinal);
        await SavedAsync(desk.SubmitAsync(page, [], "form[action*='handler=Issue']:has(input[value=Balance])"));
        Assert.Contains($"{sale.Total - sale.Deposit} owed", await desk.TextAsync(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_payment_posted_twice_from_two_tabs_is_written_down_once()
    {
        var sale = await office.SignedSaleAsync();
        var (desk, page) = (await office.SignInAsOfficeAsync(), $"/houses/{sale.HouseId}/money");
        var typed = new Dictionary<string, string> { ["Input.Amount"] = "120", ["_once"] = "0123456789abcdef0123456789abcdef" };
        var answers = await Task.WhenAll(Enumerable.Range(0, 2).Select(_ => desk.SubmitAsync(page, typed, "form[action*='handler=Pay']")));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        await SavedAsync(desk.SubmitAsync(page, typed, "form[action*='handler=Pay']"));
        Assert.Equal(1, await office.WithDbAsync(db => db.Payments.CountAsync(p => p.HouseId == sale.HouseId)));
        await SavedAsync(desk.SubmitAsync(page, [], "form[action*='handler=Undo']"));
        Assert.Contains("(undone)", await desk.TextAsync(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_statement_comes_as_a_paper_and_not_for_another_customer()
    {
        var (sale, other) = (await office.SignedSaleAsync(), await office.SignedSaleAsync());
        var issued = await office.IssueFreeAsync(sale, 90);
        await office.PayAsync(sale, 40);
        var desk = await office.SignInAsOfficeAsync();
        using (var pdf = PdfDocument.Open(await desk.GetByteArrayAsync($"/houses/{sale.HouseId}/money?handler=Statement&customer={sale.CustomerId}")))
        {
            var text = string.Concat(pdf.GetPages().Select(p => p.Text)).Replace(" ", "", StringComparison.Ordinal);
            Assert.All([issued.Number, "$90.00", "$40.00", "Owed:$50.00", "LanternRidgeRadon,8QuarryLane", "555-0100", "TEST-001"], w => Assert.Contains(w, text, StringComparison.Ordinal));
        }

        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/houses/{sale.HouseId}/money?handler=Statement&customer={other.CustomerId}")).StatusCode);
    }

    [Fact]
    public async Task A_refused_payment_keeps_what_was_typed()
    {
        var sale = await office.SignedSaleAsync();
        var answer = await (await office.SignInAsOfficeAsync()).SubmitAsync($"/houses/{sale.HouseId}/money", new() { ["Input.Amount"] = "80", ["Input.Refund"] = "True", ["Input.Note"] = "for the ladder" }, "form[action*='handler=Pay']");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var body = await answer.Content.ReadAsStringAsync();
        Assert.All(["Nothing was paid that could be given back.", "value=\"80\"", "for the ladder"], w => Assert.Contains(w, body, StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_invoice_by_hand_is_added_up_with_the_rates_of_the_day_and_issued()
    {
        var sale = await office.SignedSaleAsync();
        var desk = await office.SignInAsOfficeAsync();
        await RateAsync(desk, "Birch County", "7", from: "2026-01-01");
        var page = $"/houses/{sale.HouseId}/money/new";
        var typed = Typed();
        var added = await desk.SubmitAsync(page, typed, button: "#add-up");
        var text = await added.TextAsync();
        // 3 × 40.00 less 10 % = 108.00 material, taxed 7 % = 7.56; 95.00 labour untaxed. By hand.
        Assert.All(["$203.00", "$7.56", "$210.56", "Nothing is issued yet."], w => Assert.Contains(w, text, StringComparison.Ordinal));
        Assert.Equal(0, await office.WithDbAsync(db => db.Invoices.CountAsync(i => i.HouseId == sale.HouseId)));
        await SavedAsync(desk.SubmitAsync(page, typed, button: "#issue"));
        var invoice = await office.WithDbAsync(db => db.Invoices.AsNoTracking().Include(i => i.Taxes).SingleAsync(i => i.HouseId == sale.HouseId));
        Assert.Equal((21056, "Birch County"), (invoice.Total.Cents, Assert.Single(invoice.Taxes).Name));
        var credit = await desk.SubmitAsync($"/houses/{sale.HouseId}/money/invoices/{invoice.Id}", new() { ["Because"] = "Written for the wrong house." }, "form[action*='handler=Credit']");
        Assert.Equal(HttpStatusCode.Redirect, credit.StatusCode);
    }

    [Fact]
    public async Task A_rate_that_has_ended_refuses_the_invoice_unless_a_reason_is_given()
    {
        await using var other = await StartedAsync();
        var sale = await other.Office.SignedSaleAsync();
        var desk = await other.Office.SignInAsOfficeAsync();
        await RateAsync(desk, "Birch County", "7", from: "2025-01-01", to: "2026-03-01");
        var page = $"/houses/{sale.HouseId}/money/new";
        Assert.Contains("Material was taxed by “Birch County” until Mar 1, 2026", await (await desk.SubmitAsync(page, Typed(), button: "#issue")).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("href=\"/money/tax-rates\" target", await (await desk.SubmitAsync(page, Typed(), button: "#issue")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var typed = Typed();
        typed["Input.NoTaxBecause"] = "a school, exempt";
        await SavedAsync(desk.SubmitAsync(page, typed, button: "#issue"));
        Assert.Equal("No sales tax: a school, exempt", await other.Office.WithDbAsync(db => db.Invoices.Where(i => i.HouseId == sale.HouseId).Select(i => i.Note).SingleAsync()));
    }

    [Fact]
    public async Task Who_owes_is_listed_searched_sorted_and_taken_as_csv()
    {
        await using var other = await StartedAsync();
        var (late, early, ahead) = (await other.Office.SignedSaleAsync("Zelda Marsh"), await other.Office.SignedSaleAsync("=Abel Thorn"), await other.Office.SignedSaleAsync("Mina Ahead"));
        await other.Office.IssueFreeAsync(late, 200);
        await other.Office.IssueFreeAsync(early, 300, dueInDays: 60);
        await other.Office.PayAsync(ahead, 75);
        other.Office.Clock.Advance(TimeSpan.FromDays(40));
        var desk = await other.Office.SignInAsOfficeAsync();
        var all = await desk.TextAsync("/money");
        Assert.True(all.IndexOf("Zelda", StringComparison.Ordinal) < all.IndexOf("Abel", StringComparison.Ordinal));
        Assert.Contains("$75.00 credit", all, StringComparison.Ordinal);
        var byName = await desk.TextAsync("/money?sort=customer");
        Assert.True(byName.IndexOf("Abel", StringComparison.Ordinal) < byName.IndexOf("Zelda", StringComparison.Ordinal));
        var found = await desk.TextAsync("/money?show=past-due&find=marsh");
        Assert.True(found.Contains("Zelda", StringComparison.Ordinal) && !found.Contains("Abel", StringComparison.Ordinal));
        var csv = await desk.GetStringAsync("/money?handler=Owed&sort=customer");
        Assert.Contains("'=Abel Thorn,", csv, StringComparison.Ordinal);
        Assert.Contains("Zelda Marsh,\"14 Larkspur Hill, Birchford\",555-0123,2026-03-02,0.00,0.00,200.00,0.00,0.00,0.00,200.00\r\n", csv, StringComparison.Ordinal);
        var today = await desk.TextAsync("/");
        Assert.All(["Money owed past due", "Zelda Marsh", "$200.00, the oldest due 40 days ago"], w => Assert.Contains(w, today, StringComparison.Ordinal));
        await other.Office.AssertFewStatementsAsync(desk, "/");
        await other.Office.AssertFewStatementsAsync(desk, "/money");
        await other.Office.AssertFewStatementsAsync(desk, $"/houses/{late.HouseId}/money");
    }

    [Fact]
    public async Task The_bookkeepers_files_hold_every_invoice_and_payment_of_the_days()
    {
        await using var other = await StartedAsync();
        var sale = await other.Office.SignedSaleAsync("-Tricky, \"Quoted\"");
        await other.Office.IssueAsync(sale, InvoiceKind.Deposit);
        await other.Office.PayAsync(sale, 50);
        var desk = await other.Office.SignInAsOfficeAsync();
        var bytes = await desk.GetByteArrayAsync("/money?handler=Invoices&from=2026-03-01&to=2026-03-31");
        Assert.Equal(Encoding.UTF8.Preamble.ToArray(), bytes[..3]);
        var invoices = Encoding.UTF8.GetString(bytes);
        Assert.Contains("I-2026-0001,Deposit,2026-03-02,2026-03-02,\"'-Tricky, \"\"Quoted\"\"\"", invoices, StringComparison.Ordinal);
        Assert.Contains("50.00,Check,1042", await desk.GetStringAsync("/money?handler=Payments&from=3/2/2026&to=3/2/2026"), StringComparison.Ordinal);
        Assert.Single((await desk.GetStringAsync("/money?handler=Payments&from=3/3/2026&to=")).TrimEnd().Split("\r\n"));
        Assert.Contains("Write the first day as month/day/year", await desk.TextAsync("/money?handler=Invoices&from=soon"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sale_cancelled_in_time_stands_on_today_until_the_money_is_given_back()
    {
        await using var other = await StartedAsync();
        var sale = await other.Office.SignedSaleAsync();
        await other.Office.IssueAsync(sale, InvoiceKind.Deposit);
        await other.Office.PayAsync(sale, sale.Deposit.Dollars);
        var (desk, page) = (await other.Office.SignInAsOfficeAsync(), $"/houses/{sale.HouseId}/money");
        await SavedAsync(desk.SubmitAsync(page, new() { ["Cancelling.GivenOn"] = "3/2/2026", ["Cancelling.ReceivedOn"] = "3/2/2026" }, "form[action*='handler=Cancel']"));
        Assert.Contains($"{sale.Deposit} owed back by Mon, Mar 16", await desk.TextAsync("/"), StringComparison.Ordinal);
        await SavedAsync(desk.SubmitAsync(page, new() { ["Input.Amount"] = $"{sale.Deposit.Dollars}", ["Input.Refund"] = "True" }, "form[action*='handler=Pay']"));
        Assert.DoesNotContain("owed back", await desk.TextAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Money_is_for_owners_and_the_office_only()
    {
        var sale = await office.SignedSaleAsync();
        var issued = await office.IssueAsync(sale, InvoiceKind.Deposit);
        var paper = await office.WithDbAsync(db => db.Invoices.Where(i => i.Id == issued.InvoiceId).Select(i => i.PdfDocumentId).SingleAsync());
        string[] pages = ["/money", "/money/tax-rates", $"/houses/{sale.HouseId}/money", $"/houses/{sale.HouseId}/money/new", $"/houses/{sale.HouseId}/money/invoices/{issued.InvoiceId}"];
        var (crew, desk, owner) = (await office.SignInAsInstallerAsync(), await office.SignInAsOfficeAsync(), await office.SignInAsOwnerAsync());
        foreach (var page in pages)
        {
            Assert.Contains("/not-allowed", (await crew.GetAsync(page)).Headers.Location!.OriginalString, StringComparison.Ordinal);
            Assert.Contains("/sign-in", (await office.Visitor().GetAsync(page)).Headers.Location!.OriginalString, StringComparison.Ordinal);
            Assert.Equal(HttpStatusCode.OK, (await desk.GetAsync(page)).StatusCode);
            Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync(page)).StatusCode);
        }

        Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync($"/houses/{sale.HouseId}/papers/{paper}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await desk.GetAsync($"/houses/{sale.HouseId}/papers/{paper}")).StatusCode);
        Assert.DoesNotContain("/money", await crew.GetStringAsync($"/houses/{sale.HouseId}/work"), StringComparison.Ordinal);
        Assert.DoesNotContain("\"/money\"", await crew.GetStringAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_invoice_of_another_house_is_not_found()
    {
        var (one, two) = (await office.SignedSaleAsync(), await office.SignedSaleAsync());
        var issued = await office.IssueAsync(one, InvoiceKind.Deposit);
        var desk = await office.SignInAsOfficeAsync();
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/houses/{two.HouseId}/money/invoices/{issued.InvoiceId}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync("/houses/999999/money")).StatusCode);
    }

    private static Dictionary<string, string> Typed() => new()
    {
        ["Input.Subject"] = "A new gauge",
        ["Input.Lines[0].Words"] = "Gauge", ["Input.Lines[0].Kind"] = "Material", ["Input.Lines[0].Quantity"] = "3", ["Input.Lines[0].Price"] = "$40.00", ["Input.Lines[0].Discount"] = "10 %",
        ["Input.Lines[1].Words"] = "Visit", ["Input.Lines[1].Kind"] = "Labour", ["Input.Lines[1].Price"] = "95",
    };

    private static Task RateAsync(HttpClient desk, string name, string percent, string from, string to = "") => SavedAsync(desk.SubmitAsync("/money/tax-rates", new()
    {
        ["Rows[0].Name"] = name, ["Rows[0].Percent"] = percent, ["Rows[0].ValidFrom"] = from, ["Rows[0].ValidTo"] = to, ["Rows[0].Material"] = "true",
    }));

    private static async Task SavedAsync(Task<HttpResponseMessage> sending)
    {
        var answer = await sending;
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
    }

    /// <summary>An office of its own, for what is listed over all houses.</summary>
    private static async Task<OwnOffice> StartedAsync()
    {
        var own = new OwnOffice(new OfficeApp());
        await own.Office.InitializeAsync();
        return own;
    }

    private sealed record OwnOffice(OfficeApp Office) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync() => await Office.DisposeAsync();
    }
}
