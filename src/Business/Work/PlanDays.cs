using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>A person or a vehicle that can be booked.</summary>
/// <param name="Key">"p3" or "v2".</param>
public sealed record Bookable(string Key, string Name)
{
    public bool IsVehicle => Key[0] == 'v';
    public int Number => int.Parse(Key.AsSpan(1), CultureInfo.InvariantCulture);
}

/// <summary>Plans the days of a job or the visits of a service call, with who and what goes there. Nobody is taken twice: this says so
/// in words, and the index of <see cref="Booking"/> holds when two plan at the same moment.</summary>
public static class PlanDays
{
    /// <summary>Whose days they are.</summary>
    public sealed record Owner(int HouseId, int? JobId, int? ServiceCallId)
    {
        public static Owner OfJob(int houseId, int jobId) => new(houseId, jobId, null);

        public static Owner OfCall(int houseId, int callId) => new(houseId, null, callId);
    }

    /// <param name="Id">The day as it stands on record; null: a new one.</param>
    /// <param name="Who">Keys of people and vehicles.</param>
    public sealed record Row(int? Id, DateOnly Day, DayPart Part, TimeOnly? ArriveAt, IReadOnlyList<string> Who);

    public const string TakenMeanwhile = "Somebody else booked the same person or vehicle a moment ago. Look at the week, choose another, and save again.";

    /// <summary>Writes the days onto the records, to be saved by the caller in one save; or says who is taken. A day on record that no
    /// row names is taken off.</summary>
    public static async Task<IReadOnlyList<Refusal>> WriteAsync(OfficeDb db, Owner owner, IReadOnlyList<Row> rows, IReadOnlyList<Bookable> all, DateTime nowUtc)
    {
        var days = await OwnAsync(db, owner);
        var own = days.Select(d => d.Id).ToHashSet();
        var refusals = Twice(rows, all).Concat(await TakenAsync(db, rows, own, all)).ToList();
        if (refusals.Count > 0) return refusals;
        foreach (var gone in days.Where(d => rows.All(r => r.Id != d.Id))) Cancel(gone, nowUtc);
        foreach (var row in rows)
        {
            var day = days.Find(d => d.Id == row.Id);
            if (day is null) db.WorkDays.Add(day = New(owner, row.Day, nowUtc));
            Write(day, row, all, nowUtc);
        }

        return refusals;
    }

    /// <summary>Takes every day that is still to come off; the days up to the given one were worked.</summary>
    public static async Task TakeOffAsync(OfficeDb db, Owner owner, DateOnly? after, DateTime nowUtc)
    {
        foreach (var day in (await OwnAsync(db, owner)).Where(d => after is null || d.Day > after)) Cancel(day, nowUtc);
    }

    private static Task<List<WorkDay>> OwnAsync(OfficeDb db, Owner owner) =>
        db.WorkDays.Include(d => d.Bookings).Where(d => d.HouseId == owner.HouseId && d.JobId == owner.JobId && d.ServiceCallId == owner.ServiceCallId && d.CancelledAtUtc == null).ToListAsync();

    private static WorkDay New(Owner owner, DateOnly day, DateTime nowUtc) => new()
    {
        HouseId = owner.HouseId, JobId = owner.JobId, ServiceCallId = owner.ServiceCallId, Day = day, CalendarUid = PrivateLink.Make().Hash[..32], ChangedAtUtc = nowUtc,
    };

