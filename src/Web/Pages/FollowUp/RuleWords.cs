using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>When a rule speaks and when it stops, in words.</summary>
public static class RuleWords
{
    public static bool HasInterval(ReminderAnchor anchor) => anchor is ReminderAnchor.LastValidTest or ReminderAnchor.BatteryFitted;

    public static bool HasDays(ReminderAnchor anchor) =>
        anchor is ReminderAnchor.TestNotBack or ReminderAnchor.NewOwner or ReminderAnchor.HouseChanged or ReminderAnchor.FanChanged || OfOffice(anchor);

    private static bool OfOffice(ReminderAnchor anchor) =>
        anchor is ReminderAnchor.LicenceEnd or ReminderAnchor.CalibrationEnd or ReminderAnchor.ReportDue or ReminderAnchor.ReportFeeDue;

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
            ReminderAnchor.FreezeSeason => $"{season}, where the design expects {rule.AtRiskDays ?? 1} or more days of ice in a winter and no cable is fitted, or one was recommended and declined",
            ReminderAnchor.FanWarrantyEnd => "at the end of the warranty written down with the fan",
            ReminderAnchor.CalibrationEnd => $"{days} an instrument's calibration ends",
            ReminderAnchor.ReportDue => $"{days} the last day of a state report that is not frozen or not sent",
            ReminderAnchor.ReportFeeDue => $"{days} the last day of a fee that goes with a state report",
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
            ReminderAnchor.ReportDue => "when it is frozen and sent",
            ReminderAnchor.ReportFeeDue => "when the fee is noted as paid",
            ReminderAnchor.CalibrationEnd => "when a newer calibration is written down or the instrument is retired",
            _ => "when a later day is written down",
        };
        return fact + (rule.StopAfterMonths is { } months ? $"; {months} months after it began at the latest" : "");
    }

    /// <summary>A fact as the rule would tell it, where there is none to show.</summary>
    public static string Example(ReminderAnchor anchor, DateOnly due)
    {
        var (day, earlier) = (HouseTime.Show(due), HouseTime.Show(due.AddDays(-14)));
        return anchor switch
        {
            ReminderAnchor.LastValidTest => $"The last valid test ended on {HouseTime.Show(due.AddYears(-2))}.",
            ReminderAnchor.TestNotBack => $"The system began to run on {earlier}; 14 days later we had no test result.",
            ReminderAnchor.FirstYearSeasons => "A system without a fan is tested in both seasons of its first year, and there is no test of the heating season yet.",
            ReminderAnchor.NewOwner => $"The house changed hands on {earlier}, and no test has been made since.",
            ReminderAnchor.HouseChanged => $"On {earlier} this was done to the house: new furnace. No test has been made since.",
            ReminderAnchor.FanChanged => $"The fan was replaced on {earlier}, and no test has been made since.",
            ReminderAnchor.BatteryFitted => $"The battery of the alarm was fitted on {HouseTime.Show(due.AddYears(-1))}.",
            ReminderAnchor.FreezeSeason => new HouseFacts.Ice(12, Declined: false).Because(1)!,
            ReminderAnchor.FanWarrantyEnd => $"The maker's warranty on the fan ends on {day}.",
            ReminderAnchor.LicenceEnd => $"The licence 1234 ends on {day}.",
            ReminderAnchor.CalibrationEnd => $"The calibration of the instrument with the serial number 1234 ends on {day}.",
            ReminderAnchor.ReportDue => $"Freeze the report of last month: due on {day}.",
            ReminderAnchor.ReportFeeDue => $"Pay the fee for last month: due on {day}.",
            _ => "Winter is near, and cold makes ice and stronger draught.",
        };
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
