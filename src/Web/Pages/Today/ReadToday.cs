using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>What is due, late or waiting in the whole office, one statement for each kind.</summary>
public sealed class ReadToday(OfficeDb db, TodayClock at)
{
    private const int Asked = TodayGroup.Most + 1;
    private const int ExpiresSoonDays = 7;
    private const int PhaseLapsesSoonDays = 30;
    private const int RemindersAheadDays = 14;

    public async Task<IReadOnlyList<TodayGroup>> ForOfficeAsync(OfficeFacts facts)
    {
        var (tests, money) = (new ReadTestsToday(db, at), new ReadMoneyToday(db, at));
        List<TodayGroup> groups =
        [
            await CallsAsync(), await JobsAsync(), await tests.WindowsAsync(), .. await tests.OutAndBackAsync(withLetters: true), .. await QuotesAsync(), await InquiriesAsync(),
            .. await money.OwedAsync(), Heard(facts), await RemindersAsync(), .. await new ReadThingsToday(db, at).DueAsync(kitsOnly: false), Report(facts),
        ];
        return [.. groups.Where(g => g.Items.Count > 0)];
    }

    /// <summary>Work and readings only.</summary>
    public async Task<IReadOnlyList<TodayGroup>> ForInstallersAsync()
    {
        var tests = new ReadTestsToday(db, at);
        List<TodayGroup> groups = [await CallsAsync(), await JobsAsync(), await tests.WindowsAsync(), .. await tests.OutAndBackAsync(withLetters: false), .. await new ReadThingsToday(db, at).DueAsync(kitsOnly: true), await InquiriesAsync()];
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

    /// <summary>Quotes without an answer, and second phases that a result has made due: one statement.</summary>
    private async Task<IReadOnlyList<TodayGroup>> QuotesAsync()
    {
        // Both halves of one statement give the same columns of the same kinds; a second phase is told by its nudges: −1.
        var unanswered = db.QuoteRevisions.AsNoTracking().Where(r => r.State == RevisionState.Sent).OrderBy(r => r.ValidUntil).ThenBy(r => r.Id).Take(Asked)
            .Select(r => new
            {
                r.Quote!.HouseId, RevisionId = r.Id, r.Quote.Number, r.Letter, At = r.SentAtUtc, Until = r.ValidUntil, Since = r.ValidUntil, PCiL = r.GuaranteePCiL,
                Nudges = db.QuoteNudges.Count(n => n.QuoteRevisionId == r.Id), Street = db.Houses.Where(h => h.Id == r.Quote.HouseId).Select(h => h.Street).FirstOrDefault(),
            });
        var due = (from p in db.SecondPhases.AsNoTracking()
                   where p.State == PhaseState.Due && p.ValidUntil >= at.Today
                   join a in db.Acceptances on p.AcceptanceId equals a.Id
                   join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                   orderby p.ValidUntil, p.Id
                   select new
                   {
                       r.Quote!.HouseId, RevisionId = r.Id, r.Quote.Number, r.Letter, At = r.SentAtUtc, Until = p.ValidUntil, Since = p.Since, PCiL = p.DecidingPCiL,
                       Nudges = -1, Street = db.Houses.Where(h => h.Id == r.Quote.HouseId).Select(h => h.Street).FirstOrDefault(),
                   }).Take(Asked);
        var rows = (await unanswered.Concat(due).ToListAsync()).ConvertAll(r => new QuoteRow(r.Nudges < 0, r.HouseId, r.RevisionId, r.Number, r.Letter, r.At, r.Until, r.Since, r.PCiL, r.Nudges, r.Street));
        return
        [
            new("phases", "Second phases due", [.. rows.Where(r => r.IsPhase).Select(r => new TodayItem(
                $"/houses/{r.HouseId}/quote?revision={r.RevisionId}#second-phase", $"{r.Number} {r.Letter}, {r.Street}", PhaseWords(r), r.Until < at.Today.AddDays(PhaseLapsesSoonDays)))]),
            new("quotes", "Quotes out, no answer yet", [.. rows.Where(r => !r.IsPhase).Select(r =>
                new TodayItem($"/houses/{r.HouseId}/quote", $"{r.Number} {r.Letter}, {r.Street}", QuoteWords(r.SentAtUtc, r.Until) + NudgeWords(r), r.Until is { } until && until < at.Today.AddDays(ExpiresSoonDays)))], "/quotes"),
        ];
    }

    private sealed record QuoteRow(bool IsPhase, int HouseId, int RevisionId, string Number, string Letter, DateTime? SentAtUtc, DateOnly? Until, DateOnly? Since, decimal? PCiL, int Nudges, string? Street);

    private string PhaseWords(QuoteRow r) =>
        $"the test showed {Houses.RadonReading.Show(r.PCiL ?? 0, UnitSystem.US)}{(r.Since is { } since ? $", due since {at.Ago(since)}" : "")}; the price agreed holds until {at.Ahead(r.Until ?? at.Today)}";

    private string NudgeWords(QuoteRow r) => (r.Nudges switch { 0 => "", 1 => ", nudged once", _ => $", nudged {r.Nudges} times" }) + (r.Until < at.Today ? ": revise it, or close it with the reason" : "");

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
            .Select(j => new
            {
                j.HouseId, j.Number, j.State, j.Day, j.ArriveAt, j.Crew, j.CreatedAtUtc, j.HoldBecause, Street = db.Houses.Where(h => h.Id == j.HouseId).Select(h => h.Street).FirstOrDefault(),
                Change = db.ChangeOrders.Where(c => c.JobId == j.Id).OrderByDescending(c => c.Position).Select(c => (ChangeState?)c.State).FirstOrDefault()
            }).ToListAsync();
        return new("work", "Work this week, late or to plan", [.. rows.Select(j => new TodayItem($"/houses/{j.HouseId}/work", $"{j.Street}, {j.Number}",
            (j.State == JobState.ToPlan || j.Day is null ? $"accepted {at.Ago(at.Day(j.CreatedAtUtc))}, no day yet" : JobWords(j.Day.Value, j.ArriveAt, j.Crew) + (j.HoldBecause.Length > 0 ? $"; on hold: {j.HoldBecause}" : "")) + ChangeWords(j.Change), j.State == JobState.Planned && j.Day < at.Today))], "/work");
    }

