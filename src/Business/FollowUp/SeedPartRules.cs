namespace MitigationOffice.Business.FollowUp;

/// <summary>Rules about the parts of the system.</summary>
internal static class SeedPartRules
{
    public static IEnumerable<ReminderRule> First()
    {
        yield return new ReminderRule
        {
            Code = SeedReminderRules.AlarmBattery,
            Name = "Alarm battery",
            Anchor = ReminderAnchor.BatteryFitted,
            LeadDays = 7,
            Subject = "Time for a new battery in your radon system's alarm",
            Body = """
                Dear {name},

                The alarm of the radon system at {house} tells you when the suction is gone. It runs on a battery, which should be new by {due}.

                Why now: {because}

                While you are there, look at the gauge on the pipe: the two sides of the liquid should stand at different heights, about as marked on the label. If they are level, the fan is not pulling: call us at {phone}. Do not open the fan or its wiring.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.GaugeLook,
            Name = "Look at the gauge before winter",
            Anchor = ReminderAnchor.BeforeWinter,
            SeasonDay = "10-15",
            LeadDays = 0,
            Subject = "A look at your radon system's gauge before winter",
            Body = """
                Dear {name},

                Once a year, before it gets cold, please look at the gauge on the pipe of your radon system at {house}. The two sides of the liquid should stand at different heights, about as marked on the label.

                If they are level, the fan is not pulling. If they stand much further apart than the mark, something may be in the pipe. In both cases call us at {phone}. Do not open the fan or its wiring.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.FreezeSeason,
            Name = "Freeze season, outdoor pipe without a cable",
            Anchor = ReminderAnchor.FreezeSeason,
            SeasonDay = "11-20",
            LeadDays = 0,
            Subject = "Ice in your radon system's outdoor pipe: what to watch for",
            Body = """
                Dear {name},

                In long cold spells ice can grow in the outdoor pipe of the radon system at {house}. {because}

                Watch the gauge on the pipe in very cold weather. If the liquid rises above the mark, or the fan sounds strained, call us: {phone}. Stay away from ice that hangs from the pipe, and do not climb up to it or knock at it. Leave the fan running unless we say otherwise.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = SeedReminderRules.FanWarranty,
            Name = "End of the fan's warranty",
            Anchor = ReminderAnchor.FanWarrantyEnd,
            LeadDays = 60,
            Subject = "The warranty on your radon system's fan ends soon",
            Body = """
                Dear {name},

                {because}

                If the fan at {house} has become louder, or the gauge on the pipe reads less than the mark on its label, tell us before that day: {phone}. Then it can still be looked at under the maker's warranty.

                {company}
                """,
        };
    }
}
