using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>What is due, late or waiting in the whole office, one statement for each kind.</summary>
public sealed class ReadToday(OfficeDb db, TodayClock at)
{
    private const int Asked = TodayGroup.Most + 1;
    private const int ExpiresSoonDays = 7;
    private const int RemindersAheadDays = 14;
    private const int LicenceAheadDays = 60;

    public async Task<IReadOnlyList<TodayGroup>> ForOfficeAsync(OfficeFacts facts)
    {
        var (tests, money) = (new ReadTestsToday(db, at), new ReadMoneyToday(db, at));
        List<TodayGroup> groups =
        [
            await JobsAsync(), await tests.WindowsAsync(), .. await tests.OutAndBackAsync(withLetters: true), await QuotesAsync(), await InquiriesAsync(),
            .. await money.OwedAsync(), await RemindersAsync(), await MailAsync(), await LicencesAsync(), Report(facts),
        ];
        return [.. groups.Where(g => g.Items.Count > 0)];
    }

    /// <summary>Work and readings only.</summary>
    public async Task<IReadOnlyList<TodayGroup>> ForInstallersAsync()
    {
        var tests = new ReadTestsToday(db, at);
        List<TodayGroup> groups = [await JobsAsync(), await tests.WindowsAsync(), .. await tests.OutAndBackAsync(withLetters: false), await InquiriesAsync()];
        return [.. groups.Where(g => g.Items.Count > 0)];
    }

    private async Task<TodayGroup> InquiriesAsync()
    {
        var rows = await db.Houses.AsNoTracking()
            .Where(h => !db.PressureFieldTests.Any(t => t.HouseId == h.Id) && !db.Designs.Any(d => d.HouseId == h.Id)
                && !db.Quotes.Any(q => q.HouseId == h.Id) && !db.Systems.Any(s => s.HouseId == h.Id))
            .OrderBy(h => h.AskedAtUtc).ThenBy(h => h.Id).Take(Asked).Select(h => new { h.Id, h.Street, h.City, h.AskedAtUtc }).ToListAsync();
        return new("inquiries", "Inquiries to diagnose", [.. rows.Select(h =>
            new TodayItem($"/houses/{h.Id}/diagnosis", $"{h.Street}, {h.City}", $"asked {at.Ago(at.Day(h.AskedAtUtc))}, no readings yet", at.Today.DayNumber - at.Day(h.AskedAtUtc).DayNumber > 14))],
            "/houses?stage=ToDiagnose");
    }

    private async Task<TodayGroup> QuotesAsync()
    {
        var rows = await db.QuoteRevisions.AsNoTracking().Where(r => r.State == RevisionState.Sent)
            .OrderBy(r => r.ValidUntil).ThenBy(r => r.Id).Take(Asked)
            .Select(r => new { r.Quote!.HouseId, r.Quote.Number, r.Letter, r.SentAtUtc, r.ValidUntil, Street = db.Houses.Where(h => h.Id == r.Quote.HouseId).Select(h => h.Street).FirstOrDefault() }).ToListAsync();
        return new("quotes", "Quotes out, no answer yet", [.. rows.Select(r =>
            new TodayItem($"/houses/{r.HouseId}/quote", $"{r.Number} {r.Letter}, {r.Street}", QuoteWords(r.SentAtUtc, r.ValidUntil), r.ValidUntil is { } until && until < at.Today.AddDays(ExpiresSoonDays)))], "/quotes");
    }

    private string QuoteWords(DateTime? sent, DateOnly? until) => string.Join(", ", new[]
    {
        sent is { } s ? $"sent {at.Ago(at.Day(s))}" : "sent",
        until is not { } day ? null : day < at.Today ? $"ran out {at.Ago(day)}" : $"holds until {at.Ahead(day)}",
    }.OfType<string>());

    private async Task<TodayGroup> JobsAsync()
    {
        var weekEnd = at.Today.AddDays(6);
        var rows = await db.Jobs.AsNoTracking().Where(j => j.State == JobState.ToPlan || (j.State == JobState.Planned && (j.Day == null || j.Day <= weekEnd)))
            .OrderBy(j => j.State == JobState.ToPlan ? 1 : 0).ThenBy(j => j.Day).ThenBy(j => j.ArriveAt).ThenBy(j => j.Id).Take(Asked)
            .Select(j => new { j.HouseId, j.Number, j.State, j.Day, j.ArriveAt, j.Crew, j.CreatedAtUtc, Street = db.Houses.Where(h => h.Id == j.HouseId).Select(h => h.Street).FirstOrDefault() }).ToListAsync();
        return new("work", "Work this week, late or to plan", [.. rows.Select(j => new TodayItem($"/houses/{j.HouseId}/work", $"{j.Street}, {j.Number}",
            j.State == JobState.ToPlan || j.Day is null ? $"accepted {at.Ago(at.Day(j.CreatedAtUtc))}, no day yet" : JobWords(j.Day.Value, j.ArriveAt, j.Crew), j.State == JobState.Planned && j.Day < at.Today))], "/work");
    }

