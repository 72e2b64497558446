using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>A visit of a day: a job's day, a service call, or somebody from outside who comes to a job.</summary>
public sealed record Visit(DateOnly Day, TimeOnly? ArriveAt, int HouseId, string House, string? For, string? Phone, string Number, string Href)
{
    public int? JobId { get; init; }
    public DayPart? Part { get; init; }
    public string Crew { get; init; } = "";

    /// <summary>What else is to be known: hold, done, who comes.</summary>
    public string Besides { get; init; } = "";
    public string? Zone { get; init; }
}

/// <summary>Reads the visits between two days. Two statements.</summary>
public static class ReadVisits
{
    public static async Task<IReadOnlyList<Visit>> BetweenAsync(OfficeDb db, DateOnly first, DateOnly end)
    {
        var days = await (from d in db.WorkDays.AsNoTracking()
                          where d.Day >= first && d.Day < end && d.CancelledAtUtc == null
                          join h in db.Houses on d.HouseId equals h.Id
                          let owner = h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!).FirstOrDefault()
                          let job = db.Jobs.Where(j => j.Id == d.JobId).Select(j => new { j.Number, j.Crew, j.State, j.HoldBecause }).FirstOrDefault()
                          let call = db.ServiceCalls.Where(c => c.Id == d.ServiceCallId).Select(c => new { c.Number, c.CallerName, c.CallerPhone }).FirstOrDefault()
                          select new
                          {
                              d.Day, d.ArriveAt, d.Part, d.HouseId, d.JobId, d.ServiceCallId, House = h.Street + ", " + h.City, h.TimeZone, For = owner == null ? null : owner.Name, Phone = owner == null ? null : owner.Phone, Job = job, Call = call,
                              Booked = d.Bookings.Where(b => b.GivenBack == 0).OrderBy(b => b.Resource).Select(b => b.Name).ToList(),
                          }).AsSingleQuery().ToListAsync();
        var meetings = await (from a in db.Appointments.AsNoTracking()
                              where a.Day >= first && a.Day < end && a.CancelledAtUtc == null
                              join h in db.Houses on a.HouseId equals h.Id
                              join j in db.Jobs on a.JobId equals j.Id
                              select new { a, House = h.Street + ", " + h.City, h.TimeZone, j.Number }).ToListAsync();
        return
        [
            .. days.Select(d => new Visit(d.Day, d.ArriveAt, d.HouseId, d.House, d.For, d.Call is { CallerPhone.Length: > 0 } c ? c.CallerPhone : d.Phone, d.Job?.Number ?? d.Call?.Number ?? "",
                d.JobId is { } job ? $"/houses/{d.HouseId}/work?job={job}" : $"/houses/{d.HouseId}/service/{d.ServiceCallId}")
            {
                JobId = d.JobId, Part = d.Part, Zone = d.TimeZone, Crew = Crew([.. d.Booked.Distinct()], d.Job?.Crew ?? ""),
                Besides = d.Call is not null ? "service call" : d.Job is { State: JobState.Done } ? "done" : d.Job is { HoldBecause.Length: > 0 } held ? $"on hold: {held.HoldBecause}" : "",
            }),
            .. meetings.Select(m => new Visit(m.a.Day, m.a.At, m.a.HouseId, m.House, null, null, m.Number, $"/houses/{m.a.HouseId}/work?job={m.a.JobId}#appointments")
            {
                Zone = m.TimeZone, Besides = $"{m.a.Kind.ToString().ToLowerInvariant()}: {m.a.Who}{(m.a.Phone.Length > 0 ? $", {m.a.Phone}" : "")}{(m.a.Words.Length > 0 ? $" ({m.a.Words})" : "")}",
            }),
        ];
    }

    /// <summary>Who is booked, and the crew in words where it says more.</summary>
    private static string Crew(List<string> booked, string words) =>
        string.Join(", ", words.Length == 0 || booked.Contains(words, StringComparer.OrdinalIgnoreCase) ? booked : booked.Prepend(words));

    /// <summary>In the order in which the day goes: without an hour first the whole days and mornings, then the afternoons.</summary>
    public static IOrderedEnumerable<Visit> InOrder(IEnumerable<Visit> visits) =>
        visits.OrderBy(v => v.ArriveAt ?? (v.Part == DayPart.Afternoon ? new TimeOnly(12, 0) : TimeOnly.MaxValue)).ThenBy(v => v.Number, StringComparer.Ordinal);
}
