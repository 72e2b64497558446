using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Tests;

/// <summary>Ties kits that are out to the devices of a test by their serial numbers, and carries a result from the kit to its device.</summary>
public static class LinkKits
{
    /// <summary>After a test was saved: kits of the house that stand in it now, and those that no longer do.</summary>
    public static async Task RunAsync(OfficeDb db, RadonTest test)
    {
        var kits = await db.TestKits.Where(k => k.HouseId == test.HouseId).ToListAsync();
        if (kits.Count == 0) return;
        foreach (var kit in kits)
        {
            var device = test.Devices.Find(d => d.Id == kit.TestDeviceId) ?? test.Devices.Find(d => kit.TestDeviceId is null && Instrument.KeyOf(d.Serial) == kit.SerialKey && kit.LostOn is null);
            if (device is not null) (kit.TestDeviceId, kit.HasResult) = (device.Id, device.PCiL is not null);
        }

        await db.SaveChangesAsync();
    }

    /// <summary>Writes a laboratory's result onto the device, and the end of the test where it is open; the verdict is drawn anew by a person.</summary>
    public static Task<IReadOnlyList<Refusal>> ResultAsync(OfficeDb db, int kitId, decimal pCiL, DateTime? endedUtc, DateTime nowUtc) => db.WriteAsync<IReadOnlyList<Refusal>>(async () =>
    {
        var kit = await db.TestKits.SingleAsync(k => k.Id == kitId);
        if (await db.RadonTests.Include(t => t.Devices).FirstOrDefaultAsync(t => t.Devices.Any(d => d.Id == kit.TestDeviceId)) is not { } test)
            return [new("Result", "This kit was not opened in a room yet. Record where and when it was opened first; then its result has a test to belong to.")];
        if (test.LetterSentAtUtc is not null) return [new("Result", "The letter of this test has gone out; its results no longer change.")];
        if (endedUtc is { } end && end <= test.StartedAtUtc) return [new("Ended.Day", "The kit must be closed after it was opened.")];
        if (endedUtc > nowUtc.AddMinutes(5)) return [new("Ended.Day", "The kit cannot have been closed in the time to come.")];
        if ((endedUtc ?? test.EndedAtUtc) is null) return [new("Ended.Day", "Write the day and the time at which the kit was closed; it stands on its slip.")];
        test.Devices.Single(d => d.Id == kit.TestDeviceId).PCiL = pCiL;
        test.EndedAtUtc = endedUtc ?? test.EndedAtUtc;
        (test.Outcome, test.DecidingPCiL, test.JudgedAtUtc, test.OutcomeWhy) = (TestOutcome.NotJudged, null, null, "");
        db.Entry(test).Property(t => t.Notes).IsModified = true;
        kit.HasResult = true;
        await db.SaveChangesAsync();
        return [];
    });
}
