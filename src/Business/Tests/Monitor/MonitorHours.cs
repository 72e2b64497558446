using System.Globalization;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>Hours in a row, each with its reading in pCi/L or none.</summary>
public sealed record MonitorHours(DateTime FromUtc, IReadOnlyList<decimal?> PCiL)
{
    public DateTime ToUtc => FromUtc.AddHours(PCiL.Count);

    public string Write() => string.Join(',', PCiL.Select(p => p?.ToString("0.############", CultureInfo.InvariantCulture)));

    public static MonitorHours Of(MonitorRecord record) => new(record.FromUtc, record.HoursPCiL.Length == 0 ? [] :
        [.. record.HoursPCiL.Split(',').Select(cell => cell.Length == 0 ? (decimal?)null : decimal.Parse(cell, CultureInfo.InvariantCulture))]);

    /// <summary>Hours without a reading between the first and the last that have one.</summary>
    public int Missing => PCiL.Count == 0 ? 0 : PCiL.Skip(1).SkipLast(1).Count(p => p is null);

    /// <summary>Only the hours that lie wholly between two instants, give or take some minutes; ends without readings left off.</summary>
    public MonitorHours Between(DateTime? fromUtc, DateTime? toUtc, TimeSpan give)
    {
        var first = Enumerable.Range(0, PCiL.Count).FirstOrDefault(h => (fromUtc is not { } from || FromUtc.AddHours(h) >= from - give) && PCiL[h] is not null, -1);
        if (first < 0) return this with { PCiL = [] };
        var last = Enumerable.Range(first, PCiL.Count - first).LastOrDefault(h => (toUtc is not { } to || FromUtc.AddHours(h + 1) <= to + give) && PCiL[h] is not null, first - 1);
        return new(FromUtc.AddHours(first), [.. PCiL.Skip(first).Take(last - first + 1)]);
    }
}
