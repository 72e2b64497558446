using System.Net;
using MitigationOffice.Web.Jobs;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>With the scheduler running, as in the program itself.</summary>
public sealed class JobsPageTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync()
    {
        office.Settings["Jobs:Off"] = "false";
        return office.InitializeAsync();
    }

    public Task DisposeAsync() => office.DisposeAsync();

    [Fact]
    public async Task Only_the_owner_sees_the_jobs_and_no_persons_data_in_them()
    {
        await office.AddHouseWithSystemAsync("wren@alder.example", Utc(2026, 2, 10));
        Assert.StartsWith("/sign-in", (await office.Visitor().GetAsync("/jobs")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        Assert.StartsWith("/not-allowed", (await (await office.SignInAsOfficeAsync()).GetAsync("/jobs")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        Assert.StartsWith("/not-allowed", (await (await office.SignInAsInstallerAsync()).GetAsync("/jobs/recurring")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        var answer = await (await office.SignInAsOwnerAsync()).GetAsync("/jobs/recurring");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains("pump-mail", html, StringComparison.Ordinal);
        Assert.Contains("plan-reminders", html, StringComparison.Ordinal);
        Assert.DoesNotContain("alder", html, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("script-src 'self'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
    }

    [Fact]
    public void Jobs_take_numbers_or_nothing_so_that_the_scheduler_keeps_no_persons_data()
    {
        var acts = typeof(PumpMailJob).Assembly.GetTypes().Where(t => t.Namespace == typeof(PumpMailJob).Namespace && t.Name.EndsWith("Job", StringComparison.Ordinal))
            .Select(t => t.GetMethod("RunAsync")!).ToList();
        Assert.NotEmpty(acts);
        Assert.All(acts.SelectMany(m => m.GetParameters()), p => Assert.True(p.ParameterType == typeof(int) || p.ParameterType == typeof(CancellationToken)));
    }
}
