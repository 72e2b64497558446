using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>Leaves a system out of a profile's reports with a reason, and takes that back. One that was reported is withdrawn in the next report.</summary>
public static class LeaveOut
{
    /// <returns>Null, or why not.</returns>
    public static Task<string?> RunAsync(OfficeDb db, string profileCode, int systemId, string reason, string by, DateTime nowUtc) => db.WriteAsync(async () =>
    {
        await db.TakeTurnAsync(Turn.Report);
        if (reason.Length == 0) return "Write why this system is left out.";
        if (Csv.LooksComputed(reason)) return $"A reason cannot begin with “{reason[0]}”: a spreadsheet would take it for a formula.";
        if (!await db.Systems.AnyAsync(s => s.Id == systemId)) return "There is no such system.";
        var key = KeyOf(profileCode, systemId);
        if (await db.ReportExclusions.AnyAsync(e => e.OpenKey == key)) return "This system is left out already.";
        db.ReportExclusions.Add(new ReportExclusion { ProfileCode = profileCode, InstalledSystemId = systemId, Reason = reason, AtUtc = nowUtc, By = by, OpenKey = key });
        await db.SaveChangesAsync();
        return null;
    });

    public static Task TakeBackAsync(OfficeDb db, string profileCode, int systemId, string by, DateTime nowUtc) => db.WriteAsync(async () =>
    {
        await db.TakeTurnAsync(Turn.Report);
        var key = KeyOf(profileCode, systemId);
        if (await db.ReportExclusions.FirstOrDefaultAsync(e => e.OpenKey == key) is not { } exclusion) return;
        (exclusion.OpenKey, exclusion.TakenBackAtUtc, exclusion.TakenBackBy) = (null, nowUtc, by);
        await db.SaveChangesAsync();
    });

    private static string KeyOf(string profileCode, int systemId) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{profileCode}:{systemId}");
}
