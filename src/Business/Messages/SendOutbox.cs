using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

/// <summary>What one round did.</summary>
public sealed record OutboxRound(int Sent, int Later, int Refused, int Uncertain, int Suppressed, string Stopped);

/// <summary>Sends what waits in the outbox. May run twice at once or be killed at any instant: a message is claimed before it is
/// given over, so that none is lost and none goes out twice unseen.</summary>
public sealed class SendOutbox(OfficeDb db, MailSettings mail, MailFolder folder, ClockWatch watch, IEnumerable<IClaimCheck> checks, TimeProvider clock)
{
    /// <summary>A claim says for so long that its holder lives; while a server is slow to answer it is renewed. One that lapses while
    /// its holder lives after all does no harm: the message counts as uncertain until the holder writes the answer down.</summary>
    public static readonly TimeSpan ClaimFor = TimeSpan.FromMinutes(2);

    public static readonly TimeSpan RenewEvery = TimeSpan.FromSeconds(30);

    private static readonly TimeSpan OnceMoreAfter = TimeSpan.FromHours(24);
    private const int MostAtOnce = 200;
    private readonly string _me = $"{Environment.MachineName}/{Environment.ProcessId}/{PrivateLink.Make().Hash[..8]}";

    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task<OutboxRound> RunAsync(CancellationToken cancel = default)
    {
        var held = await watch.TickAsync(db, cancel);
        await GiveUpClaimsAsync(Now, cancel);
        var suppressed = await SuppressAsync(cancel);
        var paused = await db.OutboxGates.AsNoTracking().Where(g => g.PausedUntilUtc > Now).Select(g => g.PausedWhy).FirstOrDefaultAsync(cancel);
        if (held.Length > 0 || paused is not null) return new OutboxRound(0, 0, 0, 0, suppressed, held.Length > 0 ? held : paused!);
        await using var door = Door();
        return await RoundAsync(door, suppressed, cancel);
    }

    /// <summary>After a restart on a folder that only this program uses, no claim is anyone's any more.</summary>
    public Task GiveUpAllClaimsAsync(CancellationToken cancel = default) => GiveUpClaimsAsync(DateTime.MaxValue, cancel);

    private IMailDoor Door() => mail.HasServer ? new SmtpDoor(mail) : folder;

    private async Task<OutboxRound> RoundAsync(IMailDoor door, int suppressed, CancellationToken cancel)
    {
        var said = new List<DoorSaid>();
        var room = mail.DailyCap - await SentLatelyAsync(cancel);
        var stopped = "";
        foreach (var (id, kind) in await DueAsync(cancel))
        {
            if (cancel.IsCancellationRequested) break;
            if (kind != MailClass.Work && room-- <= 0)
            {
                stopped = $"{mail.DailyCap} messages went out in 24 hours; the rest waits.";
                break;
            }

            if (await ClaimOrPutOffAsync(id, cancel) is not { } claimed) continue;
            var answer = await GiveOverAsync(door, claimed, cancel);
            await SettleAsync(claimed, answer);
            said.Add(answer.Said);
            if (answer.Said != DoorSaid.NotNow && !answer.StopHere) continue;
            stopped = answer.Words;
            break;
        }

        return new OutboxRound(
            said.Count(s => s == DoorSaid.Taken), said.Count(s => s is DoorSaid.Later or DoorSaid.NotNow),
            said.Count(s => s is DoorSaid.Never or DoorSaid.NoSuchAddress), said.Count(s => s == DoorSaid.NotKnown), suppressed, stopped);
    }

    /// <summary>Work mail first: a person waits for it. Uncertain ones once more after a day, never the commercial ones.</summary>
    private async Task<List<(int Id, MailClass Class)>> DueAsync(CancellationToken cancel)
    {
        var due = await db.Outbox.AsNoTracking().Where(m => m.NextTryUtc <= Now)
            .Where(m => m.State == DeliveryState.Waiting || (m.State == DeliveryState.Uncertain && m.ResentAtUtc == null && m.Class != MailClass.Commercial))
            .OrderBy(m => m.Class == MailClass.Work ? 0 : 1).ThenBy(m => m.NextTryUtc).ThenBy(m => m.Id)
            .Take(MostAtOnce).Select(m => new { m.Id, m.Class }).ToListAsync(cancel);
        return [.. due.Select(m => (m.Id, m.Class))];
    }

    private Task<int> SentLatelyAsync(CancellationToken cancel)
    {
        var since = Now.AddHours(-24);
        return db.Outbox.CountAsync(m => m.Class != MailClass.Work && m.SentAtUtc > since, cancel);
    }

