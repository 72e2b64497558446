using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The nudges an office starts with.</summary>
public static class SeedNudgeRules
{
    public static async Task RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        if (await db.NudgeRules.AnyAsync(r => r.Id > 0, cancel)) return;
        db.NudgeRules.AddRange(
            new NudgeRule
            {
                AfterDays = 4,
                Subject = "Your quote {quote}: any questions?",
                Body = """
                    Dear {name},

                    Some days ago we sent you quote {quote} for {house}. If something in it is not clear, answer this message or call us: {phone}.

                    You can read it, choose and sign here, or tell us that you do not want it; then we write no more about it:

                    {link}

                    {company}
                    """,
            },
            new NudgeRule
            {
                AfterDays = 14,
                Subject = "Your quote {quote} holds until {until}",
                Body = """
                    Dear {name},

                    Quote {quote} for {house} holds until {until}. After that day we would have to look at its prices again.

                    {link}

                    If you have decided otherwise, you can decline it on the same page. Questions: {phone}.

                    {company}
                    """,
            });
        await db.SaveChangesAsync(cancel);
    }
}
