using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>A rule as it is typed.</summary>
public sealed class RuleForm
{
    public string? Name { get; set; }
    public string? LeadDays { get; set; }
    public bool Commercial { get; set; }
    public bool Off { get; set; }
    public string? Subject { get; set; }
    public string? Body { get; set; }

    public static RuleForm Of(ReminderRule rule) => new()
    {
        Name = rule.Name, LeadDays = TypedNumbers.Plain((decimal)rule.LeadDays), Commercial = rule.Commercial, Off = rule.Off, Subject = rule.Subject, Body = rule.Body,
    };

    public void Write(ReminderRule rule, FormReading read)
    {
        rule.Name = read.Text(Name, nameof(Name), "name", needed: true, most: 80);
        rule.LeadDays = read.Whole(LeadDays, nameof(LeadDays), "number of days", 0, 180, needed: true) ?? rule.LeadDays;
        (rule.Commercial, rule.Off) = (Commercial, Off);
        rule.Subject = read.Text(Subject, nameof(Subject), "subject", needed: true, most: 150);
        rule.Body = read.Text(Body, nameof(Body), "text", needed: true, most: 8000);
        foreach (var problem in ReminderText.Problems(rule.Subject, Commercial)) read.Refuse(nameof(Subject), problem);
        foreach (var problem in ReminderText.Problems(rule.Body, Commercial)) read.Refuse(nameof(Body), problem);
    }
}
