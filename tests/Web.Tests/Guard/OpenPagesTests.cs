using System.Net;
using System.Security.Claims;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>OWASP ASVS 5.0, 8.2.1: what is open to strangers is a list kept by hand, and everything else is shut.</summary>
[Collection(GuardCollection.Name)]
[Trait("Database", "either")]
public sealed class OpenPagesTests(GuardOffice office)
{
    private static readonly string[] Open =
        ["/Account/FirstOwner", "/Account/NotAllowed", "/Account/SignIn", "/Calendar/Feed", "/Error", "/FollowUp/Unsubscribe", "/MyHouse/Index", "/Offer/Cancel", "/Offer/Change", "/Offer/ChangePaper",
            "/Offer/Done", "/Offer/Index", "/Offer/Paper", "/SystemPage/Index"];

    [Fact]
    public async Task The_pages_open_to_strangers_are_these_and_no_others()
    {
        Assert.Equal(Open, (await office.PagesAsync()).Where(p => p.Open).Select(p => p.Page).Order(StringComparer.Ordinal));
        Assert.Equal(Open, PagesSetup.OpenPages.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Beside_the_pages_only_the_health_word_is_served()
    {
        var others = office.OtherEndpoints().ToList();
        Assert.Equal(["/health"], others.Select(e => e.RoutePattern.RawText));
        Assert.All(others, e => Assert.NotNull(e.Metadata.GetMetadata<IAllowAnonymous>()));
    }

    [Fact]
    public async Task Every_other_address_leads_a_stranger_to_the_sign_in()
    {
        var visitor = office.Visitor();
        var tried = 0;
        foreach (var url in (await office.PagesAsync()).Where(p => !p.Open).SelectMany(office.Addresses))
        {
            var answer = await visitor.GetAsync(url);
            Assert.True(answer.StatusCode == HttpStatusCode.Redirect, $"{url} answered {(int)answer.StatusCode} to a stranger");
            Assert.Equal("/sign-in", answer.Headers.Location!.AbsolutePath);
            tried++;
        }

        Assert.True(tried > 100, $"Only {tried} addresses were tried.");
    }

    [Fact]
    public async Task A_stranger_gets_the_style_sheet_and_the_health_word()
    {
        foreach (var url in new[] { "/office.css", "/office.js", "/icon.svg", "/health" })
            Assert.Equal(HttpStatusCode.OK, (await office.Visitor().GetAsync(url)).StatusCode);
    }

    [Fact]
    public async Task What_names_no_policy_is_shut_to_strangers()
    {
        var policies = office.Services.GetRequiredService<IAuthorizationPolicyProvider>();
        var policy = await AuthorizationPolicy.CombineAsync(policies, []) ?? await policies.GetFallbackPolicyAsync();
        Assert.NotNull(policy);
        var judge = office.Services.CreateScope().ServiceProvider.GetRequiredService<IAuthorizationService>();
        Assert.False((await judge.AuthorizeAsync(new ClaimsPrincipal(new ClaimsIdentity()), policy)).Succeeded);
        Assert.True((await judge.AuthorizeAsync(new ClaimsPrincipal(new ClaimsIdentity("sign-in")), policy)).Succeeded);
    }
}
