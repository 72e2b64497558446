using System.Net;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>OWASP ASVS 5.0, 3.5.1: a form from elsewhere does nothing.</summary>
[Collection(GuardCollection.Name)]
[Trait("Database", "either")]
public sealed class FormTokenTests(GuardOffice office)
{
    /// <summary>RFC 8058 section 3.1: the one-click POST comes without cookies. The error page acts on nothing.</summary>
    private static readonly string[] WithoutToken = ["/Error", "/FollowUp/Unsubscribe"];

    [Fact]
    public async Task Every_sending_without_the_form_token_is_refused()
    {
        var (owner, visitor) = (await office.SignInAsOwnerAsync(), office.Visitor());
        var before = await office.TablesAsync();
        var (wrong, tried, open) = (new List<string>(), 0, new List<string>());
        foreach (var page in await office.PagesAsync())
            foreach (var handler in page.Named("POST"))
            {
                var url = office.Addresses(page).First() + (handler.Length > 0 ? $"?handler={handler}" : "");
                using var body = new FormUrlEncodedContent([new("Input.Name", "from elsewhere"), new("_form", "made up")]);
                if (WithoutToken.Contains(page.Page))
                {
                    open.Add(page.Page);
                    continue;
                }

                tried++;
                var answer = await (page.Open ? visitor : owner).PostAsync(url, body);
                if (answer.StatusCode != HttpStatusCode.BadRequest) wrong.Add($"{url}: {(int)answer.StatusCode}");
            }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.Equal(WithoutToken, open.Distinct().Order(StringComparer.Ordinal));
        Assert.True(tried > 40, $"Only {tried} handlers were tried.");
        Assert.Equal(before, await office.TablesAsync());
    }
}
