using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests;

/// <summary>What will stand against a test, told while its devices are still out and it can be put right.</summary>
public static class WarnOfTest
{
    private const double WithinM = 8 * 0.0254 + 0.0005;

    private static readonly (string Word, string Where)[] Wrong =
    [
        ("bath", "a bathroom"), ("shower", "a bathroom"), ("toilet", "a bathroom"), ("kitchen", "a kitchen"), ("laundry", "a laundry"), ("washer", "a laundry"), ("closet", "a closet"), ("cupboard", "a cupboard"),
        ("crawl", "a crawl space"), ("sump pit", "a sump pit"), ("spa", "a steamy room"), ("sauna", "a steamy room"),
    ];

    public static IEnumerable<string> Of(RadonTest test, DateTime fanOnUtc, TimeZoneInfo zone) =>
        MatchInstruments.Warnings(test, zone).Concat(Window(test, fanOnUtc, zone)).Concat(Places(test)).Concat(Pairs(test));

    private static IEnumerable<string> Window(RadonTest test, DateTime fanOnUtc, TimeZoneInfo zone)
    {
        var window = JudgeTest.Window(fanOnUtc, test.ClosedHouseFromUtc, zone);
        if (test.ClosedHouseFromUtc is null) yield return "It is not written down when the house was closed up. A test of up to 90 days needs it closed for 12 h before (ANSI/AARST MAH 2019, 7.3.2).";
        if (test.StartedAtUtc >= window.EarliestStart.UtcDateTime) yield break;
        var met = HouseTime.Show(window.EarliestStart.UtcDateTime, zone);
        yield return test.Devices.TrueForAll(d => d.Kind == DeviceKind.ContinuousMonitor)
            ? $"The monitor started before {met}, when the fan had run 24 h and the house was closed 12 h. Let it run at least {PostMitigationRules.Default.MonitorShortestHours} h from then on (ANSI/AARST MAH 2019, 7.3.2(b))."
            : $"The test started before {met}, when the fan had run 24 h and the house was closed 12 h. It will not be valid: open new devices after that time (ANSI/AARST MAH 2019, 7.3.2).";
    }

    private static IEnumerable<string> Places(RadonTest test)
    {
        foreach (var d in test.Devices)
            if (Array.Find(Wrong, w => d.Room.Contains(w.Word, StringComparison.OrdinalIgnoreCase)) is { Word: not null } wrong && !(wrong.Word == "spa" && !d.Room.Equals("spa", StringComparison.OrdinalIgnoreCase)))
                yield return $"{d.Room}: a device does not stand in {wrong.Where} (25 Pa. Code 240.310(a)(2)). Move it to a room people live in.";
    }

    private static IEnumerable<string> Pairs(RadonTest test)
    {
        foreach (var pair in test.Devices.Where(d => d.Pair.Length > 0).GroupBy(d => d.Pair))
        {
            var devices = pair.ToList();
            if (devices.Count == 1) yield return $"Pair {pair.Key} has one device only. Give the other one the same word, or empty the field.";
            else if (devices.Find(d => d.ApartM > WithinM) is { } far)
                yield return $"Pair {pair.Key}: the devices stand {Math.Round(far.ApartM!.Value / 0.0254, 1, MidpointRounding.AwayFromZero).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture)} in apart. More than 8 in are two places; they are reported one by one and never averaged (ANSI/AARST MAH 2019, 8.5.2(d)).";
            else if (devices.Count(d => d.ApartM is not null) < devices.Count - 1) yield return $"Pair {pair.Key}: measure how far the devices stand apart. Unknown counts as two places.";
        }
    }
}
