using System.Globalization;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>When a rule speaks and when it stops, in words.</summary>
public static class RuleWords
{
    public static bool HasInterval(ReminderAnchor anchor) => anchor is ReminderAnchor.LastValidTest or ReminderAnchor.BatteryFitted;

    public static bool HasDays(ReminderAnchor anchor) =>
        anchor is ReminderAnchor.TestNotBack or ReminderAnchor.NewOwner or ReminderAnchor.HouseChanged or ReminderAnchor.FanChanged or ReminderAnchor.LicenceEnd;

    public static bool HasSeason(ReminderAnchor anchor) => anchor is ReminderAnchor.BeforeWinter or ReminderAnchor.FreezeSeason;

    public static string When(ReminderRule rule, int retestMonths, int batteryMonths)
    {
        var days = string.Join(" and ", ReminderDays.Read(rule.AfterDays).Select(d => d switch { 0 => "on the day", < 0 => $"{-d} days before", _ => $"{d} days after" }));
        var season = ReminderDays.Season(rule.SeasonDay) is { } at ? $"every {new DateOnly(2027, at.Month, at.Day).ToString("MMMM d", CultureInfo.InvariantCulture)}" : "no day is set";
        return rule.Anchor switch
        {
            ReminderAnchor.LastValidTest => $"every {rule.EveryMonths ?? retestMonths} months from the last valid test, or from the switching on where there is none",
            ReminderAnchor.TestNotBack => $"{days} the fan was switched on",
            ReminderAnchor.FirstYearSeasons => "in the first January and July of a system without a fan",
            ReminderAnchor.NewOwner => $"{days} the house changed hands",
            ReminderAnchor.HouseChanged => $"{days} building work that is noted on the follow-up sheet",
            ReminderAnchor.FanChanged => $"{days} a new fan was fitted",
            ReminderAnchor.BatteryFitted => $"every {rule.EveryMonths ?? batteryMonths} months from the day the battery was fitted{(rule.ByModel.Length > 0 ? ", other models as listed" : "")}",
            ReminderAnchor.BeforeWinter => $"{season}, for systems with a gauge",
            ReminderAnchor.FreezeSeason => $"{season}, where a cable or insulation was recommended and declined",
            ReminderAnchor.FanWarrantyEnd => "at the end of the warranty written down with the fan",
            _ => $"{days} a licence ends",
        };
    }

    public static string Stops(ReminderRule rule)
    {
        var fact = rule.Anchor switch
        {
            ReminderAnchor.LastValidTest => "a newer valid test starts it anew",
            ReminderAnchor.TestNotBack => "when a test is back",
            ReminderAnchor.FirstYearSeasons => "when both seasons are tested",
            ReminderAnchor.NewOwner or ReminderAnchor.HouseChanged or ReminderAnchor.FanChanged => "when a valid test was made since",
            ReminderAnchor.BatteryFitted => "a new battery starts it anew",
            ReminderAnchor.BeforeWinter => $"{Occasions.SeasonLastsDays} days after its day",
            ReminderAnchor.FreezeSeason => $"when a cable is fitted; {Occasions.SeasonLastsDays} days after its day",
            ReminderAnchor.FanWarrantyEnd => "when the fan is replaced or the day is past",
            _ => "when a later day is written down",
        };
        return fact + (rule.StopAfterMonths is { } months ? $"; {months} months after it began at the latest" : "");
    }

    public static string Channel(ReminderChannel channel) => channel switch
    {
        ReminderChannel.Mail => "e-mail, else letter or phone",
        ReminderChannel.Letter => "letter",
        ReminderChannel.Phone => "phone",
        _ => "to the office itself",
    };

    public static IEnumerable<(string Value, string Words)> Channels =>
        new[] { ReminderChannel.Mail, ReminderChannel.Letter, ReminderChannel.Phone }.Select(c => (c.ToString(), Channel(c)));
}
