using System.Text;
using AngleSharp.Html.Parser;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Tests.Quotes;

public sealed class ListTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task The_list_shows_each_quote_once_finds_filters_sorts_and_says_what_expired()
    {
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("No quote has been drafted yet", await desk.TextAsync("/quotes"), StringComparison.Ordinal);
        await office.DraftedQuoteAsync(customer: "Ulla Draft");
        await office.HouseWithSentQuoteAsync("Émile Sent");
        var signed = await office.AcceptedQuoteAsync(await office.HouseWithSentQuoteAsync("=Sally Signed"));

        Assert.Equal(3, (await RowsAsync(desk, "/quotes")).Count);
        var found = Assert.Single(await RowsAsync(desk, "/quotes?find=emile"));
        Assert.Contains("Out", found, StringComparison.Ordinal);
        Assert.Contains(signed.Total.ToString(), Assert.Single(await RowsAsync(desk, "/quotes?state=Accepted")), StringComparison.Ordinal);
        var byName = await RowsAsync(desk, "/quotes?sort=customer");
        Assert.Contains("=Sally", byName[0], StringComparison.Ordinal);
        Assert.Contains("=Sally", (await RowsAsync(desk, "/quotes?sort=customer-down"))[^1], StringComparison.Ordinal);
        Assert.Contains("Q-2026-0002", Assert.Single(await RowsAsync(desk, "/quotes?find=q-2026-0002")), StringComparison.Ordinal);

        office.Clock.Advance(TimeSpan.FromDays(40));
        desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Expired", Assert.Single(await RowsAsync(desk, "/quotes?state=Expired")), StringComparison.Ordinal);
        Assert.Empty(await RowsAsync(desk, "/quotes?state=Sent"));

        var bytes = await desk.GetByteArrayAsync("/quotes?handler=Csv&sort=customer");
        Assert.Equal([0xEF, 0xBB, 0xBF], bytes[..3]);
        var lines = Encoding.UTF8.GetString(bytes[3..]).Split("\r\n");
        Assert.Equal("Number,Revision,House,Customer,State,Sent,Valid until,\"Total, $\"", lines[0]);
        Assert.Contains(",'=Sally Signed,Accepted,2026-03-02,", lines[1], StringComparison.Ordinal);
        Assert.EndsWith(TypedNumbers.Plain(signed.Total), lines[1], StringComparison.Ordinal);
    }

    private static async Task<List<string>> RowsAsync(HttpClient desk, string path)
    {
        var page = await new HtmlParser().ParseDocumentAsync(await desk.GetStringAsync(path));
        return [.. page.QuerySelectorAll("main tbody tr").Select(r => r.TextContent)];
    }
}
