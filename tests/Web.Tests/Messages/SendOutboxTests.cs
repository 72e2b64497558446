using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using SmtpServer.Protocol;
using static MitigationOffice.Web.Tests.Messages.MailVerbs;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>An office whose mail goes to a server that answers as the test says.</summary>
public sealed class OfficeWithServer : OfficeApp
{
    public MailSink Sink { get; } = new();

    public override async Task InitializeAsync()
    {
        Settings["Mail:Host"] = "127.0.0.1";
        Settings["Mail:Port"] = $"{Sink.Port}";
        Settings.TryAdd("PublicAddress", "https://office.lanternridge.example");
        await base.InitializeAsync();
    }

    public override async Task DisposeAsync()
    {
        await base.DisposeAsync();
        await Sink.DisposeAsync();
    }
}

public sealed class SendOutboxTests : IAsyncLifetime
{
    private readonly OfficeWithServer office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    [Fact]
    public async Task A_message_taken_with_250_is_sent_once()
    {
        var id = await office.QueueLetterAsync(ALetter("one"));
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
        Assert.Equal(0, (await office.SendOutboxAsync()).Sent);
        var message = await office.MessageAsync(id);
        Assert.Equal(DeliveryState.Sent, message.State);
        Assert.NotNull(message.SentAtUtc);
        var taken = Assert.Single(office.Sink.Taken);
        Assert.Equal(message.MessageId, taken.MessageId);
        Assert.Contains("0.9 inWC", taken.TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_cause_is_written_once()
    {
        Assert.Equal(await office.QueueLetterAsync(ALetter("cause")), await office.QueueLetterAsync(ALetter("cause")));
        Assert.Equal(1, await office.WithDbAsync(db => db.Outbox.CountAsync()));
    }

    [Fact]
    public async Task A_451_waits_longer_each_time_and_is_given_up_after_five_days()
    {
        office.Sink.ToText = _ => new SmtpResponse((SmtpReplyCode)451, "4.3.0 try later");
        var id = await office.QueueLetterAsync(ALetter("later"));
        var waits = new List<double>();
        for (var tries = 0; tries < 60; tries++)
        {
            await office.SendOutboxAsync();
            var message = await office.MessageAsync(id);
            if (message.State == DeliveryState.Refused) break;
            Assert.Equal(DeliveryState.Waiting, message.State);
            waits.Add((message.NextTryUtc - office.Clock.GetUtcNow().UtcDateTime).TotalMinutes);
            Assert.Equal(0, (await office.SendOutboxAsync()).Later);
            office.Clock.SetUtcNow(message.NextTryUtc);
        }

        Assert.Contains("4.3.0", (await office.MessageAsync(id)).LastAnswer, StringComparison.Ordinal);
        Assert.Equal(DeliveryState.Refused, (await office.MessageAsync(id)).State);
        Assert.InRange(waits[0], 30, 36);
        Assert.InRange(waits[1], 60, 72);
        Assert.InRange(waits[^1], 240, 288);
        Assert.InRange(waits.Sum(), 5 * 1440 - 1, 5 * 1440 + 300);
        Assert.Empty(office.Sink.Taken);
    }

    [Fact]
    public async Task A_550_at_the_address_is_refused_and_the_address_is_not_written_to_again()
    {
        office.Sink.ToAddress = _ => new SmtpResponse(SmtpReplyCode.MailboxUnavailable, "5.1.1 no such user");
        var id = await office.QueueLetterAsync(ALetter("gone", "Gone@wren.example"));
        Assert.Equal(1, (await office.SendOutboxAsync()).Refused);
        Assert.Equal(DeliveryState.Refused, (await office.MessageAsync(id)).State);
        office.Sink.ToAddress = _ => null;
        var next = await office.QueueLetterAsync(ALetter("gone again", "gone@WREN.example"));
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Suppressed, (await office.MessageAsync(next)).State);
        Assert.Empty(office.Sink.Taken);
    }

    [Fact]
    public async Task A_550_for_a_policy_refuses_the_message_but_not_the_address()
    {
        office.Sink.ToText = _ => new SmtpResponse(SmtpReplyCode.MailboxUnavailable, "5.7.1 looks like advertising");
        var id = await office.QueueLetterAsync(ALetter("policy"));
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Refused, (await office.MessageAsync(id)).State);
        Assert.Equal(0, await office.WithDbAsync(db => db.Suppressions.CountAsync()));
    }

