using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Endurance;

/// <param name="Listed">The messages listed as uncertain after the last kill, and whether the server had them by then.</param>
public sealed record RunFigures(
    string Where, int Messages, IReadOnlyDictionary<string, int> KilledAt, IReadOnlyDictionary<string, bool> Listed, TimeSpan Filled, TimeSpan Took);

/// <summary>What the run came to, in lines to print.</summary>
public sealed record Finding(bool Good, IReadOnlyList<string> Lines);

/// <summary>Holds what the office believes against what the server kept.</summary>
public static class CountRun
{
    private sealed record Row(string MessageId, string Address, DeliveryState State, bool Resent);

    /// <summary>The Message-IDs that the office lists as uncertain.</summary>
    public static async Task<IReadOnlyCollection<string>> UncertainAsync(OfficeDb db) =>
        [.. await db.Outbox.Where(m => m.State == DeliveryState.Uncertain || m.ResentAtUtc != null).Select(m => m.MessageId).ToListAsync()];

    public static async Task<Finding> ReadAsync(OfficeDb db, ScriptedServer[] servers, RunFigures run)
    {
        var rows = await db.Outbox.AsNoTracking().Select(m => new Row(m.MessageId, m.ToAddress, m.State, m.ResentAtUtc != null)).ToListAsync();
        var kept = servers.SelectMany(s => s.Kept).ToLookup(k => k.Key, k => k.Value, StringComparer.Ordinal);
        int Copies(string id) => kept[id].Sum(bag => bag.Count);
        var reminders = await db.Reminders.AsNoTracking().Where(r => r.SendOn <= DateOnly.FromDateTime(KillRun.Begin)).Select(r => new
        {
            r.State,
            Mail = db.Outbox.Where(m => m.Id == r.OutboxMessageId).Select(m => (DeliveryState?)m.State).FirstOrDefault(),
        }).ToListAsync();

        var lost = rows.Count(r => r.State == DeliveryState.Sent && Copies(r.MessageId) == 0);
        var stuck = rows.Count(r => r.State is DeliveryState.Waiting or DeliveryState.Claimed);
        var silent = rows.Count(r => Copies(r.MessageId) > 1 && !r.Resent);
        var refusedYetKept = rows.Count(r => r.State is DeliveryState.Refused or DeliveryState.Suppressed && Copies(r.MessageId) > 0);
        var changed = kept.Count(k => k.SelectMany(b => b).Distinct(StringComparer.Ordinal).Count() > 1);
        var strangers = kept.Count(k => rows.TrueForAll(r => r.MessageId != k.Key));
        var twoOfOne = rows.Count - rows.DistinctBy(r => r.Address).Count();
        var unplanned = run.Messages - reminders.Count;
        var unsettled = reminders.Count(r => r.Mail is null || (r.State == ReminderState.Sent) != (r.Mail == DeliveryState.Sent));
        var damaged = await DamageAsync(db);
        (string Name, int Count)[] wrong =
        [
            ("lost", lost), ("left waiting", stuck), ("silent duplicates", silent), ("called refused but kept", refusedYetKept), ("bytes that changed between tries", changed),
            ("kept without being in the outbox", strangers), ("reminders with two messages", twoOfOne), ("reminders not planned", unplanned), ("reminders that disagree with their message", unsettled),
            ("damage found in the database", damaged),
        ];
        var kills = run.KilledAt.Values.Sum();
        List<string> lines =
        [
            $"{run.Where}: {run.Messages} messages, {kills} kills ({string.Join(", ", run.KilledAt.OrderBy(k => k.Key, StringComparer.Ordinal).Select(k => $"{k.Key} {k.Value}"))}), {run.Took.TotalSeconds:0} s, of which {run.Filled.TotalSeconds:0} s to fill the office",
            $"server: {string.Join(", ", servers.SelectMany(s => s.Fates).GroupBy(f => f.Key).OrderBy(f => f.Key).Select(f => $"{f.Key} {f.Sum(x => x.Value)}"))}",
            $"outbox at the end: {string.Join(", ", rows.GroupBy(r => r.State).OrderBy(g => g.Key).Select(g => $"{g.Key} {g.Count()}"))}",
            $"uncertain and listed: {run.Listed.Count}, of which the server had {run.Listed.Values.Count(had => had)} by then; sent once more by the rule: {rows.Count(r => r.Resent)}; arrived twice, each of them listed: {rows.Count(r => Copies(r.MessageId) > 1 && run.Listed.ContainsKey(r.MessageId))}",
            string.Join(", ", wrong.Select(w => $"{w.Count} {w.Name}")),
        ];
        return new(wrong.All(w => w.Count == 0), lines);
    }

    private static async Task<int> DamageAsync(OfficeDb db)
    {
        if (!db.Database.IsSqlite()) return 0;
        var said = await db.Database.SqlQueryRaw<string>("PRAGMA integrity_check").ToListAsync();
        return said is ["ok"] ? 0 : said.Count;
    }
}
