using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>What is printed: which reminders, on which labels (none: no labels), from which label of the first sheet on.</summary>
public sealed record LetterOrder(IReadOnlyCollection<int> ReminderIds, LabelSheet? Labels, int FirstLabel, string By);

/// <summary>Prints due reminders that do not go by e-mail as letters, one file a run. Printed is not posted: that somebody says later.</summary>
public static class MakeLetters
{
    public const int Most = 500;

    private const int MostTries = 5;

    private const string MeanwhileDone = "These were printed or settled by somebody else meanwhile. Look at the list again.";

    /// <summary>The run, or the sentence why there is none.</summary>
    public static async Task<(LetterRun? Run, string Refusal)> RunAsync(OfficeDb db, LetterOrder order, MailSettings mail, DateTime nowUtc)
    {
        for (var tries = 1; ; tries++)
        {
            try
            {
                return await WriteAsync(db, order, mail, nowUtc);
            }
            catch (DbUpdateConcurrencyException) when (tries < MostTries)
            {
                // Somebody else printed or settled one of them in the same moment: what is left is printed.
                db.ChangeTracker.Clear();
            }
        }
    }

    private static Task<(LetterRun? Run, string Refusal)> WriteAsync(OfficeDb db, LetterOrder order, MailSettings mail, DateTime nowUtc) => db.WriteAsync<(LetterRun?, string)>(async () =>
    {
        if (order.ReminderIds.Count is 0 or > Most) return (null, order.ReminderIds.Count == 0 ? "Tick at least one letter." : $"Print at most {Most} letters in one run.");
        var company = await db.Company.AsNoTracking().SingleAsync();
        var today = HouseTime.DayOf(nowUtc, HouseTime.Zone(company.TimeZone));
        var rules = await db.ReminderRules.AsNoTracking().ToDictionaryAsync(r => r.Code, StringComparer.Ordinal);
        var may = (await DueReminder.ReadAsync(db, company, rules, today, order.ReminderIds)).Where(d => d.ByHand && d.MayPost).ToDictionary(d => d.Id);
        if (may.Count == 0) return (null, MeanwhileDone);
        var ids = may.Keys.ToList();
        // Read again, so asked again: between the two somebody else may have printed them. What is printed after this is found by its version.
        var reminders = await db.Reminders.Where(r => ids.Contains(r.Id) && (r.State == ReminderState.Planned || r.State == ReminderState.Queued)).OrderBy(r => r.DueOn).ThenBy(r => r.Id).ToListAsync();
        if (reminders.Count == 0) return (null, MeanwhileDone);
        var readers = await ReminderLetter.ReadersAsync(db, reminders.Select(r => r.HouseId), company);
        var from = Letterhead.Of(company, mail);
        var envelopes = reminders.GroupBy(r => (House: r.HouseId!.Value, Class: ReminderLetter.ClassOf(rules[r.RuleCode])))
            .Select(g => (Said: g.ToList(), Letter: Letter(db, [.. g.Select(r => new RuledReminder(r, rules[r.RuleCode]))], readers[g.Key.House], company, from, nowUtc))).ToList();
        var letters = envelopes.ConvertAll(e => e.Letter);
        var run = new LetterRun { MadeAtUtc = nowUtc, MadeBy = order.By, Letters = letters.Count, PdfDocumentId = await KeepAsync(db, LettersPaper.Make(company, letters, today, nowUtc), PaperKind.Letters, today, order.By, nowUtc) };
        if (order.Labels is { } sheet)
            run.LabelsDocumentId = await KeepAsync(
                db, LabelsPaper.Make(sheet, [.. letters.Select(l => l.Address)], Math.Clamp(order.FirstLabel, 1, sheet.Count), company.Name, nowUtc), PaperKind.AddressLabels, today, order.By, nowUtc);
        db.LetterRuns.Add(run);
        await db.SaveChangesAsync();
        foreach (var (said, letter) in envelopes)
        {
            var filed = StoredDocument.Of(
                LettersPaper.Make(company, [letter], today, nowUtc), PaperKind.Letters, $"Letter: {letter.Subject}", string.Create(CultureInfo.InvariantCulture, $"letter-{today:yyyy-MM-dd}.pdf"), "application/pdf", null, nowUtc, order.By);
            db.Documents.Add(filed);
            await db.SaveChangesAsync();
            foreach (var reminder in said) (reminder.State, reminder.LetterRunId, reminder.LetterDocumentId) = (ReminderState.Printed, run.Id, filed.Id);
        }

        await db.SaveChangesAsync();
        return (run, "");
    });

