using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages.Returned;

/// <summary>What follows from mail that came back. Only a report that names a message of ours and the address it went to has
/// consequences: anyone can write to a mailbox.</summary>
public static class TakeReturn
{
    /// <summary>So many soft failures within <see cref="Within"/> and the address is not written to any more.</summary>
    public const int SoftUntilStopped = 3;

    public static readonly TimeSpan Within = TimeSpan.FromDays(30);

    /// <summary>The rows that were written; those known from before are left out.</summary>
    public static Task<List<ReturnedMail>> RunAsync(OfficeDb db, byte[] raw, IReadOnlyList<ReturnReport> reports, string way, DateTime nowUtc, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        var taken = new List<ReturnedMail>();
        foreach (var report in reports)
        {
            var key = KeyOf(raw, report);
            if (taken.Exists(t => t.Key == key) || await db.ReturnedMail.AnyAsync(r => r.Key == key, cancel)) continue;
            var row = await RowAsync(db, key, report, way, nowUtc, cancel);
            db.ReturnedMail.Add(row);
            if (row.Kind is ReturnKind.Hard or ReturnKind.Soft) await ComeBackAsync(db, row, nowUtc, cancel);
            await db.SaveChangesAsync(cancel);
            taken.Add(row);
        }

        return taken;
    }, cancel);

    private static async Task<ReturnedMail> RowAsync(OfficeDb db, string key, ReturnReport report, string way, DateTime nowUtc, CancellationToken cancel)
    {
        var ids = report.MessageIds.ToList();
        var message = ids.Count == 0 ? null : await db.Outbox.AsNoTracking().Where(m => ids.Contains(m.MessageId)).OrderBy(m => m.Id).FirstOrDefaultAsync(cancel);
        var ours = message is not null && report.Recipients.Contains(message.ToAddress, StringComparer.Ordinal);
        return new ReturnedMail
        {
            Key = key,
            ReceivedAtUtc = nowUtc,
            Kind = ours ? report.Kind : ReturnKind.NotOurs,
            OutboxMessageId = message?.Id,
            Address = ours ? message!.ToAddress : report.Recipients.Count > 0 ? report.Recipients[0] : "",
            Status = report.Status,
            Words = message is not null && !ours ? $"Names another address than we wrote to. {report.Words}" : report.Words,
            Way = way,
        };
    }

    private static async Task ComeBackAsync(OfficeDb db, ReturnedMail row, DateTime nowUtc, CancellationToken cancel)
    {
        var message = await db.Outbox.SingleAsync(m => m.Id == row.OutboxMessageId, cancel);
        var words = $"Came back{(row.Status.Length > 0 ? $" ({row.Status})" : "")}: {row.Words}".TrimEnd(' ', ':');
        if (message.State is DeliveryState.Sent or DeliveryState.Uncertain) (message.State, message.LastAnswer) = (DeliveryState.Refused, words);
        if (row.Kind == ReturnKind.Hard) await StopAsync(db, row.Address, $"Mail to it came back{(row.Status.Length > 0 ? $" ({row.Status})" : "")}: {row.Words}", nowUtc, cancel);
        else if (await SoftBeforeAsync(db, row.Address, nowUtc, cancel) + 1 >= SoftUntilStopped)
            await StopAsync(db, row.Address, $"Mail to it came back {SoftUntilStopped} times in {Within.TotalDays:0} days; the last time: {row.Words}", nowUtc, cancel);
    }

    private static Task<int> SoftBeforeAsync(OfficeDb db, string address, DateTime nowUtc, CancellationToken cancel)
    {
        var since = nowUtc - Within;
        return db.ReturnedMail.CountAsync(r => r.Address == address && r.Kind == ReturnKind.Soft && r.ReceivedAtUtc > since, cancel);
    }

    private static async Task StopAsync(OfficeDb db, string address, string why, DateTime nowUtc, CancellationToken cancel)
    {
        if (!await db.Suppressions.AnyAsync(s => s.Address == address && s.Class == null, cancel))
            db.Suppressions.Add(new Suppression { Address = address, AtUtc = nowUtc, Why = why });
    }

    private static string KeyOf(byte[] raw, ReturnReport report) =>
        Convert.ToHexStringLower(SHA256.HashData([.. SHA256.HashData(raw), .. Encoding.UTF8.GetBytes(string.Join('|', report.Recipients))]));
}
