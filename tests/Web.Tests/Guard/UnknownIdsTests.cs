using System.Net;
using System.Text.RegularExpressions;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>Addresses typed by hand, cut short or from another house.</summary>
[Collection(GuardCollection.Name)]
public sealed partial class UnknownIdsTests(GuardOffice office)
{
    private static readonly string[] Unknown = ["0", "999999", "-1", "abc", "99999999999999", "1e3"];

    [GeneratedRegex(@"\{[^}]+\}")]
    private static partial Regex Parameter();

    [Fact]
    public async Task An_unknown_number_in_the_path_is_not_found()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (wrong, tried) = (new List<string>(), 0);
        foreach (var page in (await office.PagesAsync()).Where(p => p.Pattern.Contains('{', StringComparison.Ordinal)))
            foreach (var url in Unknown.SelectMany(u => Spoilt(page.Pattern, u)))
            {
                tried++;
                var answer = await owner.GetAsync(url);
                if (page.Page == "/Offer/Paper") answer = await owner.GetAsync(answer.Headers.Location);
                if (answer.StatusCode != HttpStatusCode.NotFound) wrong.Add($"{url}: {(int)answer.StatusCode}");
            }

        Assert.True(tried > 150, $"Only {tried} were tried.");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Theory]
    [InlineData("work/as-built?job=")]
    [InlineData("work?job=")]
    [InlineData("work/photos?job=")]
    [InlineData("work/photos?handler=Small&photo=")]
    [InlineData("proof/test?test=")]
    [InlineData("proof?handler=Letter&testId=")]
    [InlineData("quote?revision=")]
    [InlineData("quote?handler=Paper&revision=")]
    [InlineData("quote?handler=Signed&revision=")]
    [InlineData("diagnosis?test=")]
    [InlineData("design?revision=")]
    [InlineData("papers?before=")]
    public async Task An_unknown_number_in_the_query_fails_nothing(string path)
    {
        var owner = await office.SignInAsOwnerAsync();
        foreach (var unknown in Unknown.Append("%00"))
        {
            var answer = await owner.GetAsync($"/houses/{office.RunningHouse}/{path}{unknown}");
            Assert.True((int)answer.StatusCode < 500, $"{path}{unknown}: {(int)answer.StatusCode}");
        }
    }

    [Fact]
    public async Task A_design_of_another_house_is_not_found()
    {
        var owner = await office.SignInAsOwnerAsync();
        var design = await office.DesignOfAsync(office.DesignHouse);
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync($"/houses/{office.DesignHouse}/design/{design}/file.json")).StatusCode);
        foreach (var path in new[] { $"design/{design}/file.json", $"design/{design}/fans.svg", $"design/route/{design}" })
            Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/houses/{office.RunningHouse}/{path}")).StatusCode);
    }

    /// <summary>The pattern with each parameter in turn unknown and the others those of the house with a design.</summary>
    private IEnumerable<string> Spoilt(string pattern, string unknown)
    {
        var count = Parameter().Count(pattern);
        for (var spoilt = 0; spoilt < count; spoilt++)
        {
            var (at, now) = (0, spoilt);
            yield return "/" + Parameter().Replace(pattern, m => at++ == now ? unknown : m.Value.Contains("houseId", StringComparison.Ordinal) ? $"{office.DesignHouse}" : "1");
        }
    }
}
