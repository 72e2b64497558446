using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.FollowUp;

/// <summary>What a house owner says on their own page, and what the office makes of it.</summary>
public static class HearOwner
{
    /// <summary>So many things may wait for the office from one house; more are refused.</summary>
    public const int MostWaiting = 10;

    /// <summary>Keeps it for the office; the same words twice are kept once. False: too much waits already.</summary>
    public static Task<bool> TellAsync(OfficeDb db, OwnerWord word) => db.WriteAsync(async () =>
    {
        var waiting = await db.OwnerWords.Where(w => w.HouseId == word.HouseId && w.SettledAtUtc == null).ToListAsync();
        if (waiting.Exists(w => Same(w, word))) return true;
        if (waiting.Count >= MostWaiting) return false;
        db.OwnerWords.Add(word);
        await db.SaveChangesAsync();
        return true;
    });

    private static bool Same(OwnerWord a, OwnerWord b) =>
        (a.CustomerId, a.Kind, a.OnDay, a.PCiL, a.Name, a.Email, a.Phone, a.PostalAddress, a.Words) == (b.CustomerId, b.Kind, b.OnDay, b.PCiL, b.Name, b.Email, b.Phone, b.PostalAddress, b.Words);

    /// <summary>The office takes over what was told (a result becomes a test, an address the customer's), or only notes that it saw it.</summary>
    public static Task<string?> SettleAsync(OfficeDb db, int id, bool takeOver, string by, DateTime nowUtc) => db.WriteAsync<string?>(async () =>
    {
        if (await db.OwnerWords.SingleOrDefaultAsync(w => w.Id == id && w.SettledAtUtc == null) is not { } word) return "This was settled already.";
        var how = takeOver ? await TakeOverAsync(db, word, nowUtc) : "seen";
        (word.SettledAtUtc, word.SettledBy, word.SettledHow) = (nowUtc, by, how);
        await db.SaveChangesAsync();
        return null;
    });

    private static async Task<string> TakeOverAsync(OfficeDb db, OwnerWord word, DateTime nowUtc)
    {
        if (word is { Kind: OwnerWordKind.TestDone, OnDay: { } day, PCiL: { } level })
        {
            db.RadonTests.Add(await TestAsync(db, word, day, level, nowUtc));
            return "taken over as a test";
        }

        if (word.Kind != OwnerWordKind.NewAddress) return "seen";
        var customer = await db.Customers.SingleAsync(c => c.Id == word.CustomerId);
        if (word.Email.Length > 0) customer.Email = word.Email;
        if (word.Phone.Length > 0) customer.Phone = word.Phone;
        if (word.PostalAddress.Length > 0) customer.MailingAddress = word.PostalAddress;
        customer.MakeSearchable();
        return "taken over into the customer's record";
    }

    private static async Task<RadonTest> TestAsync(OfficeDb db, OwnerWord word, DateOnly day, decimal level, DateTime nowUtc)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var zone = HouseTime.Zone(await db.Houses.Where(h => h.Id == word.HouseId).Select(h => h.TimeZone).SingleAsync(), company.TimeZone);
        var ended = HouseTime.ToUtc(day, new TimeOnly(12, 0), zone);
        return new RadonTest
        {
            HouseId = word.HouseId,
            InstalledSystemId = await db.Systems.Where(s => s.HouseId == word.HouseId).OrderByDescending(s => s.ActivatedAtUtc).Select(s => (int?)s.Id).FirstOrDefaultAsync(),
            Reason = TestReason.Retest,
            StartedAtUtc = ended.AddDays(-2),
            EndedAtUtc = ended,
            MadeBy = "the house owner",
            Notes = $"Told on the owner's own page: {word.Words}".TrimEnd(' ', ':'),
            TargetPCiL = company.TargetPCiL,
            DecidingPCiL = level,
            Outcome = level >= 4 ? TestOutcome.NotPassed : level >= company.TargetPCiL ? TestOutcome.BelowActionLevel : TestOutcome.BelowTarget,
            OutcomeWhy = "Told by the house owner; how the test was made was not checked by the office.",
            JudgedAtUtc = nowUtc,
            Devices = [new TestDevice { Kind = DeviceKind.Charcoal, Room = "as the owner chose", PCiL = level }],
        };
    }
}
