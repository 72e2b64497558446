using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>A rule as it is typed. What the rule's anchor has no use for is not on the form, and stays.</summary>
public sealed class RuleForm
{
    public string? Name { get; set; }
    public string? LeadDays { get; set; }
    public string? EveryMonths { get; set; }
    public string? AfterDays { get; set; }
    public string? SeasonDay { get; set; }
    public string? AtRiskDays { get; set; }
    public string? ByModel { get; set; }
    public string? StopAfterMonths { get; set; }
    public ReminderChannel Channel { get; set; }
    public bool Commercial { get; set; }
    public bool Off { get; set; }
    public string? Subject { get; set; }
    public string? Body { get; set; }

    public static RuleForm Of(ReminderRule rule) => new()
    {
        Name = rule.Name,
        LeadDays = TypedNumbers.Plain((decimal)rule.LeadDays),
        EveryMonths = TypedNumbers.Plain((decimal?)rule.EveryMonths),
        AfterDays = rule.AfterDays,
        SeasonDay = rule.SeasonDay,
        AtRiskDays = TypedNumbers.Plain((decimal?)rule.AtRiskDays),
        ByModel = rule.ByModel,
        StopAfterMonths = TypedNumbers.Plain((decimal?)rule.StopAfterMonths),
        Channel = rule.Channel,
        Commercial = rule.Commercial,
        Off = rule.Off,
        Subject = rule.Subject,
        Body = rule.Body,
    };

    public void Write(ReminderRule rule, FormReading read)
    {
        rule.Name = read.Text(Name, nameof(Name), "name", needed: true, most: 80);
        rule.LeadDays = read.Whole(LeadDays, nameof(LeadDays), "number of days", 0, 180, needed: true) ?? rule.LeadDays;
        rule.StopAfterMonths = read.Whole(StopAfterMonths, nameof(StopAfterMonths), "number of months", 1, 600);
        WriteWhen(rule, read);
        (rule.Commercial, rule.Off) = (Commercial, Off);
        // The office's own reminders go to the office, whatever was posted.
        if (rule.Channel != ReminderChannel.Office && Channel != ReminderChannel.Office) rule.Channel = Channel;
        rule.Subject = read.Text(Subject, nameof(Subject), "subject", needed: true, most: 150);
        rule.Body = read.Text(Body, nameof(Body), "text", needed: true, most: 8000);
        foreach (var problem in ReminderText.Problems(rule.Subject, Commercial)) read.Refuse(nameof(Subject), problem);
        foreach (var problem in ReminderText.Problems(rule.Body, Commercial)) read.Refuse(nameof(Body), problem);
    }

    private void WriteWhen(ReminderRule rule, FormReading read)
    {
        if (RuleWords.HasInterval(rule.Anchor)) rule.EveryMonths = read.Whole(EveryMonths, nameof(EveryMonths), "number of months", 1, 240);
        if (RuleWords.HasDays(rule.Anchor))
        {
            rule.AfterDays = read.Text(AfterDays, nameof(AfterDays), "days", most: 60);
            if (ReminderDays.Problem(rule.AfterDays) is { } problem) read.Refuse(nameof(AfterDays), problem);
        }

        if (RuleWords.HasSeason(rule.Anchor))
        {
            rule.SeasonDay = read.Text(SeasonDay, nameof(SeasonDay), "day of the year", needed: true, most: 10);
            if (rule.SeasonDay.Length > 0 && ReminderDays.Season(rule.SeasonDay) is null) read.Refuse(nameof(SeasonDay), "Write the day of the year as month-day, for example 10-15.");
        }

        if (rule.Anchor == ReminderAnchor.FreezeSeason) rule.AtRiskDays = read.Whole(AtRiskDays, nameof(AtRiskDays), "number of days", 1, 200);
        if (rule.Anchor != ReminderAnchor.BatteryFitted) return;
        rule.ByModel = read.Text(ByModel, nameof(ByModel), "months by model", most: 4000);
        if (ReminderDays.ModelProblem(rule.ByModel) is { } line) read.Refuse(nameof(ByModel), line);
    }
}
