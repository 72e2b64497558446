using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

/// <summary>Whether the machine's clock may be believed. The rule: in a running program the clock may not run ahead of the
/// machine's own steady counter by more than a day (a clock that was set, a dead battery, or a machine that slept); between two
/// runs it may not go ahead by more than 60 days, for so long a program may simply have been off. Past that, automatic mail waits
/// until the clock is set back or a person says that it is right.</summary>
public sealed class ClockWatch(TimeProvider clock)
{
    public static readonly TimeSpan Jump = TimeSpan.FromHours(24);
    public static readonly TimeSpan LongestOff = TimeSpan.FromDays(60);

    private readonly Lock _lock = new();
    private (DateTime Wall, long Steady)? _believed;

    /// <summary>Looks at the clock, and says why mail must wait; empty when it need not.</summary>
    public async Task<string> TickAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var gate = await db.OutboxGates.AsNoTracking().SingleAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        var why = Judge(gate.LastTickUtc, now);
        var tick = why.Length == 0 ? now : gate.LastTickUtc;
        if (tick != gate.LastTickUtc || why != gate.HeldWhy)
            await db.WriteAsync(() => db.OutboxGates.Where(g => g.Id == gate.Id).ExecuteUpdateAsync(
                s => s.SetProperty(g => g.LastTickUtc, tick).SetProperty(g => g.HeldWhy, why), cancel), cancel);
        return why;
    }

    /// <summary>A person says that the clock is right.</summary>
    public Task BelieveAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        lock (_lock) _believed = (now, clock.GetTimestamp());
        return db.WriteAsync(() => db.OutboxGates.ExecuteUpdateAsync(s => s.SetProperty(g => g.LastTickUtc, now).SetProperty(g => g.HeldWhy, ""), cancel), cancel);
    }

    private string Judge(DateTime lastTickUtc, DateTime now)
    {
        lock (_lock)
        {
            var expected = _believed is { } b ? b.Wall + clock.GetElapsedTime(b.Steady) : (DateTime?)null;
            var latest = expected > lastTickUtc ? expected.Value : lastTickUtc;
            var allowed = expected is null ? LongestOff : Jump;
            if (lastTickUtc != default && now - latest > allowed)
                return $"The clock went from {latest:yyyy-MM-dd HH:mm} to {now:yyyy-MM-dd HH:mm} UTC at once.";
            _believed = (now, clock.GetTimestamp());
            return "";
        }
    }
}
