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
            Code = SeedReminderRules.CalibrationEnd,
            Name = "An instrument's calibration ends",
            Anchor = ReminderAnchor.CalibrationEnd,
            AfterDays = "-30, -7, 1",
            LeadDays = 0,
            Channel = ReminderChannel.Office,
            Subject = "An instrument is to be calibrated",
            Body = """
                {because}

                A test that begins without a valid calibration is not valid. Send the instrument in, and write the new day down under Shop, Instruments.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.StateReport,
            Name = "A state report is due",
            Anchor = ReminderAnchor.ReportDue,
            AfterDays = "-7, -1, 1",
            LeadDays = 0,
            Channel = ReminderChannel.Office,
            Subject = "{because}",
            Body = """
                {because}

                Freeze it and send it under State reports, and note there that it was sent. Confirm the day with your state program.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.StateFee,
            Name = "A tag or registration fee is due",
            Anchor = ReminderAnchor.ReportFeeDue,
            AfterDays = "-7, -1, 1",
            LeadDays = 0,
            Channel = ReminderChannel.Office,
            Subject = "{because}",
            Body = """
                {because}

                Pay it, and note the day under State reports. Confirm the amount and the day with your state program.

                {company}
                """,
        };
    }
}
