namespace MitigationOffice.Business.FollowUp;

/// <summary>What the office reminds itself of.</summary>
internal static class SeedOfficeRules
{
    public static IEnumerable<ReminderRule> First()
    {
        yield return new ReminderRule
        {
            Code = SeedReminderRules.LicenceEnd,
            Name = "A licence ends",
            Anchor = ReminderAnchor.LicenceEnd,
            AfterDays = "-60, -14",
            LeadDays = 0,
            Channel = ReminderChannel.Office,
            Subject = "A licence ends soon",
            Body = """
                {because}

                Renew it in time: work under a licence that has ended may not be reported or paid. The new day is written down under Shop, Licences.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.MonthReport,
            Name = "State report not frozen",
            Anchor = ReminderAnchor.MonthReport,
            AfterDays = "3, 10",
            LeadDays = 0,
            Channel = ReminderChannel.Office,
            Subject = "The state report of last month is open",
            Body = """
                {because}

                Look at it under State reports, mend what it lists, freeze it and send it before your state's own last day.

                {company}
                """,
        };
    }
}
