using System.Globalization;
using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Business.Data;

public static class TakeNumber
{
    /// <summary>The next number of a series ("Q", 2026 → "Q-2026-0118"). Call inside the transaction that saves the bearer.</summary>
    public static async Task<string> NextAsync(OfficeDb db, string letter, int year)
    {
        var series = string.Create(CultureInfo.InvariantCulture, $"{letter}-{year:0000}");
        var counter = db.Counters.Local.FirstOrDefault(c => c.Series == series)
            ?? await db.Counters.FirstOrDefaultAsync(c => c.Series == series);
        if (counter is null) db.Counters.Add(counter = new Counter { Series = series });
        counter.Last++;
        return string.Create(CultureInfo.InvariantCulture, $"{series}-{counter.Last:0000}");
    }
}
