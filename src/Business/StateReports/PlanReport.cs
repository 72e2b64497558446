using System.Globalization;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>What the next report holds, from the records and from what was reported before. Pure. A report holds every system whose
/// day lies in its period or before it, back to the start, that stands in none yet; and, as amendments, what was reported
/// before and is now different.</summary>
public static class PlanReport
{
    public const string BeforeStart = "its day is before the first day reported here";
    public const string NotYet = "not yet: there is no valid test after the work";

    /// <param name="told">Every row ever frozen under this profile, in any order.</param>
    public static PlannedReport Of(ReportProfile profile, ReportPeriod period, DateOnly startsOn, IReadOnlyList<SystemToReport> systems, IEnumerable<ToldRow> told, IReadOnlyDictionary<int, ReportRun> runs)
    {
        var ofSystem = told.OrderBy(e => runs[e.ReportRunId].Number).ThenBy(e => e.Position).ToLookup(e => e.InstalledSystemId);
        var (text, rows, places) = (new RowText(profile), new List<PlannedRow>(), new List<SystemPlace>());
        foreach (var system in systems)
        {
            var because = Because(profile, system);
            foreach (var occurrence in system.Occurrences)
            {
                var earlier = ofSystem[system.Id].Where(e => e.EventKey == occurrence.Key).ToList();
                if (earlier.Count == 0) First(system, occurrence, because);
                else Again(system, occurrence, earlier, because);
            }

            foreach (var gone in ofSystem[system.Id].Where(e => system.Occurrences.All(o => o.Key != e.EventKey)).GroupBy(e => e.EventKey, StringComparer.Ordinal))
                Again(system, new(gone.Key, gone.Last().Day), [.. gone], because.Length > 0 ? because : "it is no longer on record");
            if (system.Occurrences.Count == 0 && !ofSystem[system.Id].Any()) places.Add(new(system, null, PlaceKind.LeftOut, because.Length > 0 ? because : Missing(profile), []));
        }

        rows.Sort((a, b) => Order(a, b));
        return new(period, rows, places);

        void First(SystemToReport system, Occurrence occurrence, string why)
        {
            if (why.Length == 0 && occurrence.Day < startsOn) why = BeforeStart;
            if (why.Length > 0)
            {
                places.Add(new(system, occurrence, PlaceKind.LeftOut, why, []));
                return;
            }

            places.Add(new(system, occurrence, PlaceKind.Open, occurrence.Day > period.Last ? $"comes after {period.Words}" : "", []));
            if (occurrence.Day <= period.Last) rows.Add(new(system, occurrence, period.Holds(occurrence.Day) ? RowKind.New : RowKind.Late, system.Values));
        }

        void Again(SystemToReport system, Occurrence occurrence, List<ToldRow> earlier, string why)
        {
            var last = earlier[^1];
            var withdrawn = last.Kind == RowKind.Withdrawal;
            places.Add(new(system, occurrence, withdrawn ? PlaceKind.Withdrawn : PlaceKind.Reported, withdrawn ? last.Changed : "", earlier));
            var amends = string.Create(CultureInfo.InvariantCulture, $"{runs[last.ReportRunId].Period} row {last.Position}");
            if (why.Length > 0)
            {
                if (!withdrawn) rows.Add(new(system, occurrence, RowKind.Withdrawal, last.RowJson is { } then ? RowText.Read(then) : system.Values, amends, why, last.RowJson));
            }
            else if (withdrawn)
            {
                rows.Add(new(system, occurrence, RowKind.Correction, system.Values, amends, "to be reported after all"));
            }
            else if (last.RowJson is { } reported && text.Changed(reported, system.Values) is { Count: > 0 } changed)
            {
                rows.Add(new(system, occurrence, RowKind.Correction, system.Values, amends, string.Join(", ", changed)));
            }
        }
    }

    private static string Because(ReportProfile profile, SystemToReport system) =>
        system.LeftOutBecause.Length > 0 ? system.LeftOutBecause : profile.IsFor(system.State) ? "" : $"the house stands in {(system.State.Length > 0 ? system.State : "no state on record")}, not in {profile.State}";

    private static string Missing(ReportProfile profile) => profile.Events.Contains(CountedEvent.Test) ? NotYet : "nothing that this report counts has happened";

    /// <summary>Counted rows by day, amendments after them by what they amend.</summary>
    private static int Order(PlannedRow a, PlannedRow b)
    {
        if (a.Counts != b.Counts) return a.Counts ? -1 : 1;
        var by = a.Occurrence.Day.CompareTo(b.Occurrence.Day);
        if (by == 0) by = a.System.ActivatedAtUtc.CompareTo(b.System.ActivatedAtUtc);
        if (by == 0) by = a.System.Id.CompareTo(b.System.Id);
        return by != 0 ? by : string.CompareOrdinal(a.Occurrence.Key, b.Occurrence.Key);
    }
}