    /// <summary>A message that cannot be looked at is put off with the reason; the others must not wait behind it.</summary>
    private async Task<OutboxMessage?> ClaimOrPutOffAsync(int id, CancellationToken cancel)
    {
        try
        {
            return await ClaimAsync(id, cancel);
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or FormatException or KeyNotFoundException or OverflowException)
        {
            db.ChangeTracker.Clear();
            var (later, why) = (Now.AddHours(1), Short($"Not sent yet, for it could not be held against its facts: {e.Message}"));
            await db.Outbox.Where(m => m.Id == id && (m.State == DeliveryState.Waiting || m.State == DeliveryState.Uncertain)).ExecuteUpdateAsync(
                s => s.SetProperty(m => m.NextTryUtc, later).SetProperty(m => m.LastAnswer, why).SetProperty(m => m.Version, m => m.Version + 1), cancel);
            return null;
        }
    }

    /// <summary>One transaction: the claim, and one more look whether it still says what is true.</summary>
    private Task<OutboxMessage?> ClaimAsync(int id, CancellationToken cancel)
    {
        db.ChangeTracker.Clear();
        return db.WriteAsync(
            async () =>
            {
                var now = Now;
                var wasUncertain = await db.Outbox.AnyAsync(m => m.Id == id && m.State == DeliveryState.Uncertain, cancel);
                if (!await TakeAsync(id, now, cancel)) return null;
                var claimed = await db.Outbox.AsNoTracking().SingleAsync(m => m.Id == id, cancel);
                foreach (var check in checks)
                {
                    var verdict = await check.LookAsync(db, claimed, now, cancel);
                    if (verdict.Withdrawn.Length > 0)
                    {
                        await (claimed.MayHaveLeft ? StayUncertainAsync(id, wasUncertain, now, verdict.Withdrawn, cancel) : WithdrawAsync(claimed, verdict.Withdrawn, cancel));
                        return null;
                    }

                    if (verdict.Anew is { } anew) claimed = await QueueMail.RenderAnewAsync(db, anew.From, now, claimed, anew.Letter, cancel);
                }

                return claimed;
            },
            cancel);
    }

    /// <summary>One statement: still waiting, still due and not opted out, or not ours.</summary>
    private async Task<bool> TakeAsync(int id, DateTime now, CancellationToken cancel)
    {
        var until = now + ClaimFor;
        return await db.Outbox
            .Where(m => m.Id == id && m.NextTryUtc <= now)
            .Where(m => m.State == DeliveryState.Waiting || (m.State == DeliveryState.Uncertain && m.ResentAtUtc == null))
            .Where(m => !db.Suppressions.Any(s => s.Address == m.ToAddress && (s.Class == null || s.Class == m.Class)))
            .ExecuteUpdateAsync(s => s
                .SetProperty(m => m.ResentAtUtc, m => m.State == DeliveryState.Uncertain ? now : m.ResentAtUtc)
                .SetProperty(m => m.State, DeliveryState.Claimed)
                .SetProperty(m => m.ClaimedUntilUtc, until)
                .SetProperty(m => m.ClaimedBy, _me)
                .SetProperty(m => m.Attempts, m => m.Attempts + 1)
                .SetProperty(m => m.Version, m => m.Version + 1), cancel) == 1;
    }

    /// <summary>Not sent, and no longer the message of its cause: should that come true again, another is written.</summary>
    private Task<int> WithdrawAsync(OutboxMessage claimed, string why, CancellationToken cancel)
    {
        var key = string.Create(CultureInfo.InvariantCulture, $"{claimed.Key}:withdrawn:{claimed.Id}");
        return db.Outbox.Where(m => m.Id == claimed.Id).ExecuteUpdateAsync(
            s => s
                .SetProperty(m => m.Key, key)
                .SetProperty(m => m.State, DeliveryState.Suppressed)
                .SetProperty(m => m.ClaimedUntilUtc, (DateTime?)null)
                .SetProperty(m => m.Attempts, m => m.Attempts - 1)
                .SetProperty(m => m.LastAnswer, Short($"Not sent: {why}"))
                .SetProperty(m => m.Version, m => m.Version + 1), cancel);
    }

    /// <summary>It may have left already, so it is not taken back; a person sees why it was not sent once more. Looked at again after a day.</summary>
    private Task<int> StayUncertainAsync(int id, bool wasUncertain, DateTime now, string why, CancellationToken cancel) =>
        db.Outbox.Where(m => m.Id == id).ExecuteUpdateAsync(
            s => s
                .SetProperty(m => m.State, DeliveryState.Uncertain)
                .SetProperty(m => m.ResentAtUtc, m => wasUncertain ? null : m.ResentAtUtc)
                .SetProperty(m => m.ClaimedUntilUtc, (DateTime?)null)
                .SetProperty(m => m.NextTryUtc, now + OnceMoreAfter)
                .SetProperty(m => m.Attempts, m => m.Attempts - 1)
                .SetProperty(m => m.LastAnswer, Short($"It may have arrived, and was not sent once more: {why}"))
                .SetProperty(m => m.Version, m => m.Version + 1), cancel);

