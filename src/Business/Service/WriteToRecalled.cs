using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Service;

/// <summary>Writes to every house of a recall that was not written to yet: by mail where there is an address, else a letter on paper
/// that is kept and printed. Each house once, however often this runs.</summary>
public static class WriteToRecalled
{
    public sealed record Result(int Mailed, int Printed);

    public static async Task<Result> RunAsync(OfficeDb db, int recallId, MailSettings mail, DateTime nowUtc, string by)
    {
        var recall = await db.FanRecalls.AsNoTracking().SingleAsync(r => r.Id == recallId);
        var company = await db.Company.AsNoTracking().SingleAsync();
        var (mailed, printed) = (0, 0);
        foreach (var row in (await RecallList.ReadAsync(db, recall)).Where(r => r.WrittenAtUtc is null))
        {
            db.ChangeTracker.Clear();
            if (await WriteOneAsync(db, recall, row, company, mail, nowUtc, by) is not { } byMail) continue;
            if (byMail) mailed++;
            else printed++;
        }

        return new(mailed, printed);
    }

    /// <summary>Notice and message change in one transaction; null where somebody else wrote in the same moment.</summary>
    private static async Task<bool?> WriteOneAsync(OfficeDb db, FanRecall recall, RecallList.Row row, CompanyProfile company, MailSettings mail, DateTime nowUtc, string by)
    {
        try
        {
            return await db.WriteAsync<bool?>(async () =>
            {
                if (await db.RecallNotices.AnyAsync(n => n.FanRecallId == recall.Id && n.SystemComponentId == row.ComponentId)) return null;
                var notice = new RecallNotice { FanRecallId = recall.Id, SystemComponentId = row.ComponentId, HouseId = row.HouseId, AtUtc = nowUtc, By = by };
                var byMail = MailAddress.IsUsable(row.Email);
                if (byMail)
                {
                    var letter = new Letter($"recall:{recall.Id}:{row.ComponentId}", MailClass.Work, row.Email, row.For, $"Your radon fan {recall.Model}: please read", RecallLetter.Words(recall, row, company)) { HouseId = row.HouseId };
                    var message = await QueueMail.AddAsync(db, Letterhead.Of(company, mail), nowUtc, letter);
                    await db.SaveChangesAsync();
                    notice.OutboxMessageId = message.Id;
                }
                else
                {
                    var paper = StoredDocument.Of(RecallLetter.Paper(recall, row, company, nowUtc), PaperKind.RecallLetter, $"Letter about fan {recall.Model}", $"fan-recall-{recall.Id}-{row.ComponentId}.pdf", "application/pdf", row.HouseId, nowUtc, by);
                    db.Documents.Add(paper);
                    await db.SaveChangesAsync();
                    notice.LetterDocumentId = paper.Id;
                }

                db.RecallNotices.Add(notice);
                await db.SaveChangesAsync();
                return byMail;
            });
        }
        catch (DbUpdateException)
        {
            db.ChangeTracker.Clear();
            return null;
        }
    }
}