    private string JobWords(DateOnly day, TimeOnly? arrive, string crew) =>
        (day < at.Today ? $"was planned {at.Ago(day)}" : $"planned {at.Ahead(day)}")
        + (arrive is { } time ? $" at {time.ToString("h:mm tt", System.Globalization.CultureInfo.InvariantCulture)}" : "") + (crew.Length > 0 ? $" for {crew}" : "")
        + (day < at.Today ? "; not written down as done" : "");

    private async Task<TodayGroup> RemindersAsync()
    {
        var until = at.Today.AddDays(RemindersAheadDays);
        var rows = await db.Reminders.AsNoTracking().Where(r => r.State == ReminderState.Planned && r.SendOn <= until).OrderBy(r => r.SendOn).ThenBy(r => r.Id).Take(Asked)
            .Select(r => new { r.HouseId, r.SendOn, r.Because, Rule = db.ReminderRules.Where(x => x.Code == r.RuleCode).Select(x => x.Name).FirstOrDefault() ?? r.RuleCode, Street = db.Houses.Where(h => h.Id == r.HouseId).Select(h => h.Street).FirstOrDefault() }).ToListAsync();
        return new("reminders", "Reminders in the next two weeks", [.. rows.Select(r => new TodayItem($"/houses/{r.HouseId}/follow-up", $"{r.Rule}, {r.Street}",
            (r.SendOn < at.Today ? $"was to go out {at.Ago(r.SendOn)}" : $"goes out {at.Ahead(r.SendOn)}") + (r.Because.Length > 0 ? $": {r.Because}" : ""), r.SendOn < at.Today))], "/follow-up");
    }

    private async Task<TodayGroup> MailAsync()
    {
        var rows = await db.Outbox.AsNoTracking().Where(m => m.State == DeliveryState.Refused || m.State == DeliveryState.Uncertain).OrderBy(m => m.Id).Take(Asked)
            .Select(m => new { m.HouseId, m.Subject, m.ToAddress, m.State, m.LastAnswer, m.CreatedAtUtc }).ToListAsync();
        return new("mail", "Mail that did not surely arrive", [.. rows.Select(m => new TodayItem(m.HouseId is { } house ? $"/houses/{house}/follow-up" : "/follow-up", $"{m.Subject}, to {m.ToAddress}",
            m.State == DeliveryState.Refused ? $"refused{(m.LastAnswer.Length > 0 ? ": " + Short(m.LastAnswer) : "")}" : "the mail server took it but never answered: ask whether it came", Late: true))], "/follow-up");
    }

    private async Task<TodayGroup> LicencesAsync()
    {
        var last = at.Today.AddDays(LicenceAheadDays);
        var rows = await db.Licences.AsNoTracking().Where(l => l.ExpiresOn <= last).OrderBy(l => l.ExpiresOn).ThenBy(l => l.Id).Take(Asked)
            .Select(l => new { l.Holder, l.Number, Ends = l.ExpiresOn!.Value }).ToListAsync();
        return new("licences", "Licences that end soon", [.. rows.Select(l =>
            new TodayItem("/shop/licences", $"{l.Holder}, {l.Number}", l.Ends < at.Today ? $"ended {at.Ago(l.Ends)}" : $"ends {at.Ahead(l.Ends)}", l.Ends < at.Today))], "/shop/licences");
    }

    private TodayGroup Report(OfficeFacts facts)
    {
        var due = DueReports.Of(facts.Duties, at.Today).Select(d => new TodayItem(d.Href, d.What, d.DueOn is { } on ? on < at.Today ? $"was due {at.Ago(on)}" : $"due {at.Ahead(on)}" : "the period is over; no due date is known", d.DueOn < at.Today)).ToList();
        if (facts.HasSystems && facts.Duties.Count == 0) due.Add(new("/state-reports/profiles", "Choose the rule you report under", "no state report is set up; choose one, or the general monthly layout"));
        return new("report", "State report", due, "/state-reports");
    }

    private static string Short(string text) => text.Length <= 120 ? text : text[..120] + "…";
}
