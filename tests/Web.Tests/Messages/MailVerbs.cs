using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MimeKit;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Tests.Messages;

public static class MailVerbs
{
    /// <summary>Every message is read once: a file never changes after it was written.</summary>
    private static readonly ConditionalWeakTable<OfficeApp, ConcurrentDictionary<string, MimeMessage>> Read = [];

    /// <summary>What was written as files for this address, oldest first.</summary>
    public static IReadOnlyList<MimeMessage> MailTo(this OfficeApp office, string address)
    {
        var folder = Path.Combine(office.Folder, "mail");
        if (!Directory.Exists(folder)) return [];
        var read = Read.GetOrCreateValue(office);
        return [.. Directory.GetFiles(folder, "*.eml").Order(StringComparer.Ordinal).Select(f => read.GetOrAdd(f, static path => MimeMessage.Load(path)))
            .Where(m => m.To.Mailboxes.Any(t => t.Address.Equals(address, StringComparison.OrdinalIgnoreCase)))];
    }

    public static Task<OutboxRound> SendOutboxAsync(this OfficeApp office) => office.WithAsync<SendOutbox, OutboxRound>(send => send.RunAsync());

    /// <summary>Writes a letter into the outbox as the office's acts do; returns its number.</summary>
    public static Task<int> QueueLetterAsync(this OfficeApp office, Letter letter) => office.WithDbAsync(async db =>
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var message = await QueueMail.AddAsync(db, Letterhead.Of(company, office.Services.GetRequiredService<MailSettings>()), office.Clock.GetUtcNow().UtcDateTime, letter);
        await db.SaveChangesAsync();
        return message.Id;
    });

    public static Letter ALetter(string key, string to = "reader@wren.example", MailClass kind = MailClass.Work) =>
        new(key, kind, to, "Reader Wren", "About your house", "Dear reader,\n\nthe gauge reads 0.9 inWC.\nAll is well.\n\nThe office") { Automatic = kind != MailClass.Work };

    public static Task<OutboxMessage> MessageAsync(this OfficeApp office, int id) => office.WithDbAsync(db => db.Outbox.AsNoTracking().SingleAsync(m => m.Id == id));
}
