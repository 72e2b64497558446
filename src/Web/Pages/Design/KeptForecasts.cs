using System.Collections.Concurrent;
using MitigationOffice.Engineering.Freezing;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>The latest freeze forecasts, so that looking again at a winter over a long record costs nothing. The key holds all that
/// goes in, so a kept forecast is never an old one.</summary>
public static class KeptForecasts
{
    private const int Most = 50;
    private static readonly ConcurrentDictionary<string, (FreezeReport? Forecast, string? WhyNone)> Kept = new(StringComparer.Ordinal);

    public static (FreezeReport? Forecast, string? WhyNone) Of(string key, Func<(FreezeReport? Forecast, string? WhyNone)> compute)
    {
        if (Kept.TryGetValue(key, out var known)) return known;
        if (Kept.Count >= Most) Kept.Clear();
        return Kept[key] = compute();
    }
}
