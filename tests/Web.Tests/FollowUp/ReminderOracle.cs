namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>Says when each reminder goes out, written another way than the program: it walks the days one by one and knows nothing of
/// plans, keys or states.</summary>
public static class ReminderOracle
{
    public static readonly DateOnly First = new(2026, 3, 2);
    public const int Years = 20;

    /// <param name="Activated">Day the fan was switched on.</param>
    /// <param name="FirstTestAfterDays">Days until the first test is back; 0: never.</param>
    /// <param name="Obeys">Tests again this many days after a retest reminder; 0: never.</param>
    /// <param name="ChangesBattery">Changes the battery this many days after its reminder; 0: never.</param>
    public sealed record Plan(string Email, string Zone, DateOnly Activated, int FirstTestAfterDays, int Obeys, DateOnly? Battery, int ChangesBattery);

    /// <summary>Once a week or every so many days, but for two months in which the program is off.</summary>
    public static bool Looks(DateOnly day, int every = 7) => !(day >= new DateOnly(2031, 6, 1) && day < new DateOnly(2031, 8, 1)) && day.DayNumber % every == First.DayNumber % every;

    /// <summary>Day by day: what has come due since the last thing of its kind was said is said at the next look.</summary>
    public static IEnumerable<(string Email, DateOnly Day, string Kind)> Of(Plan h, int every = 7)
    {
        DateOnly? lastTest = null, testComes = h.FirstTestAfterDays > 0 ? h.Activated.AddDays(h.FirstTestAfterDays) : null, battery = h.Battery, batteryComes = null;
        DateOnly? retestSaidFor = null, batterySaidFor = null;
        var notBackSaid = 0;
        for (var day = First; day < First.AddYears(Years); day = day.AddDays(1))
        {
            if (day < h.Activated) continue;
            if (testComes == day) (lastTest, testComes, retestSaidFor) = (day, null, null);
            if (batteryComes == day) (battery, batteryComes, batterySaidFor) = (day, null, null);
            if (!Looks(day, every)) continue;
            if (lastTest is null && AskedFor(day.DayNumber - h.Activated.DayNumber) is var asked && asked > notBackSaid)
            {
                notBackSaid = asked;
                yield return (h.Email, day, "not back");
            }

            if (LatestDue(lastTest ?? h.Activated, 24, day.AddDays(21)) is { } retest && retest != retestSaidFor)
            {
                retestSaidFor = retest;
                if (h.Obeys > 0) testComes = day.AddDays(h.Obeys);
                yield return (h.Email, day, "retest");
            }

            if (battery is { } fitted && LatestDue(fitted, 12, day.AddDays(7)) is { } change && change != batterySaidFor)
            {
                batterySaidFor = change;
                if (h.ChangesBattery > 0) batteryComes = day.AddDays(h.ChangesBattery);
                yield return (h.Email, day, "battery");
            }
        }
    }

    private static int AskedFor(int days) => days >= 30 ? 30 : days >= 14 ? 14 : 0;

    /// <summary>The last anniversary not after the day, found by stepping through calendar months by year and month alone.</summary>
    private static DateOnly? LatestDue(DateOnly anchor, int everyMonths, DateOnly until)
    {
        DateOnly? latest = null;
        for (var (year, month) = (anchor.Year, anchor.Month); ;)
        {
            (year, month) = (year + (month - 1 + everyMonths) / 12, (month - 1 + everyMonths) % 12 + 1);
            var due = new DateOnly(year, month, Math.Min(anchor.Day, DateTime.DaysInMonth(year, month)));
            if (due > until) return latest;
            latest = due;
        }
    }
}