    private static void Write(WorkDay day, Row row, IReadOnlyList<Bookable> all, DateTime nowUtc)
    {
        var wanted = Slots(row).ToHashSet();
        var held = day.Bookings.Where(b => b.GivenBack == 0).ToList();
        var same = wanted.SetEquals(held.Select(b => (b.Resource, b.Day, b.Half))) && (day.Day, day.Part, day.ArriveAt) == (row.Day, row.Part, row.ArriveAt);
        if (same && day.Id != 0) return;
        if (day.Id != 0) day.Sequence++;
        (day.Day, day.Part, day.ArriveAt, day.ChangedAtUtc) = (row.Day, row.Part, row.ArriveAt, nowUtc);
        foreach (var booking in held.Where(b => !wanted.Remove((b.Resource, b.Day, b.Half)))) booking.GivenBack = booking.Id;
        foreach (var (resource, on, half) in wanted)
        {
            var bookable = all.First(b => b.Key == resource);
            day.Bookings.Add(new Booking { Resource = resource, Day = on, Half = half, Name = bookable.Name, PersonId = bookable.IsVehicle ? null : bookable.Number, VehicleId = bookable.IsVehicle ? bookable.Number : null });
        }
    }

    private static void Cancel(WorkDay day, DateTime nowUtc)
    {
        foreach (var booking in day.Bookings.Where(b => b.GivenBack == 0)) booking.GivenBack = booking.Id;
        (day.CancelledAtUtc, day.ChangedAtUtc, day.Sequence) = (nowUtc, nowUtc, day.Sequence + 1);
    }

    private static IEnumerable<(string Resource, DateOnly Day, DayHalf Half)> Slots(Row row) =>
        from key in row.Who.Distinct()
        from half in HalvesOf(row.Part)
        select (key, row.Day, half);

    private static DayHalf[] HalvesOf(DayPart part) => part switch
    {
        DayPart.Morning => [DayHalf.Morning],
        DayPart.Afternoon => [DayHalf.Afternoon],
        _ => [DayHalf.Morning, DayHalf.Afternoon],
    };

    private static IEnumerable<Refusal> Twice(IReadOnlyList<Row> rows, IReadOnlyList<Bookable> all)
    {
        for (var i = 0; i < rows.Count; i++)
        {
            if (rows[i].Who.FirstOrDefault(w => all.All(b => b.Key != w)) is not null) yield return new($"Days[{i}].Day", "One of the people or vehicles chosen is no longer with the company. Choose again.");
            for (var j = 0; j < i; j++)
            {
                if (rows[i].Day != rows[j].Day || !HalvesOf(rows[i].Part).Intersect(HalvesOf(rows[j].Part)).Any()) continue;
                yield return new($"Days[{i}].Day", $"{HouseTime.Show(rows[i].Day)} stands here twice. Take one row off, or make one the morning and the other the afternoon.");
            }
        }
    }

    private static async Task<IEnumerable<Refusal>> TakenAsync(OfficeDb db, IReadOnlyList<Row> rows, HashSet<int> own, IReadOnlyList<Bookable> all)
    {
        var days = rows.Select(r => r.Day).Distinct().ToList();
        var taken = await (from b in db.Bookings.AsNoTracking()
                           where days.Contains(b.Day) && b.GivenBack == 0
                           join d in db.WorkDays on b.WorkDayId equals d.Id
                           join h in db.Houses on d.HouseId equals h.Id
                           select new { b.Resource, b.Day, b.Half, b.WorkDayId, Where = (db.Jobs.Where(j => j.Id == d.JobId).Select(j => j.Number).FirstOrDefault() ?? "a service call") + ", " + h.Street }).ToListAsync();
        var refusals = new List<Refusal>();
        for (var i = 0; i < rows.Count; i++)
            foreach (var clash in Slots(rows[i]).SelectMany(s => taken.Where(t => !own.Contains(t.WorkDayId) && (t.Resource, t.Day, t.Half) == s)).GroupBy(t => (t.Resource, t.Where)))
                refusals.Add(new($"Days[{i}].Day", $"{all.FirstOrDefault(b => b.Key == clash.Key.Resource)?.Name ?? clash.Key.Resource} is booked on {HouseTime.Show(rows[i].Day)}{(clash.Count() == 1 ? $" in the {clash.First().Half.ToString().ToLowerInvariant()}" : "")}: {clash.Key.Where}. Choose another day or somebody else."));
        return refusals;
    }
}
