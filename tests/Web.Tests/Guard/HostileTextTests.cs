using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Tests.Houses;
using MitigationOffice.Web.Tests.Messages;
using MitigationOffice.Web.Tests.Quotes;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>OWASP ASVS 5.0, 1.2.1, 1.2.3 and 1.2.10: what somebody types stays words, on pages, in files, on paper and in mail.</summary>
public sealed class HostileTextTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Tag = "\"><svg onload=x>";
    private const string Short = "</script>" + Tag + "שלום \u202Egnp 🏠";
    private const string Mark = Short + "<script>x()</script>'{{7*7}}@(1+1) e\u0301";
    private static readonly string Long = Mark + string.Concat(Enumerable.Repeat("A long sentence of a careful owner. ", 5000 / 36));

    [Fact]
    public async Task Words_of_a_stranger_stay_words_everywhere()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, revision) = await TypeEverywhereAsync(owner);
        var met = await office.CrawlAsync(owner, "/", $"/houses/{house}/inquiry", $"/houses/{house}/quote", $"/houses/{house}/papers", "/customers", "/shop/prices");
        Assert.True(met.Count(m => m.Body.Contains("&lt;svg onload", StringComparison.Ordinal)) > 8, "The words stand on too few pages.");
        foreach (var one in met.Where(m => m.IsHtml || m.Answer.Content.Headers.ContentType?.MediaType == "image/svg+xml")) Inert(one);
        var token = await SendAsync(owner, house, revision);
        foreach (var one in await office.CrawlAsync(office.Visitor(), $"/offer/{token}")) Inert(one);
    }

    [Fact]
    public async Task Lists_for_a_spreadsheet_put_an_apostrophe_before_what_it_would_compute()
    {
        var owner = await office.SignInAsOwnerAsync();
        await owner.TakeInquiryAsync(HouseVerbs.Inquiry("+1 Sumac Row", "=HYPERLINK(\"//evil.example\",\"x\")"));
        await owner.TakeInquiryAsync(HouseVerbs.Inquiry("@SUM(1) Sumac Row", "-2+3 Sumac"));
        foreach (var (list, cells) in new[]
                 {
                     ("/customers?handler=File", new[] { "'=HYPERLINK", "'-2+3" }),
                     ("/houses?handler=File", ["'+1 Sumac", "'@SUM(1)"]),
                 })
        {
            var text = await owner.GetStringAsync(list);
            Assert.All(cells, c => Assert.Contains(c, text, StringComparison.Ordinal));
            foreach (var line in text.Split("\r\n").Where(l => l.Length > 0))
                Assert.DoesNotContain(line[0], "=+-@\t");
            Assert.DoesNotMatch("(^|,|\r\n)\"?[=@]", text);
        }
    }

    private async Task<(int House, int Revision)> TypeEverywhereAsync(HttpClient owner)
    {
        await office.PriceBookAsync();
        var inquiry = HouseVerbs.Inquiry($"1 {Short}", $"={Short}", email: "odd@quill.example");
        inquiry["Input.Notes"] = Long;
        inquiry["Input.HowTheyFoundUs"] = Mark;
        inquiry["Input.Heating"] = Short;
        var house = await owner.TakeInquiryAsync(inquiry);
        var customer = await office.WithDbAsync(db => db.HouseOwners.Where(o => o.HouseId == house).Select(o => o.CustomerId).SingleAsync());
        await SavedAsync(owner, $"/customers/{customer}", new() { ["Input.Notes"] = Long, ["Input.ContactName"] = Short });
        await SavedAsync(owner, "/shop/prices/new", new() { ["Input.Code"] = "ODD", ["Input.Name"] = Mark, ["Input.Reason"] = Mark, ["Input.Cost"] = "5", ["Input.Use"] = nameof(Business.Shop.PriceUse.AddOn), ["Input.Rule"] = nameof(Business.Shop.PriceRule.Fixed), ["Input.FixedPrice"] = "9" });
        await office.WithDbAsync(async db =>
        {
            db.Add(new Business.Houses.EarlierTest { HouseId = house, PCiL = 9.6m, Room = Short, EndedOn = new DateOnly(2026, 1, 20) });
            await db.SaveChangesAsync();
        });
        var draft = await office.DraftedQuoteAsync(house);
        await SavedAsync(owner, $"/houses/{house}/quote", new()
        {
            ["Input.Scope"] = Long, ["Input.Introduction"] = Mark, ["Input.WhyRecommended"] = Mark, ["Input.Tiers[0].Name"] = "First " + Short, ["Input.Tiers[0].Lines[0].Words"] = Mark,
            ["Input.AddOns[0].Words"] = Mark, ["Input.AddOns[0].Reason"] = Mark, ["Input.AddOns[0].Price"] = "12",
        }, "form[action*='/quote?revision']");
        return (house, draft.RevisionId);
    }

    /// <summary>Sends the quote: its paper is a PDF that opens, and its mail is a mail whose marks are escaped.</summary>
    private async Task<string> SendAsync(HttpClient owner, int house, int revision)
    {
        var sent = await owner.SubmitAsync($"/houses/{house}/quote", [], "#send");
        Assert.True(sent.StatusCode == HttpStatusCode.Redirect, await sent.TextAsync());
        var bytes = await owner.GetByteArrayAsync($"/houses/{house}/quote?handler=Paper&revision={revision}");
        using (var pdf = PdfDocument.Open(bytes))
        {
            var words = string.Concat(pdf.GetPages().Select(p => p.Text)).Replace(" ", "", StringComparison.Ordinal);
            Assert.Contains("<svgonload=x>", words, StringComparison.Ordinal);
            Assert.Contains("Alongsentenceofacarefulowner.", words, StringComparison.Ordinal);
        }

        await office.SendOutboxAsync();
        var mail = Assert.Single(office.MailTo("odd@quill.example"));
        Assert.NotNull(mail.HtmlBody);
        Assert.NotNull(mail.TextBody);
        Assert.DoesNotContain("<svg", mail.HtmlBody, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<script", mail.HtmlBody, StringComparison.OrdinalIgnoreCase);
        var at = mail.TextBody.IndexOf("/offer/", StringComparison.Ordinal);
        return mail.TextBody.Substring(at + "/offer/".Length, 43);
    }

    private static async Task SavedAsync(HttpClient client, string url, Dictionary<string, string> typed, string form = "main form[method=post]")
    {
        var answer = await client.SubmitAsync(url, typed, form);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, $"{url}: {await answer.TextAsync()}");
    }

    private static void Inert(Met one)
    {
        Assert.True((int)one.Answer.StatusCode < 400, $"{one.Url}: {(int)one.Answer.StatusCode}");
        Assert.False(one.Body.Contains(Tag, StringComparison.Ordinal), $"{one.Url} shows the tag unescaped.");
        if (!one.IsHtml) return;
        var page = one.Document;
        Assert.Empty(page.QuerySelectorAll("[onload]"));
        Assert.All(page.QuerySelectorAll("script"), s => Assert.True(s.HasAttribute("nonce") && s.TextContent.Length == 0, $"{one.Url} has a script of its own."));
        Assert.True(Encoding.UTF8.GetByteCount(one.Body) < 2_000_000);
    }
}
