using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Messages;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>The house owner's own page, by the private link in a reminder.</summary>
public sealed partial class MyHouseTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();
    private int _house;

    public Task InitializeAsync()
    {
        (office.Settings["Offer:SendsPerMinute"], office.Settings["Offer:ReadsPerMinute"]) = ("10000", "10000");
        return office.InitializeAsync();
    }

    public Task DisposeAsync() => office.DisposeAsync();

    private async Task<string> LinkAsync()
    {
        (_house, _) = await office.AddHouseWithSystemAsync("wren@alder.example", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        var mail = Assert.Single(office.MailTo("wren@alder.example"));
        Assert.Contains(Link().Match(mail.TextBody!).Value, mail.HtmlBody, StringComparison.Ordinal);
        return Link().Match(mail.TextBody!).Value;
    }

    private Task<OwnerWord> WordAsync() => office.WithDbAsync(db => db.OwnerWords.AsNoTracking().SingleAsync());

    [Fact]
    public async Task Looking_shows_what_is_due_and_changes_nothing()
    {
        var link = await LinkAsync();
        var before = await office.WithDbAsync(db => db.Audit.CountAsync());
        foreach (var step in new[] { "", "?step=book", "?step=tested", "?step=address", "?step=sold", "?step=mail", "?step=nonsense", "?handler=Stop&kind=Upkeep" })
        {
            var answer = await office.Visitor().GetAsync(link + step);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
            Assert.Contains("noindex", Assert.Single(answer.Headers.GetValues("X-Robots-Tag")), StringComparison.Ordinal);
            Assert.Equal("no-store", answer.Headers.CacheControl!.ToString());
        }

        var text = await office.Visitor().TextAsync(link);
        Assert.Contains("14 Larkspur Hill Road", text, StringComparison.Ordinal);
        Assert.Contains("Test after the work not back", text, StringComparison.Ordinal);
        Assert.DoesNotContain("555-0123", text, StringComparison.Ordinal);
        Assert.DoesNotContain("wren@", text, StringComparison.Ordinal);
        Assert.Equal(before, await office.WithDbAsync(db => db.Audit.CountAsync()));
        Assert.Empty(await office.WithDbAsync(db => db.OwnerWords.ToListAsync()));
        Assert.Empty(await office.WithDbAsync(db => db.Suppressions.ToListAsync()));
    }

    [Fact]
    public async Task A_result_waits_for_the_office_and_becomes_the_test_that_the_next_retest_counts_from()
    {
        var link = await LinkAsync();
        var visitor = office.Visitor();
        var refused = await visitor.SubmitAsync(link + "?step=tested", new() { ["Input.Result"] = "lots", ["Input.Day"] = "3/1/2026", ["Input.Words"] = "kit in the den" });
        var html = await refused.Content.ReadAsStringAsync();
        Assert.Contains("Write the result as a number", html, StringComparison.Ordinal);
        Assert.Contains("kit in the den", html, StringComparison.Ordinal);
        for (var twice = 0; twice < 2; twice++)
            Assert.Equal(HttpStatusCode.Redirect, (await visitor.SubmitAsync(link + "?step=tested", new() { ["Input.Result"] = "1.4 pCi/L", ["Input.Day"] = "3/1/2026" })).StatusCode);
        var word = await WordAsync();
        Assert.Equal((OwnerWordKind.TestDone, 1.4m, new DateOnly(2026, 3, 1)), (word.Kind, word.PCiL!.Value, word.OnDay!.Value));
        Assert.Equal(0, await office.WithDbAsync(db => db.RadonTests.CountAsync()));
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("has tested", await desk.TextAsync("/follow-up"), StringComparison.Ordinal);
        Assert.Contains("House owners told us", await desk.TextAsync("/"), StringComparison.Ordinal);
        await desk.SubmitAsync("/follow-up", [], "form[action*=Heard]", "button[value=true]");
        var test = await office.WithDbAsync(db => db.RadonTests.AsNoTracking().SingleAsync());
        Assert.Equal((TestOutcome.BelowTarget, 1.4m, "the house owner"), (test.Outcome, test.DecidingPCiL!.Value, test.MadeBy));
        var retest = await office.WithDbAsync(db => db.Reminders.AsNoTracking().SingleAsync(r => r.HouseId == _house && r.RuleCode == SeedReminderRules.Retest && r.State == ReminderState.Planned));
        Assert.Equal(new DateOnly(2028, 3, 1), retest.DueOn);
        Assert.DoesNotContain("has tested", await desk.TextAsync("/follow-up"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_address_is_used_once_the_office_takes_it_over()
    {
        var link = await LinkAsync();
        Assert.Contains("Write what has changed", await (await office.Visitor().SubmitAsync(link + "?step=address", [])).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("Write the e-mail address in full", await (await office.Visitor().SubmitAsync(link + "?step=address", new() { ["Input.Email"] = "wren at alder" })).TextAsync(), StringComparison.Ordinal);
        await office.Visitor().SubmitAsync(link + "?step=address", new() { ["Input.Email"] = "new@alder.example" });
        Assert.Equal("wren@alder.example", await office.WithDbAsync(db => db.Customers.Select(c => c.Email).SingleAsync()));
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{_house}/follow-up", [], "form[action*=Heard]", "button[value=true]");
        Assert.Equal("new@alder.example", await office.WithDbAsync(db => db.Customers.Select(c => c.Email).SingleAsync()));
    }

    [Fact]
    public async Task A_sale_is_told_and_the_link_ends_when_the_house_has_another_owner()
    {
        var link = await LinkAsync();
        await office.Visitor().SubmitAsync(link + "?step=sold", new() { ["Input.Name"] = "Second Alder", ["Input.Email"] = "second@alder.example" });
        Assert.Equal((OwnerWordKind.Sold, "Second Alder"), ((await WordAsync()).Kind, (await WordAsync()).Name));
        Assert.Equal(HttpStatusCode.OK, (await office.Visitor().GetAsync(link)).StatusCode);
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Hand the house over", await desk.TextAsync("/follow-up"), StringComparison.Ordinal);
        // The form comes filled with what was told.
        var handOver = $"/houses/{_house}/hand-over?told={(await WordAsync()).Id}";
        Assert.Contains($"{handOver}\"", await desk.GetStringAsync("/follow-up"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(handOver, [])).StatusCode);
        Assert.Equal(("Second Alder", "second@alder.example"), await office.WithDbAsync(async db =>
        {
            var owner = await db.HouseOwners.Where(o => o.HouseId == _house && o.ToDay == null).Select(o => o.Customer!).SingleAsync();
            return (owner.Name, owner.Email);
        }));
        var ended = await office.Visitor().GetAsync(link);
        Assert.Equal(HttpStatusCode.NotFound, ended.StatusCode);
        Assert.DoesNotContain("Larkspur", await ended.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(await ended.TextAsync(), await (await office.Visitor().GetAsync("/my-house/" + new string('a', 43))).TextAsync());
    }

    [Fact]
    public async Task An_opt_out_holds_at_once_for_its_kind()
    {
        var link = await LinkAsync();
        await office.Visitor().SubmitAsync(link + "?step=mail", [], button: "button[value=Commercial]");
        Assert.Equal([MailClass.Commercial], await office.WithDbAsync(db => db.Suppressions.Select(s => s.Class!.Value).ToListAsync()));
        await office.Visitor().SubmitAsync(link + "?step=mail", [], button: "button[value=Upkeep]");
        Assert.Equal(2, await office.WithDbAsync(db => db.Suppressions.CountAsync()));
        Assert.Contains("You get no reminders", await office.Visitor().TextAsync(link + "?step=mail"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_link_ends_after_its_days_and_its_secret_is_stored_hashed()
    {
        var link = await LinkAsync();
        var token = link.Split('/')[^1];
        Assert.Equal(43, token.Length);
        Assert.DoesNotContain(token, await office.WithDbAsync(db => db.OwnerLinks.Select(l => l.TokenHash).SingleAsync()), StringComparison.Ordinal);
        Assert.DoesNotContain(await office.WithDbAsync(db => db.Audit.Select(a => a.Changes).ToListAsync()), c => c.Contains(token, StringComparison.Ordinal));
        office.Clock.Advance(TimeSpan.FromDays(OwnerLink.LivesDays + 1));
        Assert.Equal(HttpStatusCode.NotFound, (await office.Visitor().GetAsync(link)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await office.Visitor().GetAsync("/my-house/x")).StatusCode);
    }

    [Fact]
    public async Task A_flood_from_one_house_is_refused_in_words()
    {
        var link = await LinkAsync();
        for (var i = 0; i < HearOwner.MostWaiting; i++) await office.Visitor().SubmitAsync(link + "?step=book", new() { ["Input.Words"] = $"day {i}" });
        var full = await office.Visitor().SubmitAsync(link + "?step=book", new() { ["Input.Words"] = "one more" });
        Assert.Contains("nobody has read yet", await full.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(HearOwner.MostWaiting, await office.WithDbAsync(db => db.OwnerWords.CountAsync()));
    }

    [GeneratedRegex(@"/my-house/\S+")]
    private static partial Regex Link();
}
