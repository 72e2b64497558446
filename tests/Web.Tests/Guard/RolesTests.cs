using System.Net;
using System.Text.RegularExpressions;
using MitigationOffice.Business.Staff;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>OWASP ASVS 5.0, 8.2.1 and 8.2.2: every role at every address of every page.</summary>
[Collection(GuardCollection.Name)]
[Trait("Database", "either")]
public sealed partial class RolesTests(GuardOffice office)
{
    /// <summary>The pages that name no role. A new page must be put here by hand or get a policy.</summary>
    private static readonly string[] ForEverybodySignedIn =
    [
        "/Account/Calendar", "/Account/SignOut", "/Account/Units",
        "/Design/Chart", "/Design/Climate", "/Design/DesignFilePage", "/Design/Index", "/Design/Materials", "/Design/Route", "/Design/Siting", "/Design/Winter",
        "/Diagnosis/Edit", "/Diagnosis/Index",
        "/Exposure/Index",
        "/Houses/Go", "/Houses/Index", "/Houses/Inquiry",
        "/Papers/Index", "/Papers/Paper",
        "/Plan/Backdrop", "/Plan/Coverage", "/Plan/Index", "/Plan/Picture",
        "/Service/Call", "/Service/House", "/Service/Index",
        "/Tests/Edit", "/Tests/Hours", "/Tests/Index", "/Tests/Kit", "/Tests/Kits", "/Tests/Monitor", "/Tests/Sheet",
        "/Today/Index",
        "/Work/AsBuilt", "/Work/Change", "/Work/Day", "/Work/HandOver", "/Work/Index", "/Work/Materials", "/Work/Photos", "/Work/Sheet", "/Work/Week",
    ];

    private static readonly string[] ForOwners = ["/Shop/Company", "/Shop/Fan", "/Shop/Import", "/Shop/Price", "/Shop/RuleSet", "/Shop/Rules", "/Shop/Staff", "/StateReports/ChangeProfile", "/StateReports/NewProfile"];

    /// <summary>The refusal itself, and the page shown only to the browser that signed just now.</summary>
    private static readonly string[] NeedsMore = ["/Account/NotAllowed", "/Offer/Done"];

    [GeneratedRegex(@"\$\s?\d|\bmargin\b|priceDollars""?:\s*[1-9]|555-0123", RegexOptions.IgnoreCase)]
    private static partial Regex MoneyOrPhone();

    /// <summary>What the house owner's electricity will cost: the one money word the crew reads, on the design sheet.</summary>
    [GeneratedRegex(@"\$[\d,.]+ (a|each|per) (winter|year)")]
    private static partial Regex RunningCost();

    [Fact]
    public async Task Pages_without_a_role_and_pages_for_owners_are_listed_by_hand()
    {
        var pages = await office.PagesAsync();
        Assert.Equal(ForEverybodySignedIn, pages.Where(p => !p.Open && p.Policies.Count == 0).Select(p => p.Page).Order(StringComparer.Ordinal));
        Assert.Equal(ForOwners, pages.Where(p => p.Policies.Contains(SignInSetup.OwnerOnly)).Select(p => p.Page).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(StaffRole.Installer, "crew@lanternridge.example")]
    [InlineData(StaffRole.Office, "desk@lanternridge.example")]
    [InlineData(StaffRole.Owner, "owner@lanternridge.example")]
    public async Task Each_role_gets_its_pages_and_is_refused_the_others(StaffRole role, string email)
    {
        var client = await office.SignInAsync(email);
        var wrong = new List<string>();
        foreach (var page in await office.PagesAsync())
        {
            var may = page.Open || page.Policies.All(p => role == StaffRole.Owner || (p == SignInSetup.OfficeWork && role == StaffRole.Office));
            var good = 0;
            foreach (var url in office.Addresses(page))
            {
                var answer = await client.GetAsync(url);
                var refused = answer.Headers.Location?.OriginalString.Contains("/not-allowed", StringComparison.Ordinal) == true;
                if ((int)answer.StatusCode >= 500) wrong.Add($"{url}: {(int)answer.StatusCode}");
                if (!may && !refused) wrong.Add($"{url}: open to {role}");
                if (may && (int)answer.StatusCode < 400 && !refused) good++;
            }

            if (may && good == 0 && !NeedsMore.Contains(page.Page)) wrong.Add($"{page.Page}: nothing to see for {role}");
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    /// <summary>A customer's phone is for the house that is worked on: on the sheets of a house and among the visits, not in the lists.</summary>
    [Fact]
    public async Task An_installer_reads_no_price_and_no_list_of_phones()
    {
        var crew = await office.SignInAsInstallerAsync();
        var (wrong, read) = (new List<string>(), 0);
        foreach (var one in await office.CrawlAsync(crew, ["/", .. (await office.PagesAsync()).SelectMany(office.Addresses)]))
        {
            if (one.Answer.StatusCode != HttpStatusCode.OK || one.Answer.Content.Headers.ContentType?.MediaType is "application/pdf" or "image/png" or "image/jpeg" or "text/css" or "text/javascript") continue;
            if (one.Url.StartsWith("/offer/", StringComparison.Ordinal)) continue;
            read++;
            var body = one.Url.Contains("/design", StringComparison.Ordinal) ? RunningCost().Replace(one.Body, "") : one.Body;
            foreach (Match found in MoneyOrPhone().Matches(body))
                if (found.Value != "555-0123" || !(one.Url.StartsWith("/houses/", StringComparison.Ordinal) || one.Url.StartsWith("/work", StringComparison.Ordinal)))
                    wrong.Add($"{one.Url}: …{body[Math.Max(0, found.Index - 60)..Math.Min(body.Length, found.Index + 40)].ReplaceLineEndings(" ")}…");
        }

        Assert.True(read > 50, $"Only {read} pages were read.");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong.DistinctBy(w => w.Split(':')[0])));
    }

    [Fact]
    public async Task An_installer_gets_no_quote_as_a_paper()
    {
        var crew = await office.SignInAsInstallerAsync();
        var quotes = await office.QuotePapersAsync();
        Assert.NotEmpty(quotes);
        foreach (var (house, paper) in quotes)
            Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync($"/houses/{house}/papers/{paper}")).StatusCode);
    }
}
