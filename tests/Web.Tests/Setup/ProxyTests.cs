using System.Net;

namespace MitigationOffice.Web.Tests.Setup;

/// <summary>Whose word is taken on where a visitor comes from. The header's form: RFC 7239 section 1 names X-Forwarded-For as common practice.</summary>
[Trait("Database", "either")]
public sealed class ProxyTests
{
    [Fact]
    public async Task Without_a_listed_proxy_a_visitor_cannot_choose_an_address_to_escape_the_limit()
    {
        Assert.Equal((HttpStatusCode.TooManyRequests, "http"), await ThirdTryAsync(proxies: null));
    }

    [Fact]
    public async Task Another_machine_s_listing_helps_this_one_nothing()
    {
        Assert.Equal((HttpStatusCode.TooManyRequests, "http"), await ThirdTryAsync("203.0.113.7, 198.51.100.0/24"));
    }

    [Fact]
    public async Task Behind_a_listed_proxy_every_visitor_has_a_limit_of_their_own_and_https_is_known()
    {
        var (status, scheme) = await ThirdTryAsync("127.0.0.0/8, ::1");
        Assert.NotEqual(HttpStatusCode.TooManyRequests, status);
        Assert.Equal("https", scheme);
    }

    /// <summary>Three sign-in tries in a minute where two are allowed, each saying it comes from another address by HTTPS;
    /// then where a closed page sends such a visitor.</summary>
    private static async Task<(HttpStatusCode Status, string Scheme)> ThirdTryAsync(string? proxies)
    {
        await using var office = new PortOffice();
        office.Settings["SignIn:TriesPerMinute"] = "2";
        office.Settings["Proxies"] = proxies;
        await office.InitializeAsync();
        using var client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = office.Address };
        client.DefaultRequestHeaders.Add("X-Forwarded-Proto", "https");
        var last = HttpStatusCode.OK;
        for (var i = 1; i <= 3; i++)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/sign-in") { Content = new FormUrlEncodedContent([]) };
            request.Headers.Add("X-Forwarded-For", $"192.0.2.{i}");
            last = (await client.SendAsync(request)).StatusCode;
        }

        using var closed = new HttpRequestMessage(HttpMethod.Get, "/houses");
        closed.Headers.Add("X-Forwarded-For", "192.0.2.9");
        return (last, (await client.SendAsync(closed)).Headers.Location!.Scheme);
    }

    private sealed class PortOffice : OfficeApp, IAsyncDisposable
    {
        protected override bool RealPort => true;

        async ValueTask IAsyncDisposable.DisposeAsync() => await DisposeAsync();
    }
}
