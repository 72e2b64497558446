using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Pages.Tests;

/// <param name="Show">"out", "to-judge", "judged", "not-passed" (and not tested again since), "letters" (judged, letter not out), or "all".</param>
public sealed record TestSearch(string Show, string? Find, string Sort);

/// <summary>Radon tests of all houses, and systems that have had none, read for a list.</summary>
public static class TestList
{
    public const int Most = 200;

    public sealed record Row(
        int Id, int HouseId, string Street, string City, string? For, TestReason Reason, DateTime StartedAtUtc, DateTime? EndedAtUtc, string MadeBy, int Devices, TestOutcome Outcome,
        decimal? PCiL, bool Judged, bool Read, DateTime? LetterSentAtUtc, string Zone)
    {
        public string State => Judged ? TestWords.Of(Outcome) : Read ? "To judge" : "Devices out";
    }

    public sealed record Untested(int HouseId, string House, string? For, DateTime ActivatedAtUtc, string Zone);

    private static readonly Expression<Func<RadonTest, bool>> IsRead = t => t.EndedAtUtc != null && t.Devices.Any() && t.Devices.All(d => d.PCiL != null);

    public static async Task<IReadOnlyList<Row>> RowsAsync(OfficeDb db, TestSearch asked, int most)
    {
        var tests = db.RadonTests.AsNoTracking();
        tests = asked.Show switch
        {
            "out" => tests.Where(t => t.JudgedAtUtc == null && (t.EndedAtUtc == null || !t.Devices.Any() || t.Devices.Any(d => d.PCiL == null))),
            "to-judge" => tests.Where(t => t.JudgedAtUtc == null).Where(IsRead),
            "judged" => tests.Where(t => t.JudgedAtUtc != null),
            "not-passed" => tests.Where(t => t.Outcome == TestOutcome.NotPassed && !db.RadonTests.Any(l => l.HouseId == t.HouseId && l.StartedAtUtc > t.StartedAtUtc && l.JudgedAtUtc != null && l.Outcome != TestOutcome.NotValid)),
            "letters" => tests.Where(t => t.JudgedAtUtc != null && t.LetterSentAtUtc == null),
            _ => tests,
        };
        var joined = from t in tests
                     join h in db.Houses on t.HouseId equals h.Id
                     let owner = h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!).FirstOrDefault()
                     select new { t, h, owner };
        if (SearchText.Of(asked.Find) is { Length: > 0 } find)
            joined = joined.Where(x => x.h.Search.Contains(find) || (x.owner != null && x.owner.Search.Contains(find)) || x.t.Devices.Any(d => d.Serial.Contains(asked.Find!.Trim())));
        joined = asked.Sort switch
        {
            "house" => joined.OrderBy(x => x.h.Search).ThenBy(x => x.t.Id),
            "-house" => joined.OrderByDescending(x => x.h.Search).ThenBy(x => x.t.Id),
            "result" => joined.OrderBy(x => x.t.DecidingPCiL ?? -1).ThenBy(x => x.t.Id),
            "-result" => joined.OrderByDescending(x => x.t.DecidingPCiL ?? -1).ThenBy(x => x.t.Id),
            "started" => joined.OrderBy(x => x.t.StartedAtUtc).ThenBy(x => x.t.Id),
            _ => joined.OrderByDescending(x => x.t.StartedAtUtc).ThenByDescending(x => x.t.Id),
        };
        return await joined.Take(most).Select(x => new Row(
            x.t.Id, x.h.Id, x.h.Street, x.h.City, x.owner == null ? null : x.owner.Name, x.t.Reason, x.t.StartedAtUtc, x.t.EndedAtUtc, x.t.MadeBy, x.t.Devices.Count, x.t.Outcome,
            x.t.DecidingPCiL, x.t.JudgedAtUtc != null, x.t.EndedAtUtc != null && x.t.Devices.Any() && x.t.Devices.All(d => d.PCiL != null), x.t.LetterSentAtUtc, x.h.TimeZone)).ToListAsync();
    }

    /// <summary>Running systems without any test, oldest first.</summary>
    public static async Task<IReadOnlyList<Untested>> UntestedAsync(OfficeDb db) =>
        await (from s in db.Systems.AsNoTracking()
               where s.LeftRunning && !db.RadonTests.Any(t => t.InstalledSystemId == s.Id)
               join h in db.Houses on s.HouseId equals h.Id
               orderby s.ActivatedAtUtc
               select new Untested(h.Id, h.Street + ", " + h.City, h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!.Name).FirstOrDefault(), s.ActivatedAtUtc, h.TimeZone)).Take(Most).ToListAsync();
}
