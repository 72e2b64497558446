using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using static MitigationOffice.Web.Tests.Messages.MailVerbs;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>Without a server mail is written as files; the daily cap and the clock hold it back.</summary>
public sealed class MailLimitsTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync()
    {
        office.Settings["Mail:DailyCap"] = "3";
        return office.InitializeAsync();
    }

    public Task DisposeAsync() => office.DisposeAsync();

    [Fact]
    public async Task Without_a_server_the_message_is_a_file_that_a_second_library_reads()
    {
        var id = await office.QueueLetterAsync(ALetter("file"));
        await office.SendOutboxAsync();
        var message = await office.MessageAsync(id);
        Assert.Equal(DeliveryState.Sent, message.State);
        Assert.Contains("Written to the file", message.LastAnswer, StringComparison.Ordinal);
        Assert.Equal(message.MessageId, Assert.Single(office.MailTo("reader@wren.example")).MessageId);
        Assert.Empty(Directory.GetFiles(Path.Combine(office.Folder, "mail"), "*.partial"));
    }

    [Fact]
    public async Task No_more_than_the_cap_in_a_day_but_work_mail_is_not_held_back()
    {
        for (var i = 0; i < 5; i++) await office.QueueLetterAsync(ALetter($"cap {i}", kind: MailClass.Upkeep));
        await office.QueueLetterAsync(ALetter("work"));
        var round = await office.SendOutboxAsync();
        Assert.Equal(4, round.Sent);
        Assert.Contains("the rest waits", round.Stopped, StringComparison.Ordinal);
        office.Clock.Advance(TimeSpan.FromHours(12));
        Assert.Equal(0, (await office.SendOutboxAsync()).Sent);
        office.Clock.Advance(TimeSpan.FromHours(13));
        Assert.Equal(2, (await office.SendOutboxAsync()).Sent);
    }

    [Fact]
    public async Task A_clock_that_jumps_ten_years_holds_mail_until_it_is_set_back()
    {
        var set = new SetClock(office.Clock);
        var watch = new ClockWatch(set);
        await SendByAsync(set, watch);
        var id = await office.QueueLetterAsync(ALetter("jump"));
        set.Ahead = TimeSpan.FromDays(3653);
        Assert.Contains("at once", (await SendByAsync(set, watch)).Stopped, StringComparison.Ordinal);
        office.Clock.Advance(TimeSpan.FromMinutes(5));
        Assert.Contains("at once", (await SendByAsync(set, watch)).Stopped, StringComparison.Ordinal);
        Assert.Equal(DeliveryState.Waiting, (await office.MessageAsync(id)).State);
        set.Ahead = TimeSpan.Zero;
        Assert.Equal(1, (await SendByAsync(set, watch)).Sent);
    }

    [Fact]
    public async Task Or_until_a_person_says_that_it_is_right()
    {
        var set = new SetClock(office.Clock);
        var watch = new ClockWatch(set);
        await SendByAsync(set, watch);
        await office.QueueLetterAsync(ALetter("jump"));
        set.Ahead = TimeSpan.FromDays(3);
        Assert.Equal(0, (await SendByAsync(set, watch)).Sent);
        await office.WithDbAsync(db => watch.BelieveAsync(db));
        Assert.Equal(1, (await SendByAsync(set, watch)).Sent);
    }

    /// <summary>A clock that was set by hand: the machine's steady counter knows nothing of it.</summary>
    private sealed class SetClock(TimeProvider steady) : TimeProvider
    {
        public TimeSpan Ahead { get; set; }
        public override long TimestampFrequency => steady.TimestampFrequency;
        public override DateTimeOffset GetUtcNow() => steady.GetUtcNow() + Ahead;
        public override long GetTimestamp() => steady.GetTimestamp();
    }

    private Task<OutboxRound> SendByAsync(SetClock clock, ClockWatch watch) => office.WithDbAsync(db => new SendOutbox(
        db, office.Services.GetRequiredService<MailSettings>(), office.Services.GetRequiredService<MailFolder>(), watch, [], clock).RunAsync());

    [Theory]
    [InlineData(59, 1)]
    [InlineData(61, 0)]
    public async Task A_program_that_was_off_for_up_to_sixty_days_goes_on(int days, int sent)
    {
        await office.SendOutboxAsync();
        await office.QueueLetterAsync(ALetter("off"));
        office.Clock.Advance(TimeSpan.FromDays(days));
        await office.RestartAsync();
        Assert.Equal(sent, (await office.SendOutboxAsync()).Sent);
    }

    [Fact]
    public async Task A_running_program_is_not_held_by_time_that_simply_passes()
    {
        await office.SendOutboxAsync();
        await office.QueueLetterAsync(ALetter("slow"));
        office.Clock.Advance(TimeSpan.FromDays(400));
        Assert.Equal(1, (await office.SendOutboxAsync()).Sent);
    }
}
