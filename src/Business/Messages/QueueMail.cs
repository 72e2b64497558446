using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

public static class QueueMail
{
    /// <summary>Renders the letter once and adds it to the outbox without saving: the caller saves it together with what caused it.
    /// A letter whose cause was written about before is not written again; the earlier message is returned.</summary>
    /// <exception cref="FormatException">The address is not one that can be written to.</exception>
    public static async Task<OutboxMessage> AddAsync(OfficeDb db, MailIdentity from, DateTime nowUtc, Letter letter, CancellationToken cancel = default)
    {
        var earlier = db.Outbox.Local.FirstOrDefault(m => m.Key == letter.Key) ?? await db.Outbox.FirstOrDefaultAsync(m => m.Key == letter.Key, cancel);
        if (earlier is not null) return earlier;
        var (mime, messageId) = Render(db, from, nowUtc, letter);
        var message = new OutboxMessage
        {
            Key = letter.Key,
            MessageId = messageId,
            HouseId = letter.HouseId,
            ToAddress = MailAddress.KeyOf(letter.ToAddress),
            ToName = MailAddress.OneLine(letter.ToName),
            Subject = MailAddress.OneLine(letter.Subject),
            Class = letter.Class,
            Mime = mime,
            CreatedAtUtc = nowUtc,
            NextTryUtc = nowUtc,
        };
        db.Outbox.Add(message);
        return message;
    }

    /// <summary>Other words for a message that is claimed and no server has: to be saved together with the claim. It keeps its Message-ID
    /// only if no server ever saw it with the words it had.</summary>
    public static async Task<OutboxMessage> RenderAnewAsync(OfficeDb db, MailIdentity from, DateTime nowUtc, OutboxMessage message, Letter letter, CancellationToken cancel)
    {
        var id = message.Id;
        var (mime, messageId) = Render(db, from, nowUtc, letter with { Key = message.NeverHandedOver ? message.Key : $"{message.Key}:{message.Attempts}" });
        var (address, name, subject) = (MailAddress.KeyOf(letter.ToAddress), MailAddress.OneLine(letter.ToName), MailAddress.OneLine(letter.Subject));
        await db.SaveChangesAsync(cancel);
        await db.Outbox.Where(m => m.Id == id).ExecuteUpdateAsync(
            s => s.SetProperty(m => m.Mime, mime).SetProperty(m => m.MessageId, messageId).SetProperty(m => m.ToAddress, address).SetProperty(m => m.ToName, name)
                .SetProperty(m => m.Subject, subject).SetProperty(m => m.Version, m => m.Version + 1), cancel);
        return await db.Outbox.AsNoTracking().SingleAsync(m => m.Id == id, cancel);
    }

    private static (byte[] Mime, string MessageId) Render(OfficeDb db, MailIdentity from, DateTime nowUtc, Letter letter) =>
        RenderMail.Bytes(from, nowUtc, letter, letter.Class == MailClass.Work ? null : from.Link($"unsubscribe/{AddUnsubscribeLink(db, nowUtc, letter)}"));

    private static string AddUnsubscribeLink(OfficeDb db, DateTime nowUtc, Letter letter)
    {
        var (token, hash) = PrivateLink.Make();
        db.UnsubscribeLinks.Add(new UnsubscribeLink { TokenHash = hash, Address = MailAddress.KeyOf(letter.ToAddress), Class = letter.Class, CreatedAtUtc = nowUtc });
        return token;
    }
}
