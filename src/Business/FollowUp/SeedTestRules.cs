namespace MitigationOffice.Business.FollowUp;

/// <summary>Rules about measuring the house again.</summary>
internal static class SeedTestRules
{
    public static IEnumerable<ReminderRule> First()
    {
        yield return new ReminderRule
        {
            Code = SeedReminderRules.Retest,
            Name = "Radon retest",
            Anchor = ReminderAnchor.LastValidTest,
            LeadDays = 21,
            Subject = "A radon test of your house is due",
            Body = """
                Dear {name},

                A house with a radon system is to be tested again every two years, to show that the system still does its work. For {house} that is due by {due}.

                Why now: {because}

                You can use a test kit of your own, ask any qualified tester, or call us: {phone}. Keep the house closed for 12 hours before a short test and during it. Please tell us the result, so that the record of your system ({tag}) is complete.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.TestNotBack,
            Name = "Test after the work not back",
            Anchor = ReminderAnchor.TestNotBack,
            AfterDays = "14, 30",
            StopAfterMonths = 12,
            LeadDays = 0,
            Subject = "The radon test of your new system is not back yet",
            Body = """
                Dear {name},

                The system at {house} has to be proven by a radon test within thirty days after it began to run, not in its first 24 hours. We do not have that result yet.

                {because}

                If the test stands in the house, please end it and send it in as its leaflet says. If you have no test, call us: {phone}.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.BothSeasons,
            Name = "First year in both seasons, without a fan",
            Anchor = ReminderAnchor.FirstYearSeasons,
            LeadDays = 21,
            Subject = "A radon test in the other season is due",
            Body = """
                Dear {name},

                A radon system without a fan works differently in winter and in summer. In its first year the house at {house} is to be tested in both seasons. The next test is due around {due}.

                {because}

                You can use a test kit of your own, ask any qualified tester, or call us: {phone}. Please tell us the result.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.NewOwner,
            Name = "Test after a sale",
            Anchor = ReminderAnchor.NewOwner,
            AfterDays = "30",
            StopAfterMonths = 12,
            LeadDays = 0,
            Subject = "Your house has a radon system: what to know",
            Body = """
                Dear {name},

                The house at {house} has a system that draws radon from under the floor (tag {tag}). It runs day and night, and should: please do not switch it off.

                {because} After a sale the house is to be tested again, and after that every two years.

                Look at the gauge on the pipe: the two sides of the liquid should stand at different heights. If they are level, the fan is not pulling: call us at {phone}. Do not open the fan or its wiring.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.HouseChanged,
            Name = "Test after building work",
            Anchor = ReminderAnchor.HouseChanged,
            AfterDays = "14",
            StopAfterMonths = 12,
            LeadDays = 0,
            Subject = "After building work: please have your radon tested",
            Body = """
                Dear {name},

                Building work, a new furnace or new windows can change how a house draws air from the ground. {because}

                Please have {house} tested again. You can use a test kit of your own, ask any qualified tester, or call us: {phone}. Keep the house closed for 12 hours before a short test and during it.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.FanChanged,
            Name = "Test after a new fan",
            Anchor = ReminderAnchor.FanChanged,
            AfterDays = "7",
            StopAfterMonths = 6,
            LeadDays = 0,
            Subject = "Your radon system has a new fan: please have it tested",
            Body = """
                Dear {name},

                {because} A test shows that the new fan does its work at {house}. It can start 24 hours after the fan was switched on and should be done within 30 days.

                If you have no test kit, call us: {phone}. Please tell us the result.

                {company}
                """,
        };
    }
}
