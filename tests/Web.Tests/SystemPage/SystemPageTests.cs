using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.SystemPage;

[Trait("Database", "either")]
public sealed class SystemPageTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    /// <summary>A running system and the path of a link to its own page.</summary>
    internal static async Task<(int HouseId, int SystemId, string Path)> WithLinkAsync(OfficeApp office, string tag)
    {
        var (houseId, _, systemId) = await office.HouseWithRunningSystemAsync(tag);
        var path = await office.WithDbAsync(async db =>
        {
            var token = OwnPage.Add(db, systemId, "test", OfficeApp.Start.UtcDateTime, "test");
            await db.SaveChangesAsync();
            return "/" + OwnPage.PathOf(token);
        });
        return (houseId, systemId, path);
    }

    [Fact]
    public async Task The_page_shows_what_stands_there_and_no_person_result_or_price()
    {
        var (houseId, _, path) = await WithLinkAsync(office, "OP-1");
        var answer = await office.Visitor().GetAsync(path);
        var text = await answer.TextAsync();
        foreach (var words in new[] { "OP-1", "Heron Court", "Harrow 18", "Chime 2", "0.84 inWC", "555-0100", "licensed electrician", "carbon monoxide" }) Assert.Contains(words, text, StringComparison.Ordinal);
        foreach (var words in new[] { "Ines Tarn", "9.6", "2,310", "HX-77", "house.example", "$" }) Assert.DoesNotContain(words, text, StringComparison.Ordinal);
        Assert.Equal("noindex, nofollow", string.Join(',', answer.Headers.GetValues("X-Robots-Tag")));
        Assert.Contains("no-store", answer.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        Assert.Contains("role=\"img\" aria-label=\"At the start the two columns stand 0.84 inWC apart", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(office.Visitor(), $"{path}?Seen.Gauge=0.4&Seen.Sign=JustReading");
        Assert.False(await office.WithDbAsync(db => db.ServiceCalls.AnyAsync(c => c.HouseId == houseId)));
    }

    [Theory]
    [InlineData("Seen.Gauge=0&Seen.Outdoor=60", "The fan has no current", "The fan has failed", "is not drawing")]
    [InlineData("Seen.Gauge=0&Seen.Outdoor=-10", "The fan has no current", "Ice in the outdoor pipe", "-10")]
    [InlineData("Seen.Gauge=0.5&Seen.Outdoor=-4 F", "Ice in the outdoor pipe", "Air leaks in", "40 % less than the 0.84 inWC")]
    [InlineData("Seen.Gauge=0.5&Seen.Outdoor=70", "Air leaks in", "grown weak", "40 % less than the 0.84 inWC")]
    [InlineData("Seen.Gauge=1.2", "Water standing in the pipe", "Wet or blocked soil", "43 % more than the 0.84 inWC")]
    [InlineData("Seen.Gauge=0.8&Seen.Sign=AlarmBeepsNowAndThen", "The alarm's battery is low", "The alarm itself", "Its battery is of Mar 2, 2026")]
    public async Task First_advice_names_the_likeliest_first_with_the_numbers(string query, string first, string second, string words)
    {
        var (_, _, path) = await WithLinkAsync(office, $"OP-A{Math.Abs(query.GetHashCode(StringComparison.Ordinal))}");
        var text = await office.Visitor().TextAsync($"{path}?{query}");
        Assert.Contains(words.Replace("-", "−", StringComparison.Ordinal), text.Replace("-", "−", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.InRange(text.IndexOf(first, StringComparison.Ordinal), 1, text.IndexOf(second, StringComparison.Ordinal) - 1);
        Assert.Contains("Do not climb", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Fumes_send_everybody_out_and_talk_of_nothing_else()
    {
        var (_, _, path) = await WithLinkAsync(office, "OP-2");
        var text = await office.Visitor().TextAsync($"{path}?Seen.Sign=FumesOrCoAlarm");
        Assert.Contains("Go outside now, everybody", text, StringComparison.Ordinal);
        Assert.DoesNotContain("likeliest first", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Seen.Gauge=banana", "Write the gauge reading as a number")]
    [InlineData("Seen.Gauge=-3", "out of range")]
    [InlineData("Seen.Sign=JustReading", "Write what the gauge shows")]
    [InlineData("Seen.Gauge=0.5&Seen.Outdoor=900", "out of range")]
    public async Task What_cannot_be_read_is_answered_in_words_and_stays(string query, string words)
    {
        var (_, _, path) = await WithLinkAsync(office, $"OP-B{Math.Abs(query.GetHashCode(StringComparison.Ordinal))}");
        var answer = await office.Visitor().GetAsync($"{path}?{query}");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var body = await answer.Content.ReadAsStringAsync();
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
        if (query.Contains("Gauge", StringComparison.Ordinal)) Assert.Contains($"value=\"{query.Split('=', '&')[1]}\"", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Asking_for_service_twice_with_one_form_makes_one_call_that_today_shows()
    {
        var (houseId, systemId, path) = await WithLinkAsync(office, "OP-3");
        var typed = new Dictionary<string, string> { ["Input.Name"] = "Zoë 🏠 Tarn", ["Input.Phone"] = "555-0199", ["Input.Words"] = "After four, please.\nThe dog is kind.", ["Input.Sending"] = new string('a', 64) };
        var visitor = office.Visitor();
        // One look first, as a person has had: the browser then holds one form cookie, not three that overtake each other.
        var form = $"{path}?step=ask&Seen.Gauge=0.5&Seen.Outdoor=14";
        await visitor.GetAsync(form);
        var answers = await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => visitor.SubmitAsync(form, typed)));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
        var call = await office.WithDbAsync(db => db.ServiceCalls.SingleAsync(c => c.HouseId == houseId));
        Assert.Equal((systemId, true, Sign.JustReading, "Zoë 🏠 Tarn", CallState.Open), (call.InstalledSystemId!.Value, call.ByOwnPage, call.Sign, call.CallerName, call.State));
        Assert.Equal(124.5, call.GaugePa!.Value, 1);
        Assert.Equal(-10, call.OutdoorC!.Value, 1);
        Assert.Contains($"We have your call {call.Number}", await visitor.TextAsync(answers[0].Headers.Location!.ToString()), StringComparison.Ordinal);
        Assert.Contains(call.Number, await (await office.SignInAsInstallerAsync()).TextAsync("/"), StringComparison.Ordinal);
        Assert.DoesNotContain(path.Split('/')[^1], await office.WithDbAsync(async db => string.Join('\n', await db.Submissions.Select(s => s.Key).ToListAsync()) + string.Join('\n', await db.Audit.Select(a => a.Changes).ToListAsync())), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_office_gets_one_mail_for_a_call_however_often_it_is_sent()
    {
        var (houseId, _, path) = await WithLinkAsync(office, "OP-7");
        var typed = new Dictionary<string, string> { ["Input.Name"] = "Ines\r\nBcc: all@house.example", ["Input.Phone"] = "555-0123", ["Input.Email"] = "ines@house.example", ["Input.Words"] = "It hums.\n.\nQUIT", ["Input.Sending"] = new string('b', 64) };
        var (visitor, form) = (office.Visitor(), $"{path}?step=ask&Seen.Gauge=0.5&Seen.Outdoor=14");
        await visitor.GetAsync(form);
        await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => visitor.SubmitAsync(form, typed)));
        await visitor.SubmitAsync(form, typed);
        var call = await office.WithDbAsync(db => db.ServiceCalls.SingleAsync(c => c.HouseId == houseId));
        var sent = Assert.Single(await office.WithDbAsync(db => db.Outbox.AsNoTracking().Where(m => m.HouseId == houseId).ToListAsync()));
        Assert.Equal(("office@lanternridge.example", Business.Messages.MailClass.Work, $"service-call:{call.Id}"), (sent.ToAddress, sent.Class, sent.Key));
        var mail = MimeKit.MimeMessage.Load(new MemoryStream(sent.Mime));
        Assert.Equal(["ines@house.example"], mail.ReplyTo.Mailboxes.Select(m => m.Address));
        Assert.Single(mail.To);
        Assert.Empty(mail.Bcc);
        Assert.Contains(call.Number, mail.Subject, StringComparison.Ordinal);
        foreach (var words in new[] { "OP-7", "555-0123", "It hums.", "0.5 inWC", "14 °F", $"/houses/{houseId}/service/{call.Id}" }) Assert.Contains(words, mail.TextBody, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await (await office.SignInAsOfficeAsync()).GetAsync($"/houses/{houseId}/service/{call.Id}")).StatusCode);
    }

    [Fact]
    public async Task A_call_about_fumes_says_so_in_the_subject_and_one_taken_by_the_office_writes_no_mail()
    {
        var (houseId, _, path) = await WithLinkAsync(office, "OP-8");
        await office.Visitor().SubmitAsync($"{path}?step=ask&Seen.Sign=FumesOrCoAlarm", new() { ["Input.Name"] = "Ines", ["Input.Phone"] = "555-0123" });
        Assert.StartsWith("CALL BACK AT ONCE", await office.WithDbAsync(db => db.Outbox.Where(m => m.HouseId == houseId).Select(m => m.Subject).SingleAsync()), StringComparison.Ordinal);
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{houseId}/service", new() { ["Input.Sign"] = "FanLoud", ["Input.Name"] = "Ines", ["Input.Phone"] = "555-0123" }, "form:has([name='Input.Sign'])");
        Assert.Equal((2, 1), await office.WithDbAsync(async db => (await db.ServiceCalls.CountAsync(c => c.HouseId == houseId), await db.Outbox.CountAsync(m => m.HouseId == houseId))));
    }

    [Fact]
    public async Task A_call_without_a_way_back_is_refused_and_nothing_typed_is_lost()
    {
        var (houseId, _, path) = await WithLinkAsync(office, "OP-4");
        var answer = await office.Visitor().SubmitAsync($"{path}?step=ask", new() { ["Input.Name"] = "Ines", ["Input.Words"] = "It hums" });
        var body = await answer.Content.ReadAsStringAsync();
        Assert.Contains("Write a phone number or an e-mail address", body, StringComparison.Ordinal);
        Assert.Contains("It hums", body, StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.ServiceCalls.AnyAsync(c => c.HouseId == houseId)));
    }

    [Fact]
    public async Task A_revoked_link_is_gone_in_words_and_the_new_one_works()
    {
        var (houseId, _, path) = await WithLinkAsync(office, "OP-5");
        var desk = await office.SignInAsOfficeAsync();
        var renewed = await desk.SubmitAsync($"/houses/{houseId}/service", new() { ["keep"] = "false" }, "form[action*='handler=Link']");
        var page = await desk.GetAsync(renewed.Headers.Location!.ToString().Split('#')[0]);
        var link = new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await page.Content.ReadAsStringAsync()).QuerySelector("code")!.TextContent;
        var gone = await office.Visitor().GetAsync(path);
        Assert.Equal(HttpStatusCode.Gone, gone.StatusCode);
        var words = await gone.TextAsync();
        Assert.Contains("This link has been ended", words, StringComparison.Ordinal);
        Assert.DoesNotContain("Heron Court", words, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await office.Visitor().GetAsync(new Uri(link).AbsolutePath)).StatusCode);
        Assert.DoesNotContain(new Uri(link).AbsolutePath, await desk.TextAsync($"/houses/{houseId}/service"), StringComparison.Ordinal);
        var crew = await office.SignInAsInstallerAsync();
        Assert.StartsWith("/not-allowed", (await WorkTests.PostWithTokenAsync(crew, $"/houses/{houseId}/service?handler=Revoke", new() { ["systemId"] = "1" })).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_made_up_link_is_not_found_and_only_a_hash_is_stored()
    {
        var (_, systemId, path) = await WithLinkAsync(office, "OP-6");
        var token = path.Split('/')[^1];
        Assert.Equal(HttpStatusCode.NotFound, (await office.Visitor().GetAsync("/system/" + new string('A', 43))).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await office.Visitor().GetAsync("/system/" + token.ToUpperInvariant())).StatusCode);
        var stored = await office.WithDbAsync(db => db.SystemLinks.Where(l => l.InstalledSystemId == systemId).Select(l => l.TokenHash).ToListAsync());
        Assert.Contains(PrivateLink.HashOf(token), stored);
        Assert.DoesNotContain(token, stored);
    }
}
