using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Service;

public enum FeedState
{
    Unknown,
    Live,
    Revoked,
}

/// <summary>One person's days and appointments as a calendar (RFC 5545). An entry keeps its identity when it is moved; one that was taken
/// off, or that the person was taken out of, says that it is cancelled. It names no customer, no phone and no result.</summary>
public static class CalendarFeed
{
    /// <summary>How long back the feed reaches.</summary>
    public const int DaysBack = 60;
    private const string PrivateStreet = "private address";

    /// <summary>Length of a visit with an hour of arrival, by the part of the day it takes: common practice, no source.</summary>
    private static TimeSpan Length(DayPart part) => part == DayPart.WholeDay ? TimeSpan.FromHours(8) : TimeSpan.FromHours(4);

    public static async Task<(FeedState State, CalendarLink? Link)> FindAsync(OfficeDb db, string? token)
    {
        if (token is not { Length: 43 }) return (FeedState.Unknown, null);
        var hash = PrivateLink.HashOf(token);
        var link = await db.CalendarLinks.AsNoTracking().FirstOrDefaultAsync(l => l.TokenHash == hash);
        return (link is null ? FeedState.Unknown : link.RevokedAtUtc is null ? FeedState.Live : FeedState.Revoked, link);
    }

    /// <summary>The feed as text, lines folded and ended as the standard asks. Five statements.</summary>
    /// <param name="publicAddress">Where an entry links to its sheet.</param>
    /// <param name="isPrivate">Whether a rule keeps a house's address from others, as the keeper of the phone's calendar is one: the entry then
    /// says the town and links to the sheet.</param>
    public static async Task<string> WriteAsync(OfficeDb db, CalendarLink link, Uri publicAddress, DateTime nowUtc, Func<int, bool> isPrivate)
    {
        var company = await db.Company.Select(c => new { c.Name, c.TimeZone }).SingleAsync();
        var calendar = new Calendar { ProductId = "-//Mitigation Office//Work days//EN" };
        calendar.AddProperty("X-WR-CALNAME", link.Everything ? $"{company.Name}, all work" : $"{company.Name}, my work");
        calendar.AddProperty("REFRESH-INTERVAL;VALUE=DURATION", "PT1H");
        var from = DateOnly.FromDateTime(nowUtc).AddDays(-DaysBack);
        foreach (var day in await DaysAsync(db, link, from)) calendar.Events.Add(EventOf(day with { Street = Shown(day.Street, isPrivate(day.Day.HouseId)) }, link, company.TimeZone, publicAddress));
        foreach (var appointment in await AppointmentsAsync(db, link, from)) calendar.Events.Add(EventOf(appointment with { Street = Shown(appointment.Street, isPrivate(appointment.Appointment.HouseId)) }, company.TimeZone, publicAddress));
        return new CalendarSerializer().SerializeToString(calendar) ?? "";
    }

    private static string Shown(string street, bool isPrivate) => isPrivate ? PrivateStreet : street;

    private sealed record Entry(WorkDay Day, string? Number, string? Call, string Hold, string Street, string City, string TimeZone);

    private static async Task<List<Entry>> DaysAsync(OfficeDb db, CalendarLink link, DateOnly from)
    {
        var days = db.WorkDays.AsNoTracking().Include(d => d.Bookings).Where(d => d.Day >= from);
        if (!link.Everything) days = days.Where(d => d.Bookings.Any(b => b.PersonId == link.PersonId));
        return await (from d in days
                      join h in db.Houses on d.HouseId equals h.Id
                      orderby d.Day, d.Id
                      select new Entry(d, db.Jobs.Where(j => j.Id == d.JobId).Select(j => j.Number).FirstOrDefault(), db.ServiceCalls.Where(c => c.Id == d.ServiceCallId).Select(c => c.Number).FirstOrDefault(),
                          db.Jobs.Where(j => j.Id == d.JobId).Select(j => j.HoldBecause).FirstOrDefault() ?? "", h.Street, h.City, h.TimeZone)).AsSingleQuery().ToListAsync();
    }

    private sealed record Meeting(Appointment Appointment, string Number, string Street, string City, string TimeZone);

