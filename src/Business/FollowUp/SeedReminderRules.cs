using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The rules an office starts with. None names a price, so they are about the safety of what was bought and not offers;
/// they carry a postal address and an opt-out all the same.</summary>
public static class SeedReminderRules
{
    public const string Retest = "retest";
    public const string AlarmBattery = "alarm-battery";
    public const string TestNotBack = "test-not-back";

    public static async Task RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var known = await db.ReminderRules.Select(r => r.Code).ToListAsync(cancel);
        db.ReminderRules.AddRange(First().Where(r => !known.Contains(r.Code)));
        await db.SaveChangesAsync(cancel);
    }

    private static IEnumerable<ReminderRule> First()
    {
        yield return new ReminderRule
        {
            Code = Retest, Name = "Radon retest", LeadDays = 21, Subject = "A radon test of your house is due",
            Body = """
                Dear {name},

                a house with a radon system is to be tested again every two years, to show that the system still does its work. For {house} that is due by {due}.

                Why now: {because}

                You can use a test kit of your own, ask any qualified tester, or call us: {phone}. Keep the house closed for 12 hours before a short test and during it. Please tell us the result, so that the record of your system ({tag}) is complete.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = AlarmBattery, Name = "Alarm battery", LeadDays = 7, Subject = "Time for a new battery in your radon system's alarm",
            Body = """
                Dear {name},

                the alarm of the radon system at {house} tells you when the suction is gone. It runs on a battery, which should be new by {due}.

                Why now: {because}

                While you are there, look at the gauge on the pipe: the two sides of the liquid should stand at different heights, about as marked on the label. If they are level, the fan is not pulling: call us at {phone}. Do not open the fan or its wiring.

                {company}
                """,
        };
        yield return new ReminderRule
        {
            Code = TestNotBack, Name = "Test after the work not back", LeadDays = 0, Subject = "The radon test of your new system is not back yet",
            Body = """
                Dear {name},

                the system at {house} has to be proven by a radon test between one day and thirty days after its fan was switched on. We do not have that result yet.

                {because}

                If the test stands in the house, please end it and send it in as its leaflet says. If you have no test, call us: {phone}.

                {company}
                """,
        };
    }
}
