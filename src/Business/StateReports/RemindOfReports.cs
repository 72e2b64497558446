using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.StateReports;

/// <summary>Writes to the office itself before a report is due, and once when it is late. One letter a reason, however often it runs.</summary>
public static class RemindOfReports
{
    private static readonly (int Days, string Words)[] Steps = [(-1, "late"), (1, "tomorrow"), (7, "in a week")];

    public static Task<int> RunAsync(OfficeDb db, MailIdentity from, DateTime nowUtc, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        if (!MailAddress.IsUsable(company.Email)) return 0;
        var (today, written) = (HouseTime.DayOf(nowUtc, HouseTime.Zone(company.TimeZone)), 0);
        foreach (var due in (await DueReports.ReadAsync(db, today, cancel)).Where(d => d.DueOn is not null))
        {
            var left = due.DueOn!.Value.DayNumber - today.DayNumber;
            if (Steps.Where(s => left <= s.Days).Select(s => s.Words).FirstOrDefault() is not { } step) continue;
            var key = $"state-report:{due.Profile.Code}:{TypedNumbers.Plain(due.DueOn)}:{due.Kind}:{step}";
            if (await db.Outbox.AnyAsync(m => m.Key == key, cancel)) continue;
            await QueueMail.AddAsync(db, from, nowUtc, new Letter(key, MailClass.Work, company.Email, company.Name, Subject(due, left), Text(due, left, from)) { Automatic = true }, cancel);
            written++;
        }

        await db.SaveChangesAsync(cancel);
        return written;
    }, cancel);

    private static string Subject(DueReport due, int left) => left < 0 ? $"Late: {due.What}" : $"Due {HouseTime.Show(due.DueOn)}: {due.What}";

    private static string Text(DueReport due, int left, MailIdentity from) => $"""
        {due.What}.

        {(left < 0 ? "It was" : "It is")} due on {HouseTime.Show(due.DueOn)} ({due.Profile.Citation}).

        {from.Link(due.Href[1..])}

        Confirm the date with your state program.
        """;
}