    /// <summary>Fumes first, then the longest asked.</summary>
    private async Task<TodayGroup> CallsAsync()
    {
        var rows = await db.ServiceCalls.AsNoTracking().Where(c => c.State == CallState.Open).OrderBy(c => c.Sign == Sign.FumesOrCoAlarm ? 0 : 1).ThenBy(c => c.AskedAtUtc).Take(Asked)
            .Select(c => new { c.Id, c.HouseId, c.Number, c.Sign, c.AskedAtUtc, Street = db.Houses.Where(h => h.Id == c.HouseId).Select(h => h.Street).FirstOrDefault(), Visit = db.WorkDays.Where(d => d.ServiceCallId == c.Id && d.CancelledAtUtc == null).Min(d => (DateOnly?)d.Day) }).ToListAsync();
        return new("service", "Service calls", [.. rows.Select(c => new TodayItem($"/houses/{c.HouseId}/service/{c.Id}", $"{c.Street}, {c.Number}",
            $"{CauseWords.Of(c.Sign)}; asked {at.Ago(at.Day(c.AskedAtUtc))}, {(c.Visit is { } day ? $"visit {(day < at.Today ? at.Ago(day) : at.Ahead(day))}" : "no visit planned")}",
            c.Sign == Sign.FumesOrCoAlarm || c.Visit < at.Today || (c.Visit is null && at.Today.DayNumber - at.Day(c.AskedAtUtc).DayNumber > 2)))], "/work/service");
    }

    private static string ChangeWords(ChangeState? last) => last switch
    {
        ChangeState.Draft => "; a change order is begun and not sent",
        ChangeState.Sent => "; a change order is out for signing",
        ChangeState.Declined => "; the last change order was declined",
        _ => "",
    };

    private string JobWords(DateOnly day, TimeOnly? arrive, string crew) =>
        (day < at.Today ? $"was planned {at.Ago(day)}" : $"planned {at.Ahead(day)}")
        + (arrive is { } time ? $" at {time.ToString("h:mm tt", System.Globalization.CultureInfo.InvariantCulture)}" : "") + (crew.Length > 0 ? $" for {crew}" : "")
        + (day < at.Today ? "; not written down as done" : "");

    private async Task<TodayGroup> RemindersAsync()
    {
        var until = at.Today.AddDays(RemindersAheadDays);
        var rows = await db.Reminders.AsNoTracking().Where(r => r.State == ReminderState.Planned && r.SendOn <= until).OrderBy(r => r.SendOn).ThenBy(r => r.Id).Take(Asked)
            .Select(r => new { r.HouseId, r.SendOn, r.Because, Rule = db.ReminderRules.Where(x => x.Code == r.RuleCode).Select(x => x.Name).FirstOrDefault() ?? r.RuleCode, Street = db.Houses.Where(h => h.Id == r.HouseId).Select(h => h.Street).FirstOrDefault() }).ToListAsync();
        return new("reminders", "Reminders in the next two weeks", [.. rows.Select(r => new TodayItem(r.HouseId is { } house ? $"/houses/{house}/follow-up" : "/follow-up", $"{r.Rule}{(r.Street is null ? "" : ", " + r.Street)}",
            (r.SendOn < at.Today ? $"was to go out {at.Ago(r.SendOn)}" : $"goes out {at.Ahead(r.SendOn)}") + (r.Because.Length > 0 ? $": {r.Because}" : ""), r.SendOn < at.Today))], "/follow-up");
    }

    private static TodayGroup Heard(OfficeFacts facts) => new("heard", "House owners told us", facts.Heard == 0 ? [] :
    [
        new TodayItem("/follow-up", facts.Heard == 1 ? "One message" : $"{facts.Heard} messages", "a test wanted or made, a new address, a sale: told on the owner's own page and not yet seen to", Late: true),
    ]);

    private TodayGroup Report(OfficeFacts facts)
    {
        var due = DueReports.Of(facts.Duties, at.Today).Select(d => new TodayItem(d.Href, d.What, d.DueOn is { } on ? on < at.Today ? $"was due {at.Ago(on)}" : $"due {at.Ahead(on)}" : "the period is over; no due date is known", d.DueOn < at.Today)).ToList();
        if (facts.HasSystems && facts.Duties.Count == 0) due.Add(new("/state-reports/profiles", "Choose the rule you report under", "no state report is set up; choose one, or the general monthly layout"));
        return new("report", "State report", due, "/state-reports");
    }
}
