using System.Net.Http.Headers;
using AngleSharp.Html.Parser;
using MitigationOffice.Web.Tests.Design;

namespace MitigationOffice.Web.Tests.Plan;

/// <summary>What a first visit costs on a slow line: the page and all it asks for, counted as the server sends it.</summary>
[Trait("Database", "either")]
public sealed class PageWeightTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const int MostPage = 100 * 1024;
    private const int MostScript = 30 * 1024;

    [Fact]
    public async Task The_drawing_pages_are_light()
    {
        var owner = await office.SignInAsOwnerAsync();
        owner.DefaultRequestHeaders.AcceptEncoding.Add(new StringWithQualityHeaderValue("gzip"));
        var house = await office.MeasuredHouseAsync(owner);
        var (designed, _) = await office.HouseWithDesignAsync();
        var heavy = new List<string>();
        foreach (var url in new[] { $"/houses/{house}/plan", $"/houses/{house}/coverage?best=1", $"/houses/{house}/plan/picture", $"/houses/{house}/diagnosis/readings", $"/houses/{designed}/design", $"/houses/{designed}/design/siting", $"/houses/{designed}/design/route", $"/houses/{designed}/design/winter" })
        {
            var (page, script) = await WeighAsync(owner, url);
            if (page > MostPage || script > MostScript) heavy.Add($"{url}: {page} bytes, {script} of them script");
        }

        Assert.True(heavy.Count == 0, string.Join('\n', heavy));
    }

    private static async Task<(long Page, long Script)> WeighAsync(HttpClient client, string url)
    {
        var answer = await client.GetAsync(url);
        Assert.True(answer.IsSuccessStatusCode, url);
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        var document = await new HtmlParser().ParseDocumentAsync(answer.Content.Headers.ContentEncoding.Contains("gzip") ? Unzip(bytes) : new MemoryStream(bytes));
        var (page, script) = ((long)bytes.Length, 0L);
        var parts = document.QuerySelectorAll("link[rel=stylesheet][href],link[rel=icon][href]").Select(l => (Url: l.GetAttribute("href")!, Script: false))
            .Concat(document.QuerySelectorAll("script[src]").Select(s => (Url: s.GetAttribute("src")!, Script: true)))
            .Concat(document.QuerySelectorAll("img[src]").Select(i => (Url: i.GetAttribute("src")!, Script: false)).Where(i => i.Url.StartsWith('/'))).Distinct().ToList();
        Assert.Contains(parts, p => p.Script);
        foreach (var part in parts)
        {
            var sent = (await (await client.GetAsync(part.Url)).Content.ReadAsByteArrayAsync()).Length;
            Assert.True(sent > 0, part.Url);
            page += sent;
            if (part.Script) script += sent;
        }

        return (page, script);
    }

    private static System.IO.Compression.GZipStream Unzip(byte[] bytes) => new(new MemoryStream(bytes), System.IO.Compression.CompressionMode.Decompress);
}