    private static async Task<List<Meeting>> AppointmentsAsync(OfficeDb db, CalendarLink link, DateOnly from)
    {
        var meetings = db.Appointments.AsNoTracking().Where(a => a.Day >= from);
        if (!link.Everything) meetings = meetings.Where(a => db.WorkDays.Any(d => d.JobId == a.JobId && d.Bookings.Any(b => b.PersonId == link.PersonId)));
        return await (from a in meetings
                      join j in db.Jobs on a.JobId equals j.Id
                      join h in db.Houses on a.HouseId equals h.Id
                      orderby a.Day, a.Id
                      select new Meeting(a, j.Number, h.Street, h.City, h.TimeZone)).ToListAsync();
    }

    private static CalendarEvent EventOf(Entry e, CalendarLink link, string companyZone, Uri publicAddress)
    {
        var mine = link.Everything || e.Day.Bookings.Exists(b => b.PersonId == link.PersonId && b.GivenBack == 0);
        var gone = e.Day.CancelledAtUtc is not null || !mine;
        var made = New(e.Day.CalendarUid, e.Day.Sequence, e.Day.ChangedAtUtc, gone, $"{e.Number ?? e.Call} · {e.Street}, {e.City}", e.Street, e.City);
        When(made, e.Day.Day, e.Day.ArriveAt ?? (e.Day.Part == DayPart.Afternoon ? new TimeOnly(12, 0) : e.Day.Part == DayPart.Morning ? new TimeOnly(8, 0) : null), Length(e.Day.Part), HouseTime.Zone(e.TimeZone, companyZone));
        var with = e.Day.Bookings.Where(b => b.GivenBack == 0).Select(b => b.Name).Distinct().ToList();
        made.Description = string.Join('\n', new[] { e.Call is not null ? "Service call" : "Installation", with.Count > 0 ? string.Join(", ", with) : "", e.Hold.Length > 0 && e.Street != PrivateStreet ? $"On hold: {e.Hold}" : "" }.Where(l => l.Length > 0));
        made.Url = new Uri(publicAddress, e.Day.JobId is { } job ? $"houses/{e.Day.HouseId}/work?job={job}" : $"houses/{e.Day.HouseId}/service/{e.Day.ServiceCallId}");
        return made;
    }

    private static CalendarEvent EventOf(Meeting m, string companyZone, Uri publicAddress)
    {
        var a = m.Appointment;
        var made = New(a.CalendarUid, a.Sequence, a.ChangedAtUtc, a.CancelledAtUtc is not null, $"{a.Kind} · {m.Number}, {m.Street}", m.Street, m.City);
        When(made, a.Day, a.At, TimeSpan.FromHours(1), HouseTime.Zone(m.TimeZone, companyZone));
        made.Description = string.Join('\n', new[] { a.Who, m.Street == PrivateStreet ? "" : a.Words }.Where(l => l.Length > 0));
        made.Url = new Uri(publicAddress, $"houses/{a.HouseId}/work?job={a.JobId}");
        return made;
    }

    private static CalendarEvent New(string uid, int sequence, DateTime changedUtc, bool gone, string summary, string street, string city) => new()
    {
        Uid = $"{uid}@mitigation-office", Sequence = sequence, DtStamp = Utc(changedUtc), LastModified = Utc(changedUtc), Status = gone ? EventStatus.Cancelled : EventStatus.Confirmed,
        Summary = summary, Location = $"{street}, {city}",
    };

    /// <summary>With an hour as an instant in UTC, which no zone table can misread; without one as the day.</summary>
    private static void When(CalendarEvent made, DateOnly day, TimeOnly? at, TimeSpan length, TimeZoneInfo zone)
    {
        if (at is not { } time)
        {
            (made.DtStart, made.DtEnd) = (new CalDateTime(day), new CalDateTime(day.AddDays(1)));
            return;
        }

        var start = HouseTime.ToUtc(day, time, zone);
        (made.DtStart, made.DtEnd) = (Utc(start), Utc(start + length));
    }

    private static CalDateTime Utc(DateTime utc) => new(DateTime.SpecifyKind(new DateTime(utc.Year, utc.Month, utc.Day, utc.Hour, utc.Minute, utc.Second, DateTimeKind.Utc), DateTimeKind.Utc), "UTC");
}
