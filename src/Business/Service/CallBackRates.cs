using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Service;

/// <summary>How often systems call people back, by what was found.</summary>
public sealed record CallBackRates(int Systems, double SystemYears, IReadOnlyList<CallBackRates.Row> Rows)
{
    /// <param name="InFirstYear">Of them, asked within a year of the fan's start.</param>
    public sealed record Row(Cause Cause, int Calls, int InFirstYear)
    {
        /// <summary>Calls for a hundred systems that run for a year.</summary>
        public double? PerHundredYears(double systemYears) => systemYears > 0 ? 100 * Calls / systemYears : null;
    }

    public int Calls => Rows.Sum(r => r.Calls);

    /// <summary>Over all systems ever switched on and all settled calls about one. Two statements.</summary>
    public static async Task<CallBackRates> ReadAsync(OfficeDb db, DateTime nowUtc)
    {
        var starts = await db.Systems.AsNoTracking().Where(s => s.ActivatedAtUtc <= nowUtc).Select(s => s.ActivatedAtUtc).ToListAsync();
        var calls = await db.ServiceCalls.AsNoTracking().Where(c => c.State == CallState.Settled && c.Found != null)
            .Join(db.Systems, c => c.InstalledSystemId, s => (int?)s.Id, (c, s) => new { c.Found, c.AskedAtUtc, s.ActivatedAtUtc }).ToListAsync();
        return new(starts.Count, starts.Sum(s => (nowUtc - s).TotalDays / 365.25),
            [.. calls.GroupBy(c => c.Found!.Value).Select(g => new Row(g.Key, g.Count(), g.Count(c => c.AskedAtUtc < c.ActivatedAtUtc.AddYears(1)))).OrderByDescending(r => r.Calls).ThenBy(r => r.Cause)]);
    }
}
