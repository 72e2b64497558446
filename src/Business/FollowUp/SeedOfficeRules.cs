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
    }
}