    [Fact]
    public async Task A_421_pauses_the_whole_queue_for_a_quarter_of_an_hour()
    {
        var calls = 0;
        office.Sink.ToAddress = _ => ++calls == 1 ? new SmtpResponse((SmtpReplyCode)421, "4.7.0 slow down") : null;
        var first = await office.QueueLetterAsync(ALetter("p1", "first@wren.example"));
        var second = await office.QueueLetterAsync(ALetter("p2", "second@wren.example"));
        Assert.Contains("slow down", (await office.SendOutboxAsync()).Stopped, StringComparison.Ordinal);
        Assert.Equal(DeliveryState.Waiting, (await office.MessageAsync(first)).State);
        Assert.Equal(DeliveryState.Waiting, (await office.MessageAsync(second)).State);
        office.Clock.Advance(TimeSpan.FromMinutes(14));
        Assert.Equal(0, (await office.SendOutboxAsync()).Sent);
        Assert.Equal(1, calls);
        office.Clock.Advance(TimeSpan.FromMinutes(60));
        Assert.Equal(2, (await office.SendOutboxAsync()).Sent);
    }

    [Fact]
    public async Task A_line_cut_before_the_text_only_delays()
    {
        office.Sink.CutAtAddress = true;
        var id = await office.QueueLetterAsync(ALetter("cut early"));
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Waiting, (await office.MessageAsync(id)).State);
        office.Sink.CutAtAddress = false;
        office.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
        Assert.Single(office.Sink.Taken);
    }

    [Theory]
    [InlineData(CutServer.Place.Greeting, DeliveryState.Waiting)]
    [InlineData(CutServer.Place.AskedForText, DeliveryState.Waiting)]
    [InlineData(CutServer.Place.InsideText, DeliveryState.Uncertain)]
    [InlineData(CutServer.Place.AfterText, DeliveryState.Uncertain)]
    public async Task Where_the_line_is_cut_decides_whether_the_message_may_have_left(CutServer.Place place, DeliveryState state)
    {
        await using var server = new CutServer(place);
        var answer = await DeliverAsync(server.Port);
        Assert.Equal(state == DeliveryState.Uncertain ? DoorSaid.NotKnown : DoorSaid.Later, answer.Said);
        Assert.Equal(1, server.Conversations);
    }

    [Fact]
    public async Task A_server_that_takes_the_text_and_stays_silent_leaves_it_uncertain()
    {
        using var silent = new System.Net.Sockets.TcpListener(System.Net.IPAddress.Loopback, 0);
        silent.Start();
        var talk = Task.Run(async () =>
        {
            using var client = await silent.AcceptTcpClientAsync();
            await using var stream = client.GetStream();
            using var lines = new StreamReader(stream);
            await stream.WriteAsync("220 silent.example\r\n"u8.ToArray());
            while (await lines.ReadLineAsync() is { } line && !line.StartsWith("DATA", StringComparison.Ordinal)) await stream.WriteAsync("250 ok\r\n"u8.ToArray());
            await stream.WriteAsync("354 go on\r\n"u8.ToArray());
            await lines.ReadToEndAsync();
        });
        var answer = await DeliverAsync(((System.Net.IPEndPoint)silent.LocalEndpoint).Port, TimeSpan.FromSeconds(1));
        Assert.Equal(DoorSaid.NotKnown, answer.Said);
        await talk;
    }

    [Fact]
    public async Task A_dead_server_only_delays() => Assert.Equal(DoorSaid.Later, (await DeliverAsync(MailSink.FreePort())).Said);

    /// <summary>This server offers no TLS: away from this machine itself mail is not given over in the clear.</summary>
    [Fact]
    public async Task Without_tls_nothing_is_given_over_unless_the_machine_is_this_one_or_it_was_allowed()
    {
        await using var strict = new SmtpDoor(new MailSettings { Host = "127.0.0.1", Port = office.Sink.Port, Security = MailSecurity.StartTls });
        var refused = await strict.SendAsync(1, "s", AMessage(), CancellationToken.None);
        Assert.Equal(DoorSaid.NotNow, refused.Said);
        Assert.Empty(office.Sink.Taken);
        await using var allowed = new SmtpDoor(new MailSettings { Host = "127.0.0.1", Port = office.Sink.Port, Security = MailSecurity.None });
        Assert.Equal(DoorSaid.Taken, (await allowed.SendAsync(1, "s", AMessage(), CancellationToken.None)).Said);
    }

    [Fact]
    public async Task An_uncertain_upkeep_message_goes_once_more_after_a_day_with_the_same_id_and_then_waits_for_a_person()
    {
        office.Sink.CutAfterTaking = true;
        var id = await office.QueueLetterAsync(ALetter("unsure", kind: MailClass.Upkeep));
        Assert.Equal(1, (await office.SendOutboxAsync()).Uncertain);
        office.Clock.Advance(TimeSpan.FromHours(23));
        Assert.Equal(0, (await office.SendOutboxAsync()).Uncertain);
        office.Clock.Advance(TimeSpan.FromHours(2));
        Assert.Equal(1, (await office.SendOutboxAsync()).Uncertain);
        office.Clock.Advance(TimeSpan.FromDays(30));
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Uncertain, (await office.MessageAsync(id)).State);
        Assert.Equal(2, office.Sink.Taken.Count);
        Assert.Single(office.Sink.Taken.Select(m => m.MessageId).Distinct());
        await office.WithDbAsync(db => ResolveMail.ArrivedAsync(db, id, "Ada Quill", office.Clock.GetUtcNow().UtcDateTime));
        Assert.Equal(DeliveryState.Sent, (await office.MessageAsync(id)).State);
    }

    [Fact]
    public async Task An_uncertain_offer_is_never_sent_again_by_itself()
    {
        office.Sink.CutAfterTaking = true;
        var id = await office.QueueLetterAsync(ALetter("offer", kind: MailClass.Commercial));
        await office.SendOutboxAsync();
        for (var days = 0; days < 10; days++)
        {
            office.Clock.Advance(TimeSpan.FromDays(1));
            await office.SendOutboxAsync();
        }

        Assert.Equal(DeliveryState.Uncertain, (await office.MessageAsync(id)).State);
        Assert.Single(office.Sink.Taken);
    }

    [Fact]
    public async Task A_claim_left_by_a_program_that_was_killed_becomes_uncertain_and_is_not_simply_sent_again()
    {
        var id = await office.QueueLetterAsync(ALetter("killed"));
        var now = office.Clock.GetUtcNow().UtcDateTime;
        await office.WithDbAsync(db => db.WriteAsync(() => db.Outbox.ExecuteUpdateAsync(s => s
            .SetProperty(m => m.State, DeliveryState.Claimed).SetProperty(m => m.ClaimedBy, "a dead one").SetProperty(m => m.ClaimedUntilUtc, now.AddMinutes(15)))));
        await office.RestartAsync();
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Claimed, (await office.MessageAsync(id)).State);
        office.Clock.Advance(TimeSpan.FromMinutes(16));
        await office.SendOutboxAsync();
        var message = await office.MessageAsync(id);
        Assert.Equal(DeliveryState.Uncertain, message.State);
        Assert.Contains("stopped", message.LastAnswer, StringComparison.Ordinal);
        Assert.Empty(office.Sink.Taken);
        office.Clock.Advance(TimeSpan.FromHours(25));
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
    }

    /// <summary>Eight minutes: four times as long as one claim holds.</summary>
    [Fact]
    public async Task A_claim_is_renewed_while_the_server_is_slow_and_lapses_soon_after_its_holder_died()
    {
        var id = await office.QueueLetterAsync(ALetter("slow"));
        var (reached, answer) = (new TaskCompletionSource(), new TaskCompletionSource());
        office.Sink.ToAddress = _ =>
        {
            reached.TrySetResult();
            answer.Task.GetAwaiter().GetResult();
            return null;
        };
        var slow = Task.Run(office.SendOutboxAsync);
        await reached.Task;
        for (var beats = 0; beats < 16; beats++)
        {
            var before = (await office.MessageAsync(id)).ClaimedUntilUtc;
            office.Clock.Advance(SendOutbox.RenewEvery);
            for (var tries = 0; tries < 500 && (await office.MessageAsync(id)).ClaimedUntilUtc == before; tries++) await Task.Delay(10);
            await office.SendOutboxAsync();
            Assert.Equal(DeliveryState.Claimed, (await office.MessageAsync(id)).State);
        }

        answer.SetResult();
        Assert.Equal(1, (await slow).Sent);
        Assert.Equal(DeliveryState.Sent, (await office.MessageAsync(id)).State);
        Assert.Single(office.Sink.Taken);
    }

    [Fact]
    public async Task Two_senders_at_once_send_each_message_once()
    {
        for (var i = 0; i < 30; i++) await office.QueueLetterAsync(ALetter($"many {i}"));
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(office.SendOutboxAsync)));
        await office.SendOutboxAsync();
        Assert.Equal(30, office.Sink.Taken.Count);
        Assert.Equal(30, office.Sink.Taken.Select(m => m.MessageId).Distinct().Count());
    }

    [Fact]
    public async Task An_opt_out_while_the_message_waits_wins()
    {
        var id = await office.QueueLetterAsync(ALetter("race", kind: MailClass.Upkeep));
        var work = await office.QueueLetterAsync(ALetter("race work"));
        await office.WithDbAsync(async db => await StopWriting.ForAsync(db, await db.UnsubscribeLinks.SingleAsync(), office.Clock.GetUtcNow().UtcDateTime));
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Suppressed, (await office.MessageAsync(id)).State);
        Assert.Equal(DeliveryState.Sent, (await office.MessageAsync(work)).State);
    }

    /// <summary>The claim itself looks: opted out after the round began and before this message was claimed.</summary>
    [Fact]
    public async Task An_opt_out_in_the_middle_of_a_round_wins()
    {
        await office.QueueLetterAsync(ALetter("mid 1", "one@wren.example", MailClass.Upkeep));
        var second = await office.QueueLetterAsync(ALetter("mid 2", "two@wren.example", MailClass.Upkeep));
        office.Sink.ToAddress = _ =>
        {
            office.WithDbAsync(async db =>
            {
                db.Suppressions.Add(new Suppression { Address = "two@wren.example", Class = MailClass.Upkeep, AtUtc = office.Clock.GetUtcNow().UtcDateTime, Why = "test" });
                await db.SaveChangesAsync();
            }).GetAwaiter().GetResult();
            return null;
        };
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
        Assert.Equal("one@wren.example", Assert.Single(office.Sink.Taken).To.Mailboxes.Single().Address);
        Assert.Equal(DeliveryState.Waiting, (await office.MessageAsync(second)).State);
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Suppressed, (await office.MessageAsync(second)).State);
    }

    private static byte[] AMessage() =>
        RenderMail.Bytes(new MailIdentity("O", "o@lanternridge.example", "", "", "", new Uri("https://o.example/")), OfficeApp.Start.UtcDateTime, ALetter("direct"), null).Mime;

    private static async Task<DoorAnswer> DeliverAsync(int port, TimeSpan? patience = null)
    {
        await using var door = new SmtpDoor(new MailSettings { Host = "127.0.0.1", Port = port, AnswerTimeout = patience ?? TimeSpan.FromSeconds(20) });
        return await door.SendAsync(1, "s", AMessage(), CancellationToken.None);
    }
}
