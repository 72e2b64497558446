using System.Net;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Tests.Work;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Tests;

public sealed class ProofTests(OfficeApp office) : IClassFixture<OfficeApp>, IAsyncLifetime
{
    private const string JudgeButton = "button[formaction]";

    public Task InitializeAsync()
    {
        if (office.Clock.GetUtcNow() < OfficeApp.Start.AddDays(10)) office.Clock.SetUtcNow(OfficeApp.Start.AddDays(10));
        return Task.CompletedTask;
    }

    public Task DisposeAsync() => Task.CompletedTask;

    private static Dictionary<string, string> Typed(string result, params (string Field, string Value)[] also)
    {
        var typed = WorkVerbs.TestTyped(result);
        foreach (var (field, value) in also) typed[field.StartsWith("Input", StringComparison.Ordinal) ? field : $"Input.{field}"] = value;
        return typed;
    }

    private async Task<(RadonTest Test, string Page)> JudgedAsync(Dictionary<string, string> typed)
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync($"/houses/{houseId}/proof/test", typed, button: JudgeButton);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        return (await OfHouseAsync(houseId), await desk.TextAsync($"/houses/{houseId}/proof"));
    }

    private Task<RadonTest> OfHouseAsync(int houseId) => office.WithDbAsync(db => db.RadonTests.AsNoTracking().Include(t => t.Devices).SingleAsync(t => t.HouseId == houseId));

    [Fact]
    public async Task A_good_test_is_passed_with_its_reasons()
    {
        var (test, page) = await JudgedAsync(Typed("0.8"));
        Assert.Equal((TestOutcome.BelowTarget, 0.8m), (test.Outcome, test.DecidingPCiL));
        Assert.Contains("Passed, below the promised level", page, StringComparison.Ordinal);
        Assert.Contains("0.8 pCi/L (near what the device can measure)", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Three_point_eight_and_four_point_one_side_by_side_show_four_and_are_not_passed()
    {
        // ANSI/AARST MAH 2019, 8.5.2: the average of two, and both values; 3.95 is reported as 4.0.
        var (test, page) = await JudgedAsync(Typed("3.8", ("Devices[0].Pair", "A"), ("Devices[1].Kind", "Charcoal"), ("Devices[1].Room", "Den"), ("Devices[1].Serial", "C-102"), ("Devices[1].Pair", "A"), ("Devices[1].ApartBy", "6"), ("Devices[1].Result", "4.1")));
        Assert.Equal((TestOutcome.NotPassed, 3.95m), (test.Outcome, test.DecidingPCiL));
        Assert.Contains("4.0 pCi/L (average of 3.8 and 4.1)", page, StringComparison.Ordinal);
        Assert.Contains("Not passed: diagnose, correct and test again.", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Four_rooms_well_below_the_action_level_close_the_case()
    {
        // A fact of the trade (common practice, no source): 0.8, 0.6, 0.6 and 0.7 need no second phase.
        var (test, page) = await JudgedAsync(Typed("0.8", [.. new[] { ("0.6", "Bedroom"), ("0.6", "Office"), ("0.7", "Playroom") }.SelectMany((d, i) => new[] { ($"Devices[{i + 1}].Kind", "Charcoal"), ($"Devices[{i + 1}].Room", d.Item2), ($"Devices[{i + 1}].Result", d.Item1) })]));
        Assert.Equal((TestOutcome.BelowTarget, 0.8m), (test.Outcome, test.DecidingPCiL));
        Assert.DoesNotContain("diagnose, correct and test again", page, StringComparison.Ordinal);
        Assert.Contains("Offer a long-term follow-up", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Devices_ten_inches_apart_are_never_averaged()
    {
        // ANSI/AARST MAH 2019, 8.5.2(d): more than 8 in apart are separate places.
        var (test, page) = await JudgedAsync(Typed("3.8", ("Devices[0].Pair", "A"), ("Devices[1].Kind", "Charcoal"), ("Devices[1].Room", "Den"), ("Devices[1].Pair", "A"), ("Devices[1].ApartBy", "10 in"), ("Devices[1].Result", "4.1")));
        Assert.Equal((TestOutcome.NotPassed, 4.1m), (test.Outcome, test.DecidingPCiL));
        Assert.DoesNotContain("average of", page, StringComparison.Ordinal);
        Assert.Contains("reported one by one and not averaged", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Devices_exactly_eight_inches_apart_are_a_pair()
    {
        var (test, _) = await JudgedAsync(Typed("1.0", ("Devices[0].Pair", "A"), ("Devices[1].Kind", "Charcoal"), ("Devices[1].Room", "Den"), ("Devices[1].Pair", "A"), ("Devices[1].ApartBy", "8"), ("Devices[1].Result", "1.4")));
        Assert.Equal((TestOutcome.BelowTarget, 1.2m), (test.Outcome, test.DecidingPCiL));
    }

    [Fact]
    public async Task Four_point_one_opens_not_passed_until_a_later_test_passes()
    {
        var (test, page) = await JudgedAsync(Typed("4.1"));
        Assert.Equal(TestOutcome.NotPassed, test.Outcome);
        Assert.Contains("Not passed: diagnose, correct and test again.", page, StringComparison.Ordinal);
        var desk = await office.SignInAsOfficeAsync();
        var street = await office.WithDbAsync(db => db.Houses.Where(h => h.Id == test.HouseId).Select(h => h.Street).SingleAsync());
        Assert.Contains(street + ", Birchford", await desk.TextAsync("/tests?show=not-passed"), StringComparison.Ordinal);
        var again = await desk.SubmitAsync($"/houses/{test.HouseId}/proof/test", Typed("1.1", ("Reason", "AfterChange"), ("Started.Day", "3/6/2026"), ("Ended.Day", "3/8/2026"), ("Ended.Time", "9:30 am")), button: JudgeButton);
        Assert.True(again.StatusCode == HttpStatusCode.Redirect, await again.TextAsync());
        // The night of March 8 has an hour less: 47.5 h do not count, and the house stays to be corrected.
        Assert.Contains("Not passed: diagnose", await desk.TextAsync($"/houses/{test.HouseId}/proof"), StringComparison.Ordinal);
        var newest = await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == test.HouseId).MaxAsync(t => t.Id));
        await desk.SubmitAsync($"/houses/{test.HouseId}/proof/test?test={newest}", new() { ["Input.Ended.Time"] = "10:30 am" }, button: JudgeButton);
        Assert.DoesNotContain("Not passed: diagnose", await desk.TextAsync($"/houses/{test.HouseId}/proof"), StringComparison.Ordinal);
        Assert.DoesNotContain(street + ", Birchford", await ListAsync(desk, "not-passed"), StringComparison.Ordinal);
    }

    /// <summary>The rows of the list alone, without the systems that wait for a test.</summary>
    private static async Task<string> ListAsync(HttpClient client, string show) =>
        System.Text.Encoding.UTF8.GetString(await client.GetByteArrayAsync($"/tests?show={show}&handler=csv")).Replace(",Birchford", ", Birchford", StringComparison.Ordinal);

    [Theory]
    [InlineData("3/2/2026", "9:00 pm", "before 2026-03-04 06:00")]
    [InlineData("3/4/2026", "5:30 am", "before 2026-03-04 06:00")]
    public async Task A_passive_test_that_started_too_early_is_not_valid(string day, string time, string words)
    {
        // ANSI/AARST MAH 2019, 7.3.2: 24 h after the fan and 12 h closed, whichever is later. Fan on 3/2 8:00, closed 3/3 18:00.
        var (test, page) = await JudgedAsync(Typed("0.8", ("Started.Day", day), ("Started.Time", time)));
        Assert.Equal(TestOutcome.NotValid, test.Outcome);
        Assert.Contains(words, page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_test_of_forty_seven_hours_is_not_valid()
    {
        var (test, page) = await JudgedAsync(Typed("0.8", ("Ended.Time", "8:00 am")));
        Assert.Equal(TestOutcome.NotValid, test.Outcome);
        Assert.Contains("The test ran 47 h; at least 48 h are needed.", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_test_over_the_change_of_clocks_is_as_long_as_it_was()
    {
        // From Saturday 9:00 to Monday 9:00 over the night of March 8 are 47 hours.
        var (test, page) = await JudgedAsync(Typed("0.8", ("Started.Day", "3/7/2026"), ("Ended.Day", "3/9/2026"), ("Ended.Time", "9:00 am")));
        Assert.Equal(TimeSpan.FromHours(47), test.EndedAtUtc!.Value - test.StartedAtUtc);
        Assert.Contains("The test ran 47 h", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_monitor_without_its_calibration_or_with_hours_cut_out_is_not_valid()
    {
        var (test, page) = await JudgedAsync(Typed("0.8", ("Devices[0].Kind", "ContinuousMonitor"), ("Devices[0].HoursTakenOut", "3")));
        Assert.Equal(TestOutcome.NotValid, test.Outcome);
        Assert.Contains("3 h were taken out of the inside of the record", page, StringComparison.Ordinal);
        Assert.Contains("calibration date of a continuous monitor must be on the report", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Absurd_and_empty_tests_are_refused_in_words_and_keep_their_typing()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var desk = await office.SignInAsOfficeAsync();
        var url = $"/houses/{houseId}/proof/test";
        var empty = await (await desk.SubmitAsync(url, new() { ["Input.Devices[0].Room"] = "" })).TextAsync();
        Assert.Contains("Write the day of the start.", empty, StringComparison.Ordinal);
        Assert.Contains("Write at least one device", empty, StringComparison.Ordinal);
        var cases = new (Dictionary<string, string> Typed, string Words)[]
        {
            (Typed("900 degrees"), "Write the result in pCi/L as a number"),
            (Typed("-1"), "The result in pCi/L must be between 0"),
            (Typed("0.8", ("Started.Day", "3/1/2026")), "The test starts before the fan was switched on (Mar 2, 2026 8:00 AM)"),
            (Typed("0.8", ("Ended.Day", "3/3/2026")), "not after its start"),
            (Typed("0.8", ("Started.Day", "3/4/2040")), "cannot have been opened in the time to come"),
            (Typed("0.8", ("Devices[0].CalibratedOn", "soon")), "Write the day of calibration as month/day/year"),
            (Typed("0.8", ("Devices[0].Room", "")), "Write the room the device stands in."),
        };
        foreach (var (typed, words) in cases)
        {
            var answer = await desk.SubmitAsync(url, typed, button: JudgeButton);
            Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
            Assert.Contains("C-101", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        Assert.False(await office.WithDbAsync(db => db.RadonTests.AnyAsync(t => t.HouseId == houseId)));
    }

    [Fact]
    public async Task Devices_are_set_out_first_and_their_results_entered_later_by_an_installer()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var crew = await office.SignInAsInstallerAsync();
        var typed = Typed("");
        typed.Remove("Input.Ended.Day");
        typed.Remove("Input.Ended.Time");
        await crew.SubmitAsync($"/houses/{houseId}/proof/test", typed);
        var test = await OfHouseAsync(houseId);
        Assert.Contains("Devices out", await crew.TextAsync($"/houses/{houseId}/proof"), StringComparison.Ordinal);
        var url = $"/houses/{houseId}/proof/test?test={test.Id}";
        var early = await crew.SubmitAsync(url, [], button: JudgeButton);
        Assert.Contains("Write when the test ended.", await early.TextAsync(), StringComparison.Ordinal);
        await crew.SubmitAsync(url, new() { ["Input.Ended.Day"] = "3/6/2026", ["Input.Ended.Time"] = "9 am", ["Input.Devices[0].Result"] = "1.3" });
        Assert.Contains(await StreetAsync(houseId), await ListAsync(crew, "to-judge"), StringComparison.Ordinal);
        await crew.SubmitAsync(url, [], button: JudgeButton);
        Assert.Equal((TestOutcome.BelowTarget, 1), ((await OfHouseAsync(houseId)).Outcome, (await OfHouseAsync(houseId)).Devices.Count));
    }

    private Task<string> StreetAsync(int houseId) => office.WithDbAsync(db => db.Houses.Where(h => h.Id == houseId).Select(h => h.Street).SingleAsync());

    [Fact]
    public async Task Two_people_with_the_same_results_open_do_not_overwrite_each_other()
    {
        var (houseId, _, testId) = await office.HouseWithPassedTestAsync();
        var desk = await office.SignInAsOfficeAsync();
        var url = $"/houses/{houseId}/proof/test?test={testId}";
        await desk.SubmitAsync(url, new() { ["Input.Devices[0].Result"] = "1.9" });
        var late = await desk.SubmitAsync(url, new() { ["Input.Devices[0].Result"] = "5.5", ["Version"] = "0" });
        Assert.Contains("Someone else saved this since you opened it", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(1.9m, (await OfHouseAsync(houseId)).Devices[0].PCiL);
        Assert.Equal(TestOutcome.NotJudged, (await OfHouseAsync(houseId)).Outcome);
    }

    [Fact]
    public async Task The_letter_goes_out_once_by_mail_with_the_published_risk_rows_only()
    {
        var (houseId, _, testId) = await office.HouseWithPassedTestAsync("2.6");
        var desk = await office.SignInAsOfficeAsync();
        var url = $"/houses/{houseId}/proof";
        var first = await desk.SubmitAsync(url, new() { ["_once"] = $"send-{testId}" }, "form[action*='handler=Send']");
        Assert.True(first.StatusCode == HttpStatusCode.Redirect, await first.TextAsync());
        Assert.DoesNotContain("handler=Send", await (await desk.GetAsync(url)).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var again = await WorkTests.PostWithTokenAsync(desk, $"{url}?handler=Send", new() { ["testId"] = $"{testId}" });
        Assert.Contains("It is sent once.", await again.TextAsync(), StringComparison.Ordinal);
        var message = await office.WithDbAsync(db => db.Outbox.AsNoTracking().SingleAsync(m => m.Key == $"result-letter:{testId}"));
        var mime = await MimeMessage.LoadAsync(new MemoryStream(message.Mime));
        Assert.StartsWith("The radon is below the action level", message.Subject, StringComparison.Ordinal);
        var pdf = mime.Attachments.OfType<MimePart>().Single();
        using var stream = new MemoryStream();
        await pdf.Content!.DecodeToAsync(stream);
        var stored = await office.WithDbAsync(db => db.Documents.AsNoTracking().SingleAsync(d => d.HouseId == houseId && d.Kind == PaperKind.ResultLetter));
        Assert.Equal(stored.Bytes, stream.ToArray());
        using var read = PdfDocument.Open(stored.Bytes);
        var words = string.Join(' ', read.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
        // EPA 402/K-12/002: 32 and 4 in a thousand at 2 pCi/L, 62 and 7 at 4; there is no row at 2.6.
        foreach (var expected in new[] { "2.6 pCi/L", "about 32", "about 4", "about 62", "about 7", "Before the work: 9.6 pCi/L", "Mar 6, 2028" }) Assert.Contains(expected, words, StringComparison.Ordinal);
        Assert.DoesNotContain("about 41", words, StringComparison.Ordinal);
        var closed = await desk.SubmitAsync($"/houses/{houseId}/proof/test?test={testId}", new() { ["Input.Devices[0].Result"] = "1.0" }, "form[action*='proof/test']", null);
        Assert.Contains("its results no longer change", await closed.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(2.6m, (await OfHouseAsync(houseId)).Devices[0].PCiL);
    }

    [Fact]
    public async Task Without_an_address_the_letter_is_handed_over_on_paper()
    {
        var (houseId, _, testId) = await office.HouseWithPassedTestAsync(email: "no address");
        var desk = await office.SignInAsOfficeAsync();
        var url = $"/houses/{houseId}/proof";
        Assert.DoesNotContain("handler=Send", await (await desk.GetAsync(url)).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var mailed = await WorkTests.PostWithTokenAsync(desk, $"{url}?handler=Send", new() { ["testId"] = $"{testId}" });
        Assert.Contains("has no e-mail address on record", await mailed.TextAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync(url, [], "form[action*='handler=Handed']");
        var test = await OfHouseAsync(houseId);
        Assert.NotNull(test.LetterSentAtUtc);
        Assert.Equal(0, await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.Key == $"result-letter:{testId}")));
        Assert.Equal(HttpStatusCode.OK, (await desk.GetAsync($"/houses/{houseId}/papers/{test.LetterDocumentId}")).StatusCode);
    }

    [Fact]
    public async Task An_installer_may_not_send_the_letter()
    {
        var (houseId, _, testId) = await office.HouseWithPassedTestAsync();
        var crew = await office.SignInAsInstallerAsync();
        var denied = await WorkTests.PostWithTokenAsync(crew, $"/houses/{houseId}/proof?handler=Send", new() { ["testId"] = $"{testId}" });
        Assert.StartsWith("/not-allowed", denied.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        Assert.Null((await OfHouseAsync(houseId)).LetterSentAtUtc);
    }

    [Fact]
    public async Task A_retest_two_years_later_uses_the_same_sheet_and_is_not_called_late()
    {
        var (houseId, _, _) = await office.HouseWithPassedTestAsync();
        office.Clock.SetUtcNow(new DateTimeOffset(2028, 3, 20, 12, 0, 0, TimeSpan.Zero)); // the rest of this class does not mind
        var desk = await office.SignInAsOfficeAsync();
        var again = await desk.SubmitAsync($"/houses/{houseId}/proof/test", Typed("1.6", ("Closed.Day", "3/5/2028"), ("Started.Day", "3/6/2028"), ("Ended.Day", "3/8/2028"), ("Ended.Time", "9 am")), button: JudgeButton);
        Assert.True(again.StatusCode == HttpStatusCode.Redirect, await again.TextAsync());
        var test = await office.WithDbAsync(db => db.RadonTests.AsNoTracking().OrderByDescending(t => t.StartedAtUtc).FirstAsync(t => t.HouseId == houseId));
        Assert.Equal((TestReason.Retest, TestOutcome.BelowTarget), (test.Reason, test.Outcome));
        Assert.DoesNotContain("last day of the 30 days", test.OutcomeWhy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_window_and_the_placing_rules_are_shown_before_a_device_is_set_out()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var crew = await office.SignInAsInstallerAsync();
        var text = await crew.TextAsync($"/houses/{houseId}/proof/test");
        foreach (var words in new[] { "Mar 3, 2026 8:00 AM", "Apr 1, 2026", "7 ft or more from a sump pit", "25 Pa. Code 240.310", "ANSI/AARST MAH 2019, 7.3.2" }) Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Contains(await StreetAsync(houseId), await crew.TextAsync("/tests"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stale_links_and_houses_without_a_system_are_answered()
    {
        var (houseId, _, testId) = await office.HouseWithPassedTestAsync();
        var (bare, _) = await office.HouseWithJobAsync();
        var desk = await office.SignInAsOfficeAsync();
        foreach (var url in new[] { "/houses/999999/proof", $"/houses/{houseId}/proof/test?test=999999", $"/houses/{bare.HouseId}/proof/test?test={testId}", $"/houses/{bare.HouseId}/proof/test", $"/houses/{bare.HouseId}/proof?handler=letter&testId={testId}" })
            Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync(url)).StatusCode);
        Assert.Contains("The proof follows the work", await desk.TextAsync($"/houses/{bare.HouseId}/proof"), StringComparison.Ordinal);
    }
}