    private async Task<DoorAnswer> GiveOverAsync(IMailDoor door, OutboxMessage claimed, CancellationToken cancel)
    {
        using var answered = new CancellationTokenSource();
        var answer = door.SendAsync(claimed.Id, claimed.Subject, claimed.Mime, cancel);
        while (await Task.WhenAny(answer, Task.Delay(RenewEvery, clock, answered.Token)) != answer) await RenewAsync(claimed.Id);
        await answered.CancelAsync();
        return await answer;
    }

    private async Task RenewAsync(int id)
    {
        var until = Now + ClaimFor;
        try
        {
            await db.WriteAsync(() => db.Outbox.Where(m => m.Id == id && m.ClaimedBy == _me && m.State == DeliveryState.Claimed)
                .ExecuteUpdateAsync(s => s.SetProperty(m => m.ClaimedUntilUtc, until)));
        }
        catch (Exception e) when (e is DbException or TimeoutException or InvalidOperationException)
        {
            // The database is away for a moment. The server's answer is still to come, and is worth waiting for.
        }
    }

    private async Task SettleAsync(OutboxMessage claimed, DoorAnswer answer)
    {
        await db.WriteAsync(async () =>
        {
            await WriteAnswerAsync(claimed, answer);
            if (answer.Said == DoorSaid.NoSuchAddress)
                db.Suppressions.Add(new Suppression { Address = claimed.ToAddress, AtUtc = Now, Why = $"The mail server refused the address: {Short(answer.Words)}" });
            if (answer.Said == DoorSaid.NotNow)
                await db.OutboxGates.ExecuteUpdateAsync(s => s.SetProperty(g => g.PausedUntilUtc, Now.AddMinutes(15)).SetProperty(g => g.PausedWhy, Short(answer.Words)));
            await db.SaveChangesAsync(CancellationToken.None);
        });
    }

    private Task<int> WriteAnswerAsync(OutboxMessage claimed, DoorAnswer answer)
    {
        var state = Retry.StateAfter(claimed, answer.Said, Now);
        var sentAt = state == DeliveryState.Sent ? Now : (DateTime?)null;
        var next = state == DeliveryState.Uncertain ? Now + OnceMoreAfter : Now + Retry.Wait(claimed.Id, claimed.Attempts);
        // Another process may have written it off as uncertain while the server was slow: the answer is better than not knowing.
        return db.Outbox.Where(m => m.Id == claimed.Id && m.ClaimedBy == _me && (m.State == DeliveryState.Claimed || m.State == DeliveryState.Uncertain))
            .ExecuteUpdateAsync(s => s
                .SetProperty(m => m.State, state)
                .SetProperty(m => m.SentAtUtc, sentAt)
                .SetProperty(m => m.NextTryUtc, next)
                .SetProperty(m => m.ClaimedUntilUtc, (DateTime?)null)
                .SetProperty(m => m.LastAnswer, Short(answer.Words))
                .SetProperty(m => m.Version, m => m.Version + 1));
    }

    private Task<int> SuppressAsync(CancellationToken cancel) => db.WriteAsync(() => db.Outbox
        .Where(m => m.State == DeliveryState.Waiting && db.Suppressions.Any(s => s.Address == m.ToAddress && (s.Class == null || s.Class == m.Class)))
        .ExecuteUpdateAsync(s => s
            .SetProperty(m => m.State, DeliveryState.Suppressed)
            .SetProperty(m => m.LastAnswer, "Not sent: this address is not to be written to.")
            .SetProperty(m => m.Version, m => m.Version + 1), cancel), cancel);

    /// <summary>A claim whose holder is gone: the message may have left, so it is not simply sent again.</summary>
    private Task<int> GiveUpClaimsAsync(DateTime claimedBefore, CancellationToken cancel)
    {
        var next = Now + OnceMoreAfter;
        return db.WriteAsync(() => db.Outbox
            .Where(m => m.State == DeliveryState.Claimed && m.ClaimedUntilUtc < claimedBefore)
            .ExecuteUpdateAsync(s => s
                .SetProperty(m => m.State, DeliveryState.Uncertain)
                .SetProperty(m => m.NextTryUtc, next)
                .SetProperty(m => m.LastAnswer, "The program stopped while this was being sent.")
                .SetProperty(m => m.Version, m => m.Version + 1), cancel), cancel);
    }

    private static string Short(string words) => MailAddress.OneLine(words) is { Length: > 400 } long_ ? long_[..400] : MailAddress.OneLine(words);
}
