using System.Net;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Systems;

/// <summary>The two days on which clocks change. US rule (15 USC 260a): second Sunday of March, first Sunday of November, at 2 am.</summary>
[Trait("Database", "either")]
public sealed class HouseClockTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static readonly TimeZoneInfo Chicago = TimeZoneInfo.FindSystemTimeZoneById("America/Chicago");

    private void LetAutumnCome()
    {
        var november = new DateTimeOffset(2026, 11, 20, 12, 0, 0, TimeSpan.Zero);
        if (office.Clock.GetUtcNow() < november) office.Clock.SetUtcNow(november);
    }

    [Fact]
    public async Task The_hour_that_spring_skips_is_refused_and_the_one_after_it_taken()
    {
        LetAutumnCome();
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{house.HouseId}/work/as-built?job={jobId}";
        var skipped = await crew.SubmitAsync(url, await office.AsBuiltTypedAsync("MN-5001", "3/8/2026", "2:30 am"));
        Assert.Contains("skip an hour on Mar 8, 2026: 2:30 AM never came", await skipped.TextAsync(), StringComparison.Ordinal);
        await crew.SubmitAsync(url, await office.AsBuiltTypedAsync("MN-5001", "3/8/2026", "3:30 am"));
        Assert.Equal(new DateTime(2026, 3, 8, 8, 30, 0), (await office.SystemOfAsync(house.HouseId)).ActivatedAtUtc);
    }

    [Theory]
    [InlineData("First", 6)]
    [InlineData("Second", 7)]
    public async Task The_hour_that_autumn_repeats_is_asked_about(string pass, int hourUtc)
    {
        LetAutumnCome();
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{house.HouseId}/work/as-built?job={jobId}";
        var typed = await office.AsBuiltTypedAsync($"MN-51{pass}", "11/1/2026", "1:30 am");
        var asked = await crew.SubmitAsync(url, typed);
        Assert.Contains("1:30 AM comes twice. Say which one is meant.", await asked.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("name=\"Input.FanOn.Pass\"", await asked.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        typed["Input.FanOn.Pass"] = pass;
        Assert.Equal(HttpStatusCode.Redirect, (await crew.SubmitAsync(url, typed)).StatusCode);
        Assert.Equal(new DateTime(2026, 11, 1, hourUtc, 30, 0), (await office.SystemOfAsync(house.HouseId)).ActivatedAtUtc);
        // Opened again for correction and saved unchanged, the instant stays.
        await crew.SubmitAsync(url, []);
        Assert.Equal(new DateTime(2026, 11, 1, hourUtc, 30, 0), (await office.SystemOfAsync(house.HouseId)).ActivatedAtUtc);
    }

    [Fact]
    public void Every_quarter_hour_of_a_year_is_read_back_as_it_was_shown()
    {
        for (var utc = new DateTime(2026, 1, 1, 6, 0, 0, DateTimeKind.Utc); utc.Year == 2026; utc = utc.AddMinutes(15))
        {
            var (day, time, pass) = HouseClock.Of(utc, Chicago);
            Assert.Equal(utc, HouseClock.Read(day, time, Chicago, pass).Utc);
        }
    }
}