    /// <summary>The letters are in the post: their reminders are settled, and each letter is filed among the papers of its house.</summary>
    public static Task<bool> PostedAsync(OfficeDb db, int runId, string by, DateTime nowUtc) => ChangeAsync(db, runId, async (run, reminders) =>
    {
        await db.Documents.Where(d => d.HouseId == null && db.Reminders.Any(r => r.LetterRunId == runId && r.LetterDocumentId == d.Id)).ExecuteUpdateAsync(
            s => s.SetProperty(d => d.HouseId, d => db.Reminders.Where(r => r.LetterDocumentId == d.Id).Select(r => r.HouseId).FirstOrDefault()).SetProperty(d => d.Version, d => d.Version + 1));
        (run.PostedAtUtc, run.PostedBy) = (nowUtc, by);
        foreach (var reminder in reminders) (reminder.State, reminder.Note) = (ReminderState.DoneByHand, $"{by}: letter posted");
    });

    /// <summary>Not to be posted: everything goes back to the list.</summary>
    public static Task<bool> TakeBackAsync(OfficeDb db, int runId, DateTime nowUtc) => ChangeAsync(db, runId, (run, reminders) =>
    {
        run.TakenBackAtUtc = nowUtc;
        foreach (var reminder in reminders)
            (reminder.State, reminder.LetterRunId, reminder.LetterDocumentId) = (reminder.OutboxMessageId is null ? ReminderState.Planned : ReminderState.Queued, null, null);
        return Task.CompletedTask;
    });

    private static async Task<bool> ChangeAsync(OfficeDb db, int runId, Func<LetterRun, List<Reminder>, Task> change)
    {
        try
        {
            return await WriteChangeAsync(db, runId, change);
        }
        catch (DbUpdateConcurrencyException)
        {
            // Posted and taken back in the same moment: the first one stands.
            db.ChangeTracker.Clear();
            return false;
        }
    }

    private static Task<bool> WriteChangeAsync(OfficeDb db, int runId, Func<LetterRun, List<Reminder>, Task> change) => db.WriteAsync(async () =>
    {
        if (await db.LetterRuns.SingleOrDefaultAsync(r => r.Id == runId && r.PostedAtUtc == null && r.TakenBackAtUtc == null) is not { } run) return false;
        await change(run, await db.Reminders.Where(r => r.LetterRunId == runId && r.State == ReminderState.Printed).ToListAsync());
        await db.SaveChangesAsync();
        return true;
    });

    private static LetterToPost Letter(OfficeDb db, IReadOnlyList<RuledReminder> said, ReminderLetter.Reader reader, CompanyProfile company, MailIdentity from, DateTime nowUtc)
    {
        var words = GatheredWords.Of(said, reader, company);
        var page = reader.CustomerId == 0 ? "" : OwnerPage.AddLink(db, from, reader.HouseId, reader.CustomerId, nowUtc).AbsoluteUri;
        return new(LetterToPost.AddressLines(reader.Name, reader.PostalAddress), words.Subject, words.Text, page) { Heads = words.Heads };
    }

    private static async Task<int> KeepAsync(OfficeDb db, byte[] bytes, PaperKind kind, DateOnly day, string by, DateTime nowUtc)
    {
        var words = kind == PaperKind.Letters ? "Letters" : "Address labels";
        var name = string.Create(CultureInfo.InvariantCulture, $"{words.ToLowerInvariant().Replace(' ', '-')}-{day:yyyy-MM-dd}.pdf");
        var document = StoredDocument.Of(bytes, kind, $"{words} of {HouseTime.Show(day)}", name, "application/pdf", null, nowUtc, by);
        db.Documents.Add(document);
        await db.SaveChangesAsync();
        return document.Id;
    }
}
