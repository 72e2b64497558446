using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Messages.Returned;
using MitigationOffice.Web.Tests.FollowUp;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;
using static MitigationOffice.Web.Tests.Messages.MailVerbs;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>Mail that came back: RFC 3464 reports in the form of its appendix E, plain texts, and what enemies write.</summary>
public sealed class ReturnedTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();
    private readonly ImapBox box = new();

    public Task InitializeAsync()
    {
        (office.Settings["Mailbox:Host"], office.Settings["Mailbox:Port"], office.Settings["Mailbox:User"], office.Settings["Mailbox:Password"]) = ("127.0.0.1", $"{box.Port}", "returns", "secret");
        return office.InitializeAsync();
    }

    public async Task DisposeAsync()
    {
        await office.DisposeAsync();
        await box.DisposeAsync();
    }

    /// <summary>After RFC 3464 appendix E.1, its names changed.</summary>
    private static string Report(string messageId, string recipient, string action = "failed", string status = "5.1.1", string? final = null) => $"""
        Return-Path: <>
        From: Mail Delivery Subsystem <MAILER-DAEMON@relay.example>
        To: office@lanternridge.example
        Subject: Returned mail: see transcript for details
        MIME-Version: 1.0
        Content-Type: multipart/report; report-type=delivery-status; boundary="RAA14128.773615765"
        Auto-Submitted: auto-replied

        --RAA14128.773615765

        The original message was received, and its delivery came to this end.

        --RAA14128.773615765
        content-type: message/delivery-status

        Reporting-MTA: dns; relay.example
        Arrival-Date: Mon, 2 Mar 2026 15:00:00 +0000

        Final-Recipient: RFC822;{final ?? recipient}
        Original-Recipient: rfc822;{recipient}
        Action: {action}
        Status: {status}
        Diagnostic-Code: smtp; 550 {status} nobody of this name

        --RAA14128.773615765
        content-type: message/rfc822

        From: Lantern Ridge Radon <office@lanternridge.example>
        To: {recipient}
        Subject: About your house
        Message-Id: <{messageId}>

        the text
        --RAA14128.773615765--
        """;

    private async Task<OutboxMessage> SentAsync(string key, string to = "gone@wren.example", MailClass kind = MailClass.Upkeep)
    {
        var id = await office.QueueLetterAsync(ALetter(key, to, kind));
        await office.SendOutboxAsync();
        return await office.MessageAsync(id);
    }

    private Task<PollRound> PollAsync() => office.WithAsync<PollReturns, PollRound>(p => p.RunAsync());

    private Task<List<Suppression>> StoppedAsync() => office.WithDbAsync(db => db.Suppressions.AsNoTracking().ToListAsync());

    [Fact]
    public async Task A_hard_report_in_the_mailbox_stops_the_address_with_words_and_is_read_once()
    {
        var message = await SentAsync("hard");
        box.Put("From: A Person <person@wren.example>\nSubject: a question\nContent-Type: text/plain\n\nWhen do you come?\n");
        box.Put(Report(message.MessageId, "Gone@Wren.example"));
        Assert.Equal(new PollRound(2, 1, ""), await PollAsync());
        var stopped = Assert.Single(await StoppedAsync());
        Assert.Equal(("gone@wren.example", (MailClass?)null), (stopped.Address, stopped.Class));
        Assert.Contains("5.1.1", stopped.Why, StringComparison.Ordinal);
        var after = await office.MessageAsync(message.Id);
        Assert.Equal(DeliveryState.Refused, after.State);
        Assert.StartsWith("Came back (5.1.1)", after.LastAnswer, StringComparison.Ordinal);
        Assert.Equal([false, true], box.Mail.Select(m => m.Seen));
        box.Put(Report(message.MessageId, "Gone@Wren.example"));
        await PollAsync();
        Assert.Equal(1, await office.WithDbAsync(db => db.ReturnedMail.CountAsync()));
        Assert.Single(await StoppedAsync());
    }

    [Theory]
    [InlineData("delayed", "4.4.7", ReturnKind.Delayed)]
    [InlineData("delivered", "2.0.0", ReturnKind.Arrived)]
    [InlineData("failed", "5.2.2", ReturnKind.Soft)]
    [InlineData("failed", "4.4.7", ReturnKind.Soft)]
    [InlineData("failed", "5.7.1", ReturnKind.Soft)]
    [InlineData("failed", "5.2.1", ReturnKind.Hard)]
    [InlineData("failed", "5.1.10", ReturnKind.Hard)]
    public void What_a_report_means(string action, string status, ReturnKind kind)
    {
        var report = Assert.Single(ReadReturn.Of(Encoding.UTF8.GetBytes(Report("x@lanternridge.example", "a@b.example", action, status).ReplaceLineEndings("\r\n"))));
        Assert.Equal(kind, report.Kind);
        Assert.Equal(["a@b.example"], report.Recipients);
        Assert.Equal(["x@lanternridge.example"], report.MessageIds);
    }

    [Fact]
    public async Task Soft_failures_stop_the_address_the_third_time_within_a_month()
    {
        for (var i = 1; i <= 3; i++)
        {
            var message = await SentAsync($"soft {i}");
            box.Put(Report(message.MessageId, "gone@wren.example", status: "5.2.2"));
            await PollAsync();
            Assert.Equal(i < 3 ? 0 : 1, (await StoppedAsync()).Count);
        }
    }

    [Fact]
    public async Task A_reminder_that_came_back_waits_for_a_letter_or_a_call()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("gone@wren.example", Utc(2026, 2, 10));
        await office.RunFollowUpAsync();
        Assert.Equal(ReminderState.Sent, await office.WithDbAsync(db => db.Reminders.Where(r => r.HouseId == house && r.OutboxMessageId != null).Select(r => r.State).SingleAsync()));
        var id = await office.WithDbAsync(db => db.Outbox.Where(m => m.HouseId == house).Select(m => m.MessageId).SingleAsync());
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync("/follow-up/returned", new() { ["Pasted"] = Report(id, "gone@wren.example") }, "form[enctype]");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Contains("Mail to it came back (5.1.1)", await desk.TextAsync("/follow-up/letters"), StringComparison.Ordinal);
        await desk.SubmitAsync("/follow-up", [], "form[action*='handler=Hand']");
        Assert.Equal(ReminderState.DoneByHand, await office.WithDbAsync(db => db.Reminders.Where(r => r.HouseId == house && r.OutboxMessageId != null).Select(r => r.State).SingleAsync()));
    }

    [Fact]
    public async Task A_plain_text_of_an_old_server_is_understood_when_pasted()
    {
        var message = await SentAsync("plain");
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync("/follow-up/returned", new()
        {
            ["Pasted"] = $"Sorry, I could not deliver your message.\n\n<gone@wren.example>:\n550 5.1.1 no such user here\n\n--- Below this line is a copy\nMessage-ID: <{message.MessageId}>\n",
        }, "form[enctype]");
        Assert.Equal("gone@wren.example", Assert.Single(await StoppedAsync()).Address);
    }

    /// <summary>Anyone can write to the mailbox: a report that does not know both our Message-ID and the address it went to changes nothing.</summary>
    [Fact]
    public async Task A_forged_report_stops_nobody()
    {
        var message = await SentAsync("forged", "victim@wren.example");
        box.Put(Report("0123456789012345678901234567890123456789@lanternridge.example", "victim@wren.example"));
        box.Put(Report(message.MessageId, "somebody@else.example"));
        box.Put(Report("", "victim@wren.example"));
        await PollAsync();
        Assert.Empty(await StoppedAsync());
        Assert.Equal(DeliveryState.Sent, (await office.MessageAsync(message.Id)).State);
        Assert.All(await office.WithDbAsync(db => db.ReturnedMail.Select(r => r.Kind).ToListAsync()), k => Assert.Equal(ReturnKind.NotOurs, k));
    }

    [Fact]
    public void Hostile_reports_are_read_without_harm()
    {
        var deep = new StringBuilder("From: mailer-daemon@x.example\nMIME-Version: 1.0\n");
        for (var i = 0; i < 3000; i++) deep.Append(System.Globalization.CultureInfo.InvariantCulture, $"Content-Type: multipart/report; boundary=\"b{i}\"\n\n--b{i}\n");
        string[] hostile =
        [
            deep.ToString(),
            "Content-Type: multipart/report; report-type=delivery-status; boundary=\"\"\n\n--\nContent-Type: message/delivery-status\n\n\n\nFinal-Recipient:\nAction:\nStatus: 5\n",
            "From: mailer-daemon@x\nContent-Type: message/delivery-status\nContent-Transfer-Encoding: base64\n\n!!!! not base64 ====\n",
            "From: postmaster@x\nSubject: =?utf-8?B?////?= undeliverable \u202e\nContent-Type: text/plain; charset=no-such-charset\n\n" + new string('5', 90_000) + ".1.1",
            Report("a@b", "x@y.example").Replace("5.1.1", new string('9', 5000), StringComparison.Ordinal),
            Report("a@b", new string('a', 20_000) + "@y.example"),
            "\0\0\0\0",
        ];
        foreach (var raw in hostile)
        {
            try
            {
                foreach (var report in ReadReturn.Of(Encoding.UTF8.GetBytes(raw.ReplaceLineEndings("\r\n"))))
                    Assert.True(report.Words.Length <= 400 && report.Recipients.All(r => r.Length < 400));
            }
            catch (FormatException)
            {
                // Refused in words.
            }
        }

        var many = string.Concat(Enumerable.Range(0, 5000).Select(i => $"\n\nFinal-Recipient: rfc822;a{i}@y.example\nAction: failed\nStatus: 5.1.1"));
        var flood = Report("a@b", "x@y.example").Replace("\n\n--RAA14128.773615765\ncontent-type: message/rfc822", many + "\n\n--RAA14128.773615765\ncontent-type: message/rfc822", StringComparison.Ordinal);
        Assert.InRange(ReadReturn.Of(Encoding.UTF8.GetBytes(flood.ReplaceLineEndings("\r\n"))).Count, 1, 50);
        Assert.Throws<FormatException>(() => ReadReturn.Of(new byte[ReadReturn.LongestBytes + 1]));
    }

    [Fact]
    public async Task What_is_no_report_is_refused_in_words_and_stays_typed()
    {
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync("/follow-up/returned", new() { ["Pasted"] = "Thank you for the good work!" }, "form[enctype]");
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Contains("does not look like returned mail", html, StringComparison.Ordinal);
        Assert.Contains("Thank you for the good work!", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_mailbox_that_is_not_there_is_told_in_words()
    {
        await box.DisposeAsync();
        Assert.StartsWith("The mailbox could not be read", (await PollAsync()).Problem, StringComparison.Ordinal);
    }
}
