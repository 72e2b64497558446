using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>What is asked of the list of jobs, as it stands in the address.</summary>
/// <param name="Show">"open" (to plan and planned), a state, or "all".</param>
public sealed record JobSearch(string Show, string? Find, string? Crew, string Sort);

/// <summary>Jobs and acceptances that wait for one, read for a list.</summary>
public static class JobList
{
    public const int Most = 200;

    public sealed record Row(
        int Id, string Number, int HouseId, string Street, string City, string HouseState, string Zip, string? For, JobState State, DateOnly? Day, TimeOnly? ArriveAt, string Crew,
        int StepsDone, int Steps, DateOnly? DoneOn, bool Built);

    public sealed record Waiting(int AcceptanceId, int HouseId, string House, string? For, DateTime AtUtc, DateOnly CancelBy, string? TimeZone);

    public static async Task<IReadOnlyList<Row>> RowsAsync(OfficeDb db, JobSearch asked, int most)
    {
        var jobs = db.Jobs.AsNoTracking();
        if (asked.Show == "open") jobs = jobs.Where(j => j.State == JobState.ToPlan || j.State == JobState.Planned);
        else if (Enum.TryParse<JobState>(asked.Show, out var state)) jobs = jobs.Where(j => j.State == state);
        if (asked.Crew is { Length: > 0 } crew) jobs = jobs.Where(j => j.Crew == crew);
        var joined = from j in jobs
                     join h in db.Houses on j.HouseId equals h.Id
                     let owner = h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!).FirstOrDefault()
                     select new { j, h, owner };
        if (SearchText.Of(asked.Find) is { Length: > 0 } find && find.ToUpperInvariant() is var number)
            joined = joined.Where(x => x.h.Search.Contains(find) || x.j.Number.Contains(number) || (x.owner != null && x.owner.Search.Contains(find)));
        joined = asked.Sort switch
        {
            "house" => joined.OrderBy(x => x.h.Search),
            "-house" => joined.OrderByDescending(x => x.h.Search),
            "crew" => joined.OrderBy(x => x.j.Crew).ThenBy(x => x.j.Day),
            "-crew" => joined.OrderByDescending(x => x.j.Crew).ThenBy(x => x.j.Day),
            "number" => joined.OrderBy(x => x.j.Number),
            "-number" => joined.OrderByDescending(x => x.j.Number),
            "-day" => joined.OrderByDescending(x => x.j.Day ?? DateOnly.MaxValue).ThenByDescending(x => x.j.ArriveAt).ThenByDescending(x => x.j.Id),
            _ => joined.OrderBy(x => x.j.Day ?? DateOnly.MaxValue).ThenBy(x => x.j.ArriveAt).ThenBy(x => x.j.Id),
        };
        return await joined.Take(most).Select(x => new Row(
            x.j.Id, x.j.Number, x.h.Id, x.h.Street, x.h.City, x.h.State, x.h.Zip, x.owner == null ? null : x.owner.Name, x.j.State, x.j.Day, x.j.ArriveAt, x.j.Crew,
            x.j.Steps.Count(s => s.DoneAtUtc != null || s.NotNeededBecause != ""), x.j.Steps.Count, x.j.DoneOn,
            db.Systems.Any(s => s.JobId == x.j.Id))).ToListAsync();
    }

    /// <summary>Accepted offers for which no job is open yet, oldest first.</summary>
    public static async Task<IReadOnlyList<Waiting>> WaitingAsync(OfficeDb db, JobSearch asked, int? houseId = null)
    {
        var waiting = from a in db.Acceptances.AsNoTracking()
                      where !db.Jobs.Any(j => j.AcceptanceId == a.Id) && !db.CancelledSales.Any(c => c.AcceptanceId == a.Id)
                      join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                      where r.State == RevisionState.Accepted
                      join h in db.Houses on r.Quote!.HouseId equals h.Id
                      let owner = h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!).FirstOrDefault()
                      select new { a, h, owner };
        if (houseId is { } id) waiting = waiting.Where(x => x.h.Id == id);
        if (SearchText.Of(asked.Find) is { Length: > 0 } find) waiting = waiting.Where(x => x.h.Search.Contains(find) || (x.owner != null && x.owner.Search.Contains(find)));
        return await waiting.OrderBy(x => x.a.AtUtc).Take(Most)
            .Select(x => new Waiting(x.a.Id, x.h.Id, x.h.Street + ", " + x.h.City, x.owner == null ? null : x.owner.Name, x.a.AtUtc, x.a.CancelBy, x.a.TimeZone)).ToListAsync();
    }

    /// <summary>Crews that have been named, for choosing again.</summary>
    public static async Task<IReadOnlyList<string>> CrewsAsync(OfficeDb db) =>
        await db.Jobs.Where(j => j.Crew != "").GroupBy(j => j.Crew).OrderByDescending(g => g.Max(j => j.Id)).Take(20).Select(g => g.Key).ToListAsync();
}
