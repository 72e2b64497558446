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
    public const string BothSeasons = "both-seasons";
    public const string NewOwner = "new-owner";
    public const string HouseChanged = "house-changed";
    public const string FanChanged = "fan-changed";
    public const string GaugeLook = "gauge-look";
    public const string FreezeSeason = "freeze-season";
    public const string FanWarranty = "fan-warranty";
    public const string LicenceEnd = "licence-end";
    public const string CalibrationEnd = "calibration-end";
    public const string StateReport = "state-report";
    public const string StateFee = "state-fee";

    public static async Task RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var known = await db.ReminderRules.Select(r => r.Code).ToListAsync(cancel);
        db.ReminderRules.AddRange(SeedTestRules.First().Concat(SeedPartRules.First()).Concat(SeedOfficeRules.First()).Where(r => !known.Contains(r.Code)));
        await db.SaveChangesAsync(cancel);
    }
}
