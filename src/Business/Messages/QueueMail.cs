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
        var token = letter.Class == MailClass.Work ? null : AddUnsubscribeLink(db, nowUtc, letter);
        var (mime, messageId) = RenderMail.Bytes(from, nowUtc, letter, token is null ? null : from.Link($"unsubscribe/{token}"));
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

    private static string AddUnsubscribeLink(OfficeDb db, DateTime nowUtc, Letter letter)
    {
        var (token, hash) = PrivateLink.Make();
        db.UnsubscribeLinks.Add(new UnsubscribeLink { TokenHash = hash, Address = MailAddress.KeyOf(letter.ToAddress), Class = letter.Class, CreatedAtUtc = nowUtc });
        return token;
    }
}
